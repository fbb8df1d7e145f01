// SPDX-License-Identifier: MIT
// Random and low-discrepancy numbers. Streams are keyed by what they are for (a ray, a day), never
// by thread, so that results do not depend on the number of threads.
#pragma once

#include <array>
#include <cstdint>

namespace ovendays::base {

/// SplitMix64 (Steele, Lea, Flood 2014): a small, fast, well-mixed stream keyed by any integers.
class KeyedRandom {
 public:
  /// A stream of its own for every key, or pair of keys in order: (1, 2) is not (2, 1).
  explicit constexpr KeyedRandom(std::uint64_t key) : state_(mix(key + kGolden)) {}
  constexpr KeyedRandom(std::uint64_t a, std::uint64_t b) : KeyedRandom(mix(a + kGolden) ^ b) {}
  /// The next 64 bits of the stream.
  constexpr std::uint64_t bits() {
    state_ += kGolden;
    return mix(state_);
  }
  /// Uniform in [0, 1), 53 bits.
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

/// Steps of the additive-recurrence sequence in `N` dimensions: the powers 1..N of the inverse of
/// the positive root of x^(N+1) = x + 1 (Roberts 2018). Computed by the compiler.
template <int N>
constexpr std::array<double, N> additive_steps() {
  double root = 2.0;
  for (int i = 0; i < 40; ++i) {
    double power = 1.0;  // root^N; Newton on x^(N+1) - x - 1
    for (int k = 0; k < N; ++k) power *= root;
    root -= (power * root - root - 1.0) / ((N + 1) * power - 1.0);
  }
  std::array<double, N> steps{};
  double step = 1.0;
  for (double& each : steps) each = step /= root;
  return steps;
}

/// Point `index` of that sequence, each coordinate in [0, 1), shifted by `shift` (>= 0). Evenly
/// spread for any number of points from the first; exact enough for an index below 2^40.
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
