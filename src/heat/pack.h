// SPDX-License-Identifier: MIT
// Eight doubles side by side, one cook in each lane, and the few operations the kernel needs, for
// packs and for plain doubles alike. Every operation rounds as IEEE 754 says, so a lane gives the
// same bits whatever instruction set carries it and whatever its neighbours do.
//
// This header and those that include it (kernel.h, solver.h) are compiled once per instruction set.
// OVENDAYS_ISA names the namespace they then live in, so that the linker cannot mix them up.
#pragma once

#include <cmath>

#ifndef OVENDAYS_ISA
#define OVENDAYS_ISA plain
#endif
#define OVENDAYS_INLINE inline __attribute__((always_inline))

namespace ovendays::heat::OVENDAYS_ISA {

inline constexpr int kLanes = 8;
using Pack = double __attribute__((vector_size(64)));
using PackMask = decltype(Pack{} > Pack{});

OVENDAYS_INLINE double select(bool which, double yes, double no) { return which ? yes : no; }
OVENDAYS_INLINE Pack select(PackMask which, Pack yes, Pack no) { return which ? yes : no; }
OVENDAYS_INLINE double root(double x) { return __builtin_sqrt(x); }
OVENDAYS_INLINE Pack root(Pack x) {
  Pack r = x;
  for (int i = 0; i < kLanes; ++i) r[i] = __builtin_sqrt(x[i]);
  return r;
}
OVENDAYS_INLINE double cube_root(double x) { return std::cbrt(x); }
OVENDAYS_INLINE Pack cube_root(Pack x) {
  Pack r = x;
  for (int i = 0; i < kLanes; ++i) r[i] = std::cbrt(x[i]);
  return r;
}
template <class R>
OVENDAYS_INLINE R greater_of(R a, R b) {
  return select(a > b, a, b);
}
template <class R>
OVENDAYS_INLINE R lesser_of(R a, R b) {
  return select(a < b, a, b);
}
template <class R>
OVENDAYS_INLINE R magnitude(R x) {
  return select(x < x * 0.0, -x, x);
}
/// A plain number in every lane.
template <class R>
OVENDAYS_INLINE R all(double x) {
  return R{} + x;
}

}  // namespace ovendays::heat::OVENDAYS_ISA
