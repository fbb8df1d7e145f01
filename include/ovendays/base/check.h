// SPDX-License-Identifier: MIT
// Checks on the programmer, not on the user: a false condition ends the process with the place.
// Faults in what a user wrote are InputError (error.h); a solver that fails says so in its summary.
#pragma once

#include <cstdio>
#include <cstdlib>

namespace ovendays::base {
[[noreturn]] inline void check_failed(const char* condition, const char* file, int line) {
  std::fprintf(stderr, "%s:%d: internal check failed: %s\n", file, line, condition);
  std::abort();
}
}  // namespace ovendays::base

#define OVENDAYS_CHECK(condition) \
  ((condition) ? (void)0 : ::ovendays::base::check_failed(#condition, __FILE__, __LINE__))

#ifdef NDEBUG
#define OVENDAYS_DCHECK(condition) ((void)0)
#else
#define OVENDAYS_DCHECK(condition) OVENDAYS_CHECK(condition)
#endif
