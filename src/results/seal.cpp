// SPDX-License-Identifier: MIT
#include "seal.h"

#include <string_view>

#include "ovendays/base/file.h"

namespace ovendays::results {
namespace {
std::string words_of(const std::string& kind) {
  return "\novendays " + kind + ", SHA-256 of all before this line: ";
}
}  // namespace

std::string seal_of(const std::string& bytes, const std::string& kind) {
  return words_of(kind) + base::sha256_hex(bytes) + "\n";
}

std::string seal_complaint(const std::string& file_bytes, const std::string& kind) {
  const std::string words = words_of(kind);
  const std::size_t length = words.size() + 64 + 1;
  const std::string_view all = file_bytes;
  if (all.size() < length || all.substr(all.size() - length, words.size()) != words) {
    return "it does not end as a " + kind +
           " of ovendays does (another kind of file, or cut short)";
  }
  const std::string_view body = all.substr(0, all.size() - length);
  if (std::string_view(seal_of(std::string(body), kind)) != all.substr(body.size())) {
    return "it is damaged: its bytes do not agree with the SHA-256 at its end";
  }
  return "";
}
}  // namespace ovendays::results
