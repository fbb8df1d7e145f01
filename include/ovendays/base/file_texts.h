// SPDX-License-Identifier: MIT
// The files of a run as they were when it first read them. A run that needs a file several times,
// hours apart, then sees one state of it, whatever happens to the file meanwhile.
#pragma once

#include <cstddef>
#include <map>
#include <mutex>
#include <string>

namespace ovendays::base {

/// Reads every file once and gives the same bytes whenever it is asked again by the same name.
/// Thread-safe: yes.
class FileTexts {
 public:
  /// Judgement: some 300 weather files of a full year (1.6 MB each).
  static constexpr std::size_t kMostKeptBytes = std::size_t{1} << 29;

  /// @param most_kept_bytes texts beyond this sum are not kept but read again when they are asked
  /// for, and refused if they have changed; so memory stays bounded and no other text is ever given
  explicit FileTexts(std::size_t most_kept_bytes = kMostKeptBytes) : most_kept_(most_kept_bytes) {}

  /// The whole text of a file, as read_file() gives it the first time. A file that could not be
  /// read is tried again.
  /// @param most_bytes the largest size accepted [bytes]
  /// @throws InputError as read_file(), and "FILE: has changed since it was first read" where the
  /// text was not kept and the file holds another now
  std::string text_of(const std::string& path, std::size_t most_bytes);

 private:
  struct Entry {
    bool kept = false;
    std::string text;    // where it is kept
    std::string sha256;  // where it is not
  };

  const std::size_t most_kept_;
  std::mutex guard_;
  std::size_t kept_ = 0;  // [bytes]
  std::map<std::string, Entry> entries_;
};
}  // namespace ovendays::base
