// SPDX-License-Identifier: MIT
// Sharing out work over threads.
#pragma once

#include <functional>
#include <mutex>

namespace ovendays::season {

/// Runs `body(i)` for i in 0..count-1 on `threads` threads, in no fixed order, so the result of a
/// call must depend on i alone. When all calls have ended, the exception of the lowest i is thrown.
/// @param threads 1 or more
void parallel(int count, int threads, const std::function<void(int)>& body);

/// Counts equal parts of some work as they are finished and reports the share done, which never
/// falls. Thread-safe; one report at a time.
class Progress {
 public:
  /// @param report is called with the share done, 0..1; may be empty; must outlive this object
  Progress(int parts, const std::function<void(double)>& report) : parts_(parts), report_(report) {}
  void add(int parts = 1) {
    if (!report_) return;
    const std::lock_guard<std::mutex> lock(guard_);
    done_ += parts;
    report_(static_cast<double>(done_) / parts_);
  }

 private:
  int parts_;
  int done_ = 0;
  const std::function<void(double)>& report_;
  std::mutex guard_;
};

/// Number of threads to use: `asked`, or as many as OpenMP gives where that is 0.
int thread_count(int asked);
}  // namespace ovendays::season
