// SPDX-License-Identifier: MIT
// Numbers side by side, one cook in each lane, as many as one vector of the machine holds, and the
// few operations the kernel needs, for packs and for plain doubles alike. Every operation rounds as
// IEEE 754 says, so a lane gives the same bits whatever its neighbours do, and on every machine
// that fuses products and sums (see plus_product).
//
// This header and those that include it (kernel.h, solver.h) are compiled once per instruction set.
// OVENDAYS_ISA names the namespace they then live in, so that the linker cannot mix them up.
#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <type_traits>

#ifdef __FMA__
#include <immintrin.h>
#endif

#ifndef OVENDAYS_ISA
#define OVENDAYS_ISA plain
#endif
#define OVENDAYS_INLINE inline __attribute__((always_inline))

// A pack is one vector of the machine's own width: several of them in one struct the compiler takes
// through memory piece by piece. Where every access to memory is checked few wide ones are much
// quicker than many.
#if defined(__AVX512F__) || defined(__SANITIZE_ADDRESS__)
#define OVENDAYS_PACK_BYTES 64
#elif defined(__FMA__)
#define OVENDAYS_PACK_BYTES 32
#else
#define OVENDAYS_PACK_BYTES 16
#endif
#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#undef OVENDAYS_PACK_BYTES
#define OVENDAYS_PACK_BYTES 64
#endif
#endif

namespace ovendays::heat::OVENDAYS_ISA {

inline constexpr int kPackBytes = OVENDAYS_PACK_BYTES;
/// All lanes of an engine together, in one pack or several: eight doubles or sixteen singles.
inline constexpr int kEngineBytes = 64;
/// Whole numbers as wide as a floating one.
template <class T>
using BitsOf = std::conditional_t<sizeof(T) == 8, std::uint64_t, std::uint32_t>;

using DoublePack = double __attribute__((vector_size(kPackBytes)));
using SinglePack = float __attribute__((vector_size(kPackBytes)));
using DoubleMask = decltype(DoublePack{} > DoublePack{});
using SingleMask = decltype(SinglePack{} > SinglePack{});
using DoubleBits = std::uint64_t __attribute__((vector_size(kPackBytes)));
using SingleBits = std::uint32_t __attribute__((vector_size(kPackBytes)));
OVENDAYS_INLINE DoublePack select(DoubleMask which, DoublePack yes, DoublePack no) {
  return which ? yes : no;
}
OVENDAYS_INLINE SinglePack select(SingleMask which, SinglePack yes, SinglePack no) {
  return which ? yes : no;
}

/// What a kind of number is made of: the plain number in each lane, and how many lanes.
template <class R>
struct Lanes {
  using Plain = double;
  using Mask = bool;
  using Bits = std::uint64_t;
  static constexpr int kCount = 1;
};
template <>
struct Lanes<DoublePack> {
  using Plain = double;
  using Mask = DoubleMask;
  using Bits = DoubleBits;
  static constexpr int kCount = kPackBytes / 8;
};
template <>
struct Lanes<SinglePack> {
  using Plain = float;
  using Mask = SingleMask;
  using Bits = SingleBits;
  static constexpr int kCount = kPackBytes / 4;
};
template <class R>
using PlainOf = typename Lanes<R>::Plain;
/// A constant as precise as the numbers it meets.
template <class R>
OVENDAYS_INLINE constexpr PlainOf<R> num(double x) {
  return static_cast<PlainOf<R>>(x);
}

OVENDAYS_INLINE double select(bool which, double yes, double no) { return which ? yes : no; }
OVENDAYS_INLINE double root(double x) { return __builtin_sqrt(x); }
OVENDAYS_INLINE DoublePack root(DoublePack x) {
  DoublePack r = x;
  for (int i = 0; i < Lanes<DoublePack>::kCount; ++i) r[i] = __builtin_sqrt(x[i]);
  return r;
}
OVENDAYS_INLINE SinglePack root(SinglePack x) {
  SinglePack r = x;
  for (int i = 0; i < Lanes<SinglePack>::kCount; ++i) r[i] = __builtin_sqrtf(x[i]);
  return r;
}
/// The one of two numbers that is more: a > b ? a : b, in lanes where one is not a number too.
OVENDAYS_INLINE double greater_of(double a, double b) { return a > b ? a : b; }
OVENDAYS_INLINE double lesser_of(double a, double b) { return a < b ? a : b; }
#if defined(__AVX512F__)
// With a mask of all lanes: GCC 12 warns of what its own header leaves open without.
OVENDAYS_INLINE DoublePack greater_of(DoublePack a, DoublePack b) {
  return _mm512_mask_max_pd(b, 0xff, a, b);
}
OVENDAYS_INLINE SinglePack greater_of(SinglePack a, SinglePack b) {
  return _mm512_mask_max_ps(b, 0xffff, a, b);
}
OVENDAYS_INLINE DoublePack lesser_of(DoublePack a, DoublePack b) {
  return _mm512_mask_min_pd(b, 0xff, a, b);
}
OVENDAYS_INLINE SinglePack lesser_of(SinglePack a, SinglePack b) {
  return _mm512_mask_min_ps(b, 0xffff, a, b);
}
#elif defined(__FMA__)
OVENDAYS_INLINE DoublePack greater_of(DoublePack a, DoublePack b) { return _mm256_max_pd(a, b); }
OVENDAYS_INLINE SinglePack greater_of(SinglePack a, SinglePack b) { return _mm256_max_ps(a, b); }
OVENDAYS_INLINE DoublePack lesser_of(DoublePack a, DoublePack b) { return _mm256_min_pd(a, b); }
OVENDAYS_INLINE SinglePack lesser_of(SinglePack a, SinglePack b) { return _mm256_min_ps(a, b); }
#else
template <class R>
OVENDAYS_INLINE R greater_of(R a, R b) {
  return select(a > b, a, b);
}
template <class R>
OVENDAYS_INLINE R lesser_of(R a, R b) {
  return select(a < b, a, b);
}
#endif
/// A plain number in every lane.
template <class R>
OVENDAYS_INLINE R all(PlainOf<R> x) {
  return x - R{};  // not a sum: it would have to mind the sign of a zero
}

/// sum + a b, rounded once where the machine's vectors fuse the two (x86-64-v3 and v4, the same
/// bits), else twice. Written where it counts; the compiler fuses nothing by itself.
OVENDAYS_INLINE double plus_product(double sum, double a, double b) { return sum + a * b; }
#if defined(__FMA__)
#if defined(__AVX512F__)
#define OVENDAYS_OWN(operation) _mm512_##operation
#else
#define OVENDAYS_OWN(operation) _mm256_##operation
#endif
OVENDAYS_INLINE DoublePack plus_product(DoublePack sum, DoublePack a, DoublePack b) {
  return OVENDAYS_OWN(fmadd_pd)(a, b, sum);
}
OVENDAYS_INLINE SinglePack plus_product(SinglePack sum, SinglePack a, SinglePack b) {
  return OVENDAYS_OWN(fmadd_ps)(a, b, sum);
}
OVENDAYS_INLINE DoublePack minus_product(DoublePack sum, DoublePack a, DoublePack b) {
  return OVENDAYS_OWN(fnmadd_pd)(a, b, sum);
}
OVENDAYS_INLINE SinglePack minus_product(SinglePack sum, SinglePack a, SinglePack b) {
  return OVENDAYS_OWN(fnmadd_ps)(a, b, sum);
}
#undef OVENDAYS_OWN
#else
OVENDAYS_INLINE DoublePack plus_product(DoublePack sum, DoublePack a, DoublePack b) {
  return sum + a * b;
}
OVENDAYS_INLINE SinglePack plus_product(SinglePack sum, SinglePack a, SinglePack b) {
  return sum + a * b;
}
#endif
template <class R>
requires(!std::is_same_v<R, PlainOf<R>>) OVENDAYS_INLINE R plus_product(R sum, PlainOf<R> a, R b) {
  return plus_product(sum, all<R>(a), b);
}
/// sum - a b, the same way.
template <class R>
OVENDAYS_INLINE R minus_product(R sum, R a, R b) {
  return plus_product(sum, -a, b);
}
template <class R>
requires(!std::is_same_v<R, PlainOf<R>>) OVENDAYS_INLINE R minus_product(R sum, PlainOf<R> a, R b) {
  return minus_product(sum, all<R>(a), b);
}

/// Is some lane anything but +0?
template <class R>
OVENDAYS_INLINE bool any(const R& x) {
  std::uint64_t all_bits = 0;
  for (const std::uint64_t word : std::bit_cast<std::array<std::uint64_t, sizeof(R) / 8>>(x))
    all_bits |= word;
  return all_bits != 0;
}

OVENDAYS_INLINE std::uint64_t bits(double x) { return std::bit_cast<std::uint64_t>(x); }
OVENDAYS_INLINE double from_bits(std::uint64_t x) { return std::bit_cast<double>(x); }
OVENDAYS_INLINE DoubleBits bits(DoublePack x) { return std::bit_cast<DoubleBits>(x); }
OVENDAYS_INLINE DoublePack from_bits(DoubleBits x) { return std::bit_cast<DoublePack>(x); }
OVENDAYS_INLINE SingleBits bits(SinglePack x) { return std::bit_cast<SingleBits>(x); }
OVENDAYS_INLINE SinglePack from_bits(SingleBits x) { return std::bit_cast<SinglePack>(x); }

template <class R>
OVENDAYS_INLINE R magnitude(R x) {
  return from_bits(bits(x) & (BitsOf<PlainOf<R>>(-1) >> 1U));
}

// Roots by a guess from the number's own bits (the exponent, shared out) and Newton's steps of
// products and differences: quicker than square roots, the same bits everywhere. For numbers above
// 1e-30 and below 1e30. Singles take two steps whose constants spread the error to both sides.

/// x^(1/4) from 1e-12 on, relative error below 6e-10 (singles: 7e-6); below that the root of 1e-12.
template <class R>
OVENDAYS_INLINE R fourth_root(R number) {
  const R x = greater_of(number, all<R>(num<R>(1e-12)));
  R y;  // x^(-1/4), the guess 3 % off
  if constexpr (sizeof(PlainOf<R>) == 8) {
    y = from_bits(0x4feb07ae147ae000U - (bits(x) >> 2U));
    const R quarter = 0.25 * x;
    for (int i = 0; i < 3; ++i) {
      const R squared = y * y;
      y = y * minus_product(all<R>(1.25), quarter, squared * squared);
    }
  } else {
    y = from_bits(0x4f586000U - (bits(x) >> 2U));
    const R first = y * y;
    y = y * minus_product(all<R>(1.25076964F), 0.2496745F * x, first * first);
    const R second = y * y;
    y = y * minus_product(all<R>(1.25015277F), 0.25015095F * x, second * second);
  }
  return x * (y * y * y);
}

/// x^(-1/3), relative error below 4e-10 (singles: 1e-5).
template <class R>
OVENDAYS_INLINE R inverse_cube_root(R x) {
  constexpr bool kDouble = sizeof(PlainOf<R>) == 8;
  const auto b = bits(x);
  const auto third = (b >> 2U) + (b >> 4U) + (b >> 6U) + (b >> 8U) + (b >> 10U) + (b >> 12U);
  R y;  // the guess 4 % off
  if constexpr (kDouble) {
    y = from_bits(0x553d96de8ca11800U - third);
  } else {
    y = from_bits(0x5497619fU - third);
  }
  for (int i = 0; i < (kDouble ? 3 : 2); ++i)
    y = y * (num<R>(4.0 / 3.0) - num<R>(1.0 / 3.0) * (x * (y * y * y)));
  return y;
}
}  // namespace ovendays::heat::OVENDAYS_ISA
