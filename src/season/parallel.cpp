// SPDX-License-Identifier: MIT
#include "ovendays/season/parallel.h"

#include <omp.h>

#include <exception>
#include <mutex>

namespace ovendays::season {

void parallel(int count, int threads, const std::function<void(int)>& body) {
  std::exception_ptr first;
  int first_index = count;
  std::mutex guard;
#pragma omp parallel for schedule(dynamic, 1) num_threads(threads) default(none) \
    shared(count, body, first, first_index, guard)
  for (int i = 0; i < count; ++i) {
    try {
      body(i);
    } catch (...) {
      const std::lock_guard<std::mutex> lock(guard);
      if (i < first_index) {
        first_index = i;
        first = std::current_exception();
      }
    }
  }
  if (first) std::rethrow_exception(first);
}

int thread_count(int asked) { return asked > 0 ? asked : omp_get_max_threads(); }
}  // namespace ovendays::season
