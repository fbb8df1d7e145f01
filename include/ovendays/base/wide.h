// SPDX-License-Identifier: MIT
// Wider vectors where the machine has them. A function marked OVENDAYS_CLONES is compiled twice,
// for any machine and for AVX2, with all that it calls inlined; the program picks one when it
// starts. Both round every operation alike, because nothing is fused (-ffp-contract=off), so that
// they give the same bits and differ in pace only.
#pragma once

// Sanitizers and builds without optimisation gain nothing. The selection at start needs the loader
// of the GNU C library. OVENDAYS_NO_CLONES leaves the portable form alone, for a comparison of
// bits.
#if defined(__x86_64__) && defined(__GLIBC__) && !defined(__clang__) && defined(__OPTIMIZE__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__) &&                           \
    !defined(OVENDAYS_NO_CLONES)
#define OVENDAYS_CLONES __attribute__((target_clones("avx2", "default"), flatten))
#else
#define OVENDAYS_CLONES
#endif
