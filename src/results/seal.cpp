// SPDX-License-Identifier: MIT
#include "seal.h"

#include <string_view>

#include "ovendays/base/file.h"

namespace ovendays::results {
namespace {
constexpr std::string_view kWords = "\novendays season, SHA-256 of all before this line: ";
constexpr std::size_t kLength = kWords.size() + 64 + 1;
}  // namespace

std::string seal_of(const std::string& bytes) {
  return std::string(kWords) + base::sha256_hex(bytes) + "\n";
}

std::string seal_complaint(const std::string& file_bytes) {
  const std::string_view all = file_bytes;
  if (all.size() < kLength || all.substr(all.size() - kLength, kWords.size()) != kWords) {
    return "it does not end as a season of ovendays does (another kind of file, or cut short)";
  }
  const std::string_view body = all.substr(0, all.size() - kLength);
  if (std::string_view(seal_of(std::string(body))) != all.substr(body.size())) {
    return "it is damaged: its bytes do not agree with the SHA-256 at its end";
  }
  return "";
}
}  // namespace ovendays::results
