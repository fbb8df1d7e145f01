// SPDX-License-Identifier: MIT
// Work shared out over threads.
#pragma once

#include <functional>
#include <mutex>

namespace ovendays::season {

/// Runs `body(i)` for i in 0..count-1 on `threads` threads, in no fixed order: what a call makes
/// must depend on i alone. The first exception by index is thrown again once all have ended.
/// @param threads 1 or more
void parallel(int count, int threads, const std::function<void(int)>& body);

/// Counts equal pieces of work as they get done and tells the share, one call at a time and never
/// less than before. Thread-safe.
class Progress {
 public:
  /// @param tell what is called with the share done, 0..1; may be empty; must outlive this
  Progress(int pieces, const std::function<void(double)>& tell) : pieces_(pieces), tell_(tell) {}
  void add(int pieces = 1) {
    if (!tell_) return;
    const std::lock_guard<std::mutex> lock(guard_);
    done_ += pieces;
    tell_(static_cast<double>(done_) / pieces_);
  }

 private:
  int pieces_;
  int done_ = 0;
  const std::function<void(double)>& tell_;
  std::mutex guard_;
};

/// As many threads as OpenMP gives where `asked` is 0, else `asked`.
int thread_count(int asked);
}  // namespace ovendays::season
