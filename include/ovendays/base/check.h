// SPDX-License-Identifier: MIT
// Assertions about the program itself. A false condition means a programming error, so the process
// prints the place and aborts. Faults in what a user wrote are InputError (error.h); a solver that
// does not converge says so in its summary.
//
// OVENDAYS_CHECK is always on. OVENDAYS_DCHECK is for inner loops and exists in debug builds only.
#pragma once

#include <cstdio>
#include <cstdlib>

namespace ovendays::base {
/// Prints "FILE:LINE: internal check failed: CONDITION" and aborts. Used by the macros below.
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
