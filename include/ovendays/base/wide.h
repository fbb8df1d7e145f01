// SPDX-License-Identifier: MIT
// Wider vectors where the machine has them. A function marked OVENDAYS_WIDE is compiled for
// machines with AVX2 beside its plain form; what it inlines is compiled with it. Both round every
// operation alike (nothing is fused), so that they give the same bits: only the pace differs.
#pragma once

#include <atomic>

// In optimised builds only: without inlining there would be nothing to win.
#if defined(__x86_64__) && defined(__GNUC__) && defined(__OPTIMIZE__)
#define OVENDAYS_WIDE [[gnu::target("avx2"), gnu::flatten]]
#endif

namespace ovendays::base {

enum class Vectors { kPlain, kWide };

/// No wider ones are taken: tests hold one form against the other by it.
inline std::atomic<Vectors> most_vectors{Vectors::kWide};

/// The widest this build carries, this machine can run and most_vectors allows.
inline Vectors widest_vectors() {
#ifdef OVENDAYS_WIDE
  if (__builtin_cpu_supports("avx2")) return most_vectors.load(std::memory_order_relaxed);
#endif
  return Vectors::kPlain;
}
}  // namespace ovendays::base
