// SPDX-License-Identifier: MIT
// Packs: SIMD vectors with one run of the integrator in each lane, and the few operations that the
// integrator needs, for packs and for plain doubles alike. Every operation rounds as IEEE 754 says,
// so a lane gives the same bits whatever its neighbours do, and on every machine that fuses
// products and sums (see add_product).
//
// This header and all that include it are compiled once per instruction set. OVENDAYS_ISA names the
// namespace that they are then in, so that the linker cannot mix up functions of the same name.
#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <type_traits>

#ifdef __FMA__
#include <immintrin.h>
#endif

#ifndef OVENDAYS_ISA
#define OVENDAYS_ISA portable
#endif
#define OVENDAYS_INLINE inline __attribute__((always_inline))

// A pack is one vector of the machine's own width, because compilers move wider ones through memory
// in pieces. Under the address sanitizer, which checks every access, fewer and wider ones are much
// quicker all the same.
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
/// Size of all lanes of a batch together, in one pack or several: eight doubles or sixteen floats.
inline constexpr int kBatchBytes = 64;
/// The unsigned integer of a floating-point type's size.
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

/// The scalar in each lane of a pack, and the number of lanes; a double counts as a pack of one.
template <class R>
struct PackTraits {
  using Scalar = double;
  using Mask = bool;
  using Bits = std::uint64_t;
  static constexpr int kCount = 1;
};
template <>
struct PackTraits<DoublePack> {
  using Scalar = double;
  using Mask = DoubleMask;
  using Bits = DoubleBits;
  static constexpr int kCount = kPackBytes / 8;
};
template <>
struct PackTraits<SinglePack> {
  using Scalar = float;
  using Mask = SingleMask;
  using Bits = SingleBits;
  static constexpr int kCount = kPackBytes / 4;
};
template <class R>
using ScalarOf = typename PackTraits<R>::Scalar;
/// A constant in the precision of R.
template <class R>
OVENDAYS_INLINE constexpr ScalarOf<R> scalar(double x) {
  return static_cast<ScalarOf<R>>(x);
}

OVENDAYS_INLINE double select(bool which, double yes, double no) { return which ? yes : no; }
OVENDAYS_INLINE double square_root(double x) { return __builtin_sqrt(x); }
OVENDAYS_INLINE DoublePack square_root(DoublePack x) {
  DoublePack r = x;
  for (int i = 0; i < PackTraits<DoublePack>::kCount; ++i) r[i] = __builtin_sqrt(x[i]);
  return r;
}
OVENDAYS_INLINE SinglePack square_root(SinglePack x) {
  SinglePack r = x;
  for (int i = 0; i < PackTraits<SinglePack>::kCount; ++i) r[i] = __builtin_sqrtf(x[i]);
  return r;
}
/// a > b ? a : b, and so b where one of them is not a number.
OVENDAYS_INLINE double max_of(double a, double b) { return a > b ? a : b; }
OVENDAYS_INLINE double min_of(double a, double b) { return a < b ? a : b; }
#if defined(__AVX512F__)
// The masked forms with all lanes set, because GCC 12 warns of an uninitialised variable in its own
// header for the others.
OVENDAYS_INLINE DoublePack max_of(DoublePack a, DoublePack b) {
  return _mm512_mask_max_pd(b, 0xff, a, b);
}
OVENDAYS_INLINE SinglePack max_of(SinglePack a, SinglePack b) {
  return _mm512_mask_max_ps(b, 0xffff, a, b);
}
OVENDAYS_INLINE DoublePack min_of(DoublePack a, DoublePack b) {
  return _mm512_mask_min_pd(b, 0xff, a, b);
}
OVENDAYS_INLINE SinglePack min_of(SinglePack a, SinglePack b) {
  return _mm512_mask_min_ps(b, 0xffff, a, b);
}
#elif defined(__FMA__)
OVENDAYS_INLINE DoublePack max_of(DoublePack a, DoublePack b) { return _mm256_max_pd(a, b); }
OVENDAYS_INLINE SinglePack max_of(SinglePack a, SinglePack b) { return _mm256_max_ps(a, b); }
OVENDAYS_INLINE DoublePack min_of(DoublePack a, DoublePack b) { return _mm256_min_pd(a, b); }
OVENDAYS_INLINE SinglePack min_of(SinglePack a, SinglePack b) { return _mm256_min_ps(a, b); }
#else
template <class R>
OVENDAYS_INLINE R max_of(R a, R b) {
  return select(a > b, a, b);
}
template <class R>
OVENDAYS_INLINE R min_of(R a, R b) {
  return select(a < b, a, b);
}
#endif
/// One scalar in every lane.
template <class R>
OVENDAYS_INLINE R broadcast(ScalarOf<R> x) {
  return x - R{};  // not x + R{}, which would turn -0 into +0
}

/// sum + a b, rounded once where the instruction set fuses the two (x86-64-v3 and v4, with the same
/// bits), else twice. It is written out where the pace depends on it; -ffp-contract=off keeps the
/// compiler from fusing anything by itself.
OVENDAYS_INLINE double add_product(double sum, double a, double b) { return sum + a * b; }
#if defined(__FMA__)
#if defined(__AVX512F__)
#define OVENDAYS_OWN(operation) _mm512_##operation
#else
#define OVENDAYS_OWN(operation) _mm256_##operation
#endif
OVENDAYS_INLINE DoublePack add_product(DoublePack sum, DoublePack a, DoublePack b) {
  return OVENDAYS_OWN(fmadd_pd)(a, b, sum);
}
OVENDAYS_INLINE SinglePack add_product(SinglePack sum, SinglePack a, SinglePack b) {
  return OVENDAYS_OWN(fmadd_ps)(a, b, sum);
}
OVENDAYS_INLINE DoublePack subtract_product(DoublePack sum, DoublePack a, DoublePack b) {
  return OVENDAYS_OWN(fnmadd_pd)(a, b, sum);
}
OVENDAYS_INLINE SinglePack subtract_product(SinglePack sum, SinglePack a, SinglePack b) {
  return OVENDAYS_OWN(fnmadd_ps)(a, b, sum);
}
#undef OVENDAYS_OWN
#else
OVENDAYS_INLINE DoublePack add_product(DoublePack sum, DoublePack a, DoublePack b) {
  return sum + a * b;
}
OVENDAYS_INLINE SinglePack add_product(SinglePack sum, SinglePack a, SinglePack b) {
  return sum + a * b;
}
#endif
template <class R>
requires(!std::is_same_v<R, ScalarOf<R>>) OVENDAYS_INLINE R add_product(R sum, ScalarOf<R> a, R b) {
  return add_product(sum, broadcast<R>(a), b);
}
/// sum - a b, fused in the same way.
template <class R>
OVENDAYS_INLINE R subtract_product(R sum, R a, R b) {
  return add_product(sum, -a, b);
}
template <class R>
requires(!std::is_same_v<R, ScalarOf<R>>) OVENDAYS_INLINE R
    subtract_product(R sum, ScalarOf<R> a, R b) {
  return subtract_product(sum, broadcast<R>(a), b);
}

/// Does some lane hold anything but +0?
template <class R>
OVENDAYS_INLINE bool any_nonzero(const R& x) {
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
OVENDAYS_INLINE R absolute(R x) {
  return from_bits(bits(x) & (BitsOf<ScalarOf<R>>(-1) >> 1U));
}

// Roots by Newton's method from a guess that scales the exponent in the number's bits: quicker than
// the square roots of the machine, and the same bits everywhere. Valid between 1e-30 and 1e30. In
// single precision two steps do, with constants that spread the remaining error to both sides.

/// x^(1/4) from 1e-12 on, relative error below 6e-10 (singles: 7e-6); below that the root of 1e-12.
template <class R>
OVENDAYS_INLINE R fourth_root(R number) {
  const R x = max_of(number, broadcast<R>(scalar<R>(1e-12)));
  R y;  // x^(-1/4), the guess 3 % off
  if constexpr (sizeof(ScalarOf<R>) == 8) {
    y = from_bits(0x4feb07ae147ae000U - (bits(x) >> 2U));
    const R quarter = 0.25 * x;
    for (int i = 0; i < 3; ++i) {
      const R squared = y * y;
      y = y * subtract_product(broadcast<R>(1.25), quarter, squared * squared);
    }
  } else {
    y = from_bits(0x4f586000U - (bits(x) >> 2U));
    const R first = y * y;
    y = y * subtract_product(broadcast<R>(1.25076964F), 0.2496745F * x, first * first);
    const R second = y * y;
    y = y * subtract_product(broadcast<R>(1.25015277F), 0.25015095F * x, second * second);
  }
  return x * (y * y * y);
}

/// x^(-1/3), relative error below 4e-10 (singles: 1e-5).
template <class R>
OVENDAYS_INLINE R inverse_cube_root(R x) {
  constexpr bool kDouble = sizeof(ScalarOf<R>) == 8;
  const auto b = bits(x);
  const auto third = (b >> 2U) + (b >> 4U) + (b >> 6U) + (b >> 8U) + (b >> 10U) + (b >> 12U);
  R y;  // the guess 4 % off
  if constexpr (kDouble) {
    y = from_bits(0x553d96de8ca11800U - third);
  } else {
    y = from_bits(0x5497619fU - third);
  }
  for (int i = 0; i < (kDouble ? 3 : 2); ++i)
    y = y * (scalar<R>(4.0 / 3.0) - scalar<R>(1.0 / 3.0) * (x * (y * y * y)));
  return y;
}
}  // namespace ovendays::heat::OVENDAYS_ISA
