// SPDX-License-Identifier: MIT
// Files: read whole, written aside and renamed into place, and their digests.
#pragma once

#include <string>
#include <string_view>

namespace ovendays::base {

/// The whole file. Only plain files are read: a device never ends, and a pipe may never begin.
/// @throws InputError "FILE: cannot be read: reason" (missing, a directory, not a plain file, no
/// permission, or larger than `most_bytes`).
std::string read_file(const std::string& path, std::size_t most_bytes = std::size_t{1} << 28);

/// SHA-256 (FIPS 180-4) in lower-case hex.
std::string sha256_hex(std::string_view bytes);

/// A file written under a name of its own beside the target and renamed onto it by commit(); the
/// destructor removes what was not committed. A killed run leaves the old file whole; SIGINT and
/// SIGTERM remove pending files through remove_pending_files() (async-signal-safe).
class PendingFile {
 public:
  explicit PendingFile(std::string target);
  ~PendingFile();
  PendingFile(const PendingFile&) = delete;
  PendingFile& operator=(const PendingFile&) = delete;
  /// Where to write.
  [[nodiscard]] const std::string& path() const { return path_; }
  /// Flushes to disk and renames. @throws RunError with the system's reason.
  void commit();

 private:
  std::string target_;
  std::string path_;
  bool committed_ = false;
  int slot_ = -1;
};

/// Writes `text` to `target` through a PendingFile. @throws RunError
void write_file(const std::string& target, std::string_view text);

/// Unlinks every pending file. Async-signal-safe, for signal handlers.
void remove_pending_files();
}  // namespace ovendays::base
