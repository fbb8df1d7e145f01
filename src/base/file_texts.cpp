// SPDX-License-Identifier: MIT
#include "ovendays/base/file_texts.h"

#include <utility>

#include "ovendays/base/error.h"
#include "ovendays/base/file.h"

namespace ovendays::base {

// One lock for all files: reading happens once a file, and a second reader of the same file must
// wait for the first in any case.
std::string FileTexts::text_of(const std::string& path, std::size_t most_bytes) {
  const std::lock_guard<std::mutex> lock(guard_);
  const auto known = entries_.find(path);
  if (known != entries_.end() && known->second.kept) {
    const std::string& text = known->second.text;
    if (text.size() <= most_bytes) return text;
    throw InputError(
        Fault{path,
              0,
              "",
              "cannot be read: it is larger than " + std::to_string(most_bytes) + " bytes",
              ""});
  }
  std::string text = read_file(path, most_bytes);
  if (known != entries_.end()) {
    if (sha256_hex(text) == known->second.sha256) return text;
    throw InputError(Fault{path, 0, "", "has changed since it was first read", ""});
  }
  Entry entry;
  entry.kept = text.size() <= most_kept_ - kept_;
  if (entry.kept) {
    entry.text = text;
    kept_ += text.size();
  } else {
    entry.sha256 = sha256_hex(text);
  }
  entries_.emplace(path, std::move(entry));
  return text;
}
}  // namespace ovendays::base
