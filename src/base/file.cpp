// SPDX-License-Identifier: MIT
#include "ovendays/base/file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <climits>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <memory>
#include <utility>

#include "ovendays/base/error.h"

namespace ovendays::base {
namespace {

// Pending files that the signal handler must delete. The table has a fixed size because a handler
// may not allocate. `ready` is set only once the path is complete, in case a signal arrives while a
// slot is being filled.
constexpr int kSlots = 32;
struct Slot {
  std::atomic<bool> used{false};
  std::atomic<bool> ready{false};
  std::array<char, PATH_MAX> path{};
};
std::array<Slot, kSlots>& slots() {
  static std::array<Slot, kSlots> table;
  return table;
}

int claim_slot(const std::string& path) {
  if (path.size() + 1 > PATH_MAX) return -1;
  for (int i = 0; i < kSlots; ++i) {
    Slot& slot = slots()[static_cast<std::size_t>(i)];
    if (slot.used.exchange(true)) continue;
    std::memcpy(slot.path.data(), path.c_str(), path.size() + 1);
    slot.ready.store(true);
    return i;
  }
  return -1;
}

void free_slot(int index) {
  if (index < 0) return;
  Slot& slot = slots()[static_cast<std::size_t>(index)];
  slot.ready.store(false);
  slot.used.store(false);
}

std::string reason() { return std::strerror(errno); }

struct FileCloser {
  void operator()(std::FILE* file) const { std::fclose(file); }
};
}  // namespace

std::string read_file(const std::string& path, std::size_t most_bytes) {
  const auto refuse = [&path](const std::string& why) {
    return InputError(Fault{path, 0, "", "cannot be read: " + why, ""});
  };
  const auto too_large = [&] {
    return refuse("it is larger than " + std::to_string(most_bytes) + " bytes");
  };
  // Without O_NONBLOCK, opening a pipe without a writer would block for ever.
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (descriptor < 0) throw refuse(reason());
  const std::unique_ptr<std::FILE, FileCloser> file(::fdopen(descriptor, "rb"));
  if (!file) {
    const std::string why = reason();
    ::close(descriptor);
    throw refuse(why);
  }
  struct stat info {};
  if (::fstat(descriptor, &info) != 0) throw refuse(reason());
  if (S_ISDIR(info.st_mode)) throw refuse("it is a directory");
  if (!S_ISREG(info.st_mode)) throw refuse("it is not a plain file");
  if (info.st_size > 0 && static_cast<std::uintmax_t>(info.st_size) > most_bytes) throw too_large();
  std::string text;
  std::array<char, 1 << 16> block{};
  for (std::size_t got = 1; got > 0;) {
    got = std::fread(block.data(), 1, block.size(), file.get());
    text.append(block.data(), got);
    // The file may have grown since fstat(), and some file systems report a size of 0.
    if (text.size() > most_bytes) throw too_large();
  }
  if (std::ferror(file.get()) != 0) throw refuse(reason());
  return text;
}

PendingFile::PendingFile(std::string target)
    : target_(std::move(target)), path_(target_ + "." + std::to_string(::getpid()) + ".part") {
  slot_ = claim_slot(path_);
}

PendingFile::~PendingFile() {
  if (!committed_) ::unlink(path_.c_str());
  free_slot(slot_);
}

void PendingFile::commit() {
  const int descriptor = ::open(path_.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) throw RunError(path_ + ": cannot be opened: " + reason());
  const bool flushed = ::fsync(descriptor) == 0;
  const std::string flush_reason = flushed ? "" : reason();
  ::close(descriptor);
  if (!flushed) throw RunError(path_ + ": cannot be written: " + flush_reason);
  if (std::rename(path_.c_str(), target_.c_str()) != 0) {
    throw RunError(target_ + ": cannot be written: " + reason());
  }
  committed_ = true;
}

void write_file(const std::string& target, std::string_view text) {
  PendingFile pending(target);
  {
    std::unique_ptr<std::FILE, FileCloser> file(std::fopen(pending.path().c_str(), "wb"));
    if (!file) throw RunError(target + ": cannot be written: " + reason());
    if (std::fwrite(text.data(), 1, text.size(), file.get()) != text.size() ||
        std::fflush(file.get()) != 0) {
      throw RunError(target + ": cannot be written: " + reason());
    }
  }
  pending.commit();
}

void remove_pending_files() {
  for (Slot& slot : slots()) {
    if (slot.ready.load()) ::unlink(slot.path.data());
  }
}
}  // namespace ovendays::base
