// SPDX-License-Identifier: MIT
// Pseudo-random and low-discrepancy numbers. A stream is keyed by the work item it serves (a ray, a
// day), never by the thread, so that results do not depend on the number of threads. A KeyedRandom
// belongs to one thread; the free functions are pure.
#pragma once

#include <array>
#include <cstdint>

namespace ovendays::base {

/// A SplitMix64 generator (Steele, Lea, Flood 2014): small, fast, and well mixed even for
/// neighbouring keys.
class KeyedRandom {
 public:
  /// Every key has a stream of its own.
  explicit constexpr KeyedRandom(std::uint64_t key) : state_(mix(key + kGolden)) {}
  /// Every ordered pair of keys has a stream of its own: (1, 2) differs from (2, 1).
  constexpr KeyedRandom(std::uint64_t a, std::uint64_t b) : KeyedRandom(mix(a + kGolden) ^ b) {}
  /// The next 64 random bits.
  constexpr std::uint64_t bits() {
    state_ += kGolden;
    return mix(state_);
  }
  /// The next number, uniform in [0, 1) with 53 random bits.
  constexpr double uniform() { return static_cast<double>(bits() >> 11U) * 0x1.0p-53; }

 private:
  static constexpr std::uint64_t kGolden = 0x9E3779B97F4A7C15ULL;
  static constexpr std::uint64_t mix(std::uint64_t z) {
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31U);
  }
  std::uint64_t state_;
};

/// Step sizes of the additive-recurrence sequence in `N` dimensions: the powers 1..N of 1/r, where
/// r is the positive root of x^(N+1) = x + 1 (Roberts 2018). Evaluated at compile time.
template <int N>
constexpr std::array<double, N> additive_steps() {
  double root = 2.0;
  for (int i = 0; i < 40; ++i) {
    double power = 1.0;  // becomes root^N; one Newton step on x^(N+1) - x - 1 follows
    for (int k = 0; k < N; ++k) power *= root;
    root -= (power * root - root - 1.0) / ((N + 1) * power - 1.0);
  }
  std::array<double, N> steps{};
  double step = 1.0;
  for (double& each : steps) each = step /= root;
  return steps;
}

/// One point of that low-discrepancy sequence, with every coordinate in [0, 1). Any leading part of
/// the sequence covers the unit cube evenly.
/// @param index 0..2^40; beyond, rounding errors become visible
/// @param shift >= 0, added to every coordinate before wrapping (Cranley and Patterson 1976)
template <int N>
constexpr std::array<double, N> additive_point(std::uint64_t index, double shift = 0.5) {
  constexpr std::array<double, N> kSteps = additive_steps<N>();
  std::array<double, N> point{};
  for (std::size_t k = 0; k < static_cast<std::size_t>(N); ++k) {
    const double value = shift + kSteps[k] * static_cast<double>(index + 1);
    point[k] = value - static_cast<double>(static_cast<std::int64_t>(value));
  }
  return point;
}

}  // namespace ovendays::base
