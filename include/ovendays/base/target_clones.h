// SPDX-License-Identifier: MIT
// OVENDAYS_CLONES compiles a function twice, for any x86-64 machine and for AVX2, each with all
// that it calls inlined. The program picks the form that suits the machine when it starts. Both
// give the same bits, because both round every operation alike and nothing is fused
// (-ffp-contract=off); AVX2 is only quicker.
#pragma once

#if __has_include(<features.h>)
#include <features.h>  // defines __GLIBC__
#endif

// The choice at the start of the program needs GCC and the loader of the GNU C library; Clang
// compiles the portable form only. Without optimisation nothing is inlined, so a second form would
// not be quicker, and sanitizers are not ready when the choice is made.
#if defined(__x86_64__) && defined(__GLIBC__) && !defined(__clang__) && defined(__OPTIMIZE__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define OVENDAYS_CLONES __attribute__((target_clones("avx2", "default"), flatten))
#else
#define OVENDAYS_CLONES
#endif
