// SPDX-License-Identifier: MIT
// Eight doubles side by side, one cook in each lane, and the few operations the kernel needs, for
// packs and for plain doubles alike. Every operation rounds as IEEE 754 says, so a lane gives the
// same bits whatever instruction set carries it and whatever its neighbours do.
//
// This header and those that include it (kernel.h, solver.h) are compiled once per instruction set.
// OVENDAYS_ISA names the namespace they then live in, so that the linker cannot mix them up.
#pragma once

#include <bit>
#include <cstdint>

#ifndef OVENDAYS_ISA
#define OVENDAYS_ISA plain
#endif
#define OVENDAYS_INLINE inline __attribute__((always_inline))

// One vector is as wide as a pack where the machine has such vectors; and where every access to
// memory is checked: few wide ones are much quicker then than many.
#if defined(__AVX512F__) || defined(__SANITIZE_ADDRESS__)
#define OVENDAYS_WIDE_PACK 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define OVENDAYS_WIDE_PACK 1
#endif
#endif

namespace ovendays::heat::OVENDAYS_ISA {

inline constexpr int kLanes = 8;
#ifdef OVENDAYS_WIDE_PACK
using Pack = double __attribute__((vector_size(64)));
using PackMask = decltype(Pack{} > Pack{});
using PackBits = std::uint64_t __attribute__((vector_size(64)));
OVENDAYS_INLINE Pack select(PackMask which, Pack yes, Pack no) { return which ? yes : no; }
#else
// A pack is several of the machine's vectors: left to itself the compiler would take it through
// memory piece by piece.
#if defined(__AVX__)
inline constexpr int kWidth = 4;
#else
inline constexpr int kWidth = 2;
#endif
inline constexpr int kParts = kLanes / kWidth;
using Part = double __attribute__((vector_size(8 * kWidth)));
using PartMask = decltype(Part{} > Part{});
using PartBits = std::uint64_t __attribute__((vector_size(8 * kWidth)));

struct PackMask {
  PartMask part[kParts];
  OVENDAYS_INLINE std::int64_t& operator[](int l) {
    return reinterpret_cast<std::int64_t*>(part)[l];
  }
};
struct PackBits {
  PartBits part[kParts];
};
struct Pack {
  Part part[kParts];
  OVENDAYS_INLINE double& operator[](int l) { return reinterpret_cast<double*>(part)[l]; }
  OVENDAYS_INLINE double operator[](int l) const {
    return reinterpret_cast<const double*>(part)[l];
  }
};
#define OVENDAYS_EACH_PART(Result, expression)                  \
  Result made;                                                  \
  for (int i = 0; i < kParts; ++i) made.part[i] = (expression); \
  return made

#define OVENDAYS_OPERATOR(op)                                      \
  OVENDAYS_INLINE Pack operator op(const Pack& a, const Pack& b) { \
    OVENDAYS_EACH_PART(Pack, a.part[i] op b.part[i]);              \
  }                                                                \
  OVENDAYS_INLINE Pack operator op(double a, const Pack& b) {      \
    OVENDAYS_EACH_PART(Pack, a op b.part[i]);                      \
  }                                                                \
  OVENDAYS_INLINE Pack operator op(const Pack& a, double b) {      \
    OVENDAYS_EACH_PART(Pack, a.part[i] op b);                      \
  }
OVENDAYS_OPERATOR(+)
OVENDAYS_OPERATOR(-)
OVENDAYS_OPERATOR(*)
OVENDAYS_OPERATOR(/)
#undef OVENDAYS_OPERATOR
#define OVENDAYS_COMPARISON(op)                                        \
  OVENDAYS_INLINE PackMask operator op(const Pack& a, const Pack& b) { \
    OVENDAYS_EACH_PART(PackMask, a.part[i] op b.part[i]);              \
  }                                                                    \
  OVENDAYS_INLINE PackMask operator op(const Pack& a, double b) {      \
    OVENDAYS_EACH_PART(PackMask, a.part[i] op(Part{} + b));            \
  }
OVENDAYS_COMPARISON(>)
OVENDAYS_COMPARISON(<)
OVENDAYS_COMPARISON(>=)
#undef OVENDAYS_COMPARISON
OVENDAYS_INLINE Pack operator-(const Pack& a) { OVENDAYS_EACH_PART(Pack, -a.part[i]); }
OVENDAYS_INLINE Pack& operator+=(Pack& a, const Pack& b) { return a = a + b; }
OVENDAYS_INLINE Pack& operator-=(Pack& a, const Pack& b) { return a = a - b; }
OVENDAYS_INLINE PackBits operator>>(const PackBits& a, unsigned n) {
  OVENDAYS_EACH_PART(PackBits, a.part[i] >> std::uint64_t{n});
}
OVENDAYS_INLINE PackBits operator+(const PackBits& a, const PackBits& b) {
  OVENDAYS_EACH_PART(PackBits, a.part[i] + b.part[i]);
}
OVENDAYS_INLINE PackBits operator-(std::uint64_t a, const PackBits& b) {
  OVENDAYS_EACH_PART(PackBits, a - b.part[i]);
}
OVENDAYS_INLINE Pack select(const PackMask& which, const Pack& yes, const Pack& no) {
  OVENDAYS_EACH_PART(Pack, which.part[i] ? yes.part[i] : no.part[i]);
}
#undef OVENDAYS_EACH_PART
#endif

OVENDAYS_INLINE double select(bool which, double yes, double no) { return which ? yes : no; }
OVENDAYS_INLINE double root(double x) { return __builtin_sqrt(x); }
OVENDAYS_INLINE Pack root(Pack x) {
  Pack r = x;
  for (int i = 0; i < kLanes; ++i) r[i] = __builtin_sqrt(x[i]);
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

// Roots by a guess from the number's own bits (the exponent, shared out) and Newton's steps of
// products and differences: quicker than square roots, the same bits everywhere. For numbers above
// 1e-30 and below 1e30.
OVENDAYS_INLINE std::uint64_t bits(double x) { return std::bit_cast<std::uint64_t>(x); }
OVENDAYS_INLINE double from_bits(std::uint64_t x) { return std::bit_cast<double>(x); }
OVENDAYS_INLINE PackBits bits(Pack x) { return std::bit_cast<PackBits>(x); }
OVENDAYS_INLINE Pack from_bits(PackBits x) { return std::bit_cast<Pack>(x); }

/// x^(1/4), relative error below 6e-10 from 1e-12 on; below that the root of 1e-12.
template <class R>
OVENDAYS_INLINE R fourth_root(R number) {
  const R x = greater_of(number, all<R>(1e-12));
  R y = from_bits(0x4feb07ae147ae000U - (bits(x) >> 2U));  // of x^(-1/4), 3 %
  const R quarter = 0.25 * x;
  for (int i = 0; i < 3; ++i) {
    const R squared = y * y;
    y = y * (1.25 - quarter * (squared * squared));
  }
  return x * (y * y * y);
}

/// x^(-1/3), relative error below 4e-10.
template <class R>
OVENDAYS_INLINE R inverse_cube_root(R x) {
  const auto b = bits(x);
  const auto third = (b >> 2U) + (b >> 4U) + (b >> 6U) + (b >> 8U) + (b >> 10U) + (b >> 12U);
  R y = from_bits(0x553d96de8ca11800U - third);  // 4 %
  for (int i = 0; i < 3; ++i) y = y * (4.0 / 3.0 - (1.0 / 3.0) * (x * (y * y * y)));
  return y;
}
}  // namespace ovendays::heat::OVENDAYS_ISA
