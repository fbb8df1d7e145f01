// SPDX-License-Identifier: MIT
// Work shared out over threads.
#pragma once

#include <functional>

namespace ovendays::season {

/// Runs `body(i)` for i in 0..count-1 on `threads` threads, in no fixed order: what a call makes
/// must depend on i alone. The first exception by index is thrown again once all have ended.
/// @param threads 1 or more
void parallel(int count, int threads, const std::function<void(int)>& body);

/// As many threads as OpenMP gives where `asked` is 0, else `asked`.
int thread_count(int asked);
}  // namespace ovendays::season
