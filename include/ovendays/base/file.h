// SPDX-License-Identifier: MIT
// Reading whole files, replacing files atomically, and digests of their content.
#pragma once

#include <string>
#include <string_view>

namespace ovendays::base {

/// Reads a whole file. Only regular files are accepted, because a device may never end and opening
/// a pipe may block for ever.
/// @param most_bytes the largest size accepted [bytes]
/// @throws InputError "FILE: cannot be read: reason" if the file is missing, is a directory or not
/// a regular file, may not be read, or is larger than `most_bytes`
std::string read_file(const std::string& path, std::size_t most_bytes = std::size_t{1} << 28);

/// SHA-256 digest (FIPS 180-4) in lower-case hexadecimal.
std::string sha256_hex(std::string_view bytes);

/// A file that is written under a temporary name beside its target and renamed onto the target by
/// commit(). Until then the old file stays untouched, so a killed run never leaves half a file.
/// The destructor deletes the temporary file if it was not committed. Up to 32 files at a time are
/// also known to remove_pending_files(), which the handlers of SIGINT and SIGTERM call.
/// Different objects may be used from different threads.
class PendingFile {
 public:
  explicit PendingFile(std::string target);
  ~PendingFile();
  PendingFile(const PendingFile&) = delete;
  PendingFile& operator=(const PendingFile&) = delete;
  /// The temporary name, which the caller writes to.
  [[nodiscard]] const std::string& path() const { return path_; }
  /// Flushes the file to disk and renames it onto the target.
  /// @throws RunError with the operating system's reason
  void commit();

 private:
  std::string target_;
  std::string path_;
  bool committed_ = false;
  int slot_ = -1;
};

/// Writes `text` to `target` through a PendingFile.
/// @throws RunError with the operating system's reason
void write_file(const std::string& target, std::string_view text);

/// Deletes every pending file. Async-signal-safe: it may be called from a signal handler.
void remove_pending_files();
}  // namespace ovendays::base
