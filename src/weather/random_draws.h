// SPDX-License-Identifier: MIT
// Random numbers for synthetic weather. Private to weather.
#pragma once

#include <cstdint>
#include <vector>

#include "ovendays/base/normal.h"
#include "ovendays/base/random.h"

namespace ovendays::weather {

/// The purpose of a random stream. Different purposes have independent streams for the same seed.
enum class Stream : std::uint64_t { kDayClearness = 1, kHourClearness, kTemperature, kWind, kRain };

/// A stream of random numbers that is keyed by the seed, its purpose and an index (a month or a
/// day).
class RandomDraws {
 public:
  RandomDraws(std::uint64_t seed, Stream stream, std::uint64_t index)
      : random_(seed, (static_cast<std::uint64_t>(stream) << 32U) + index) {}
  /// Uniform in [0, 1).
  double uniform() { return random_.uniform(); }
  /// Standard normal deviate by the method of Box and Muller 1958.
  double normal();

 private:
  base::KeyedRandom random_;
  double spare_ = 0.0;
  bool has_spare_ = false;
};

using base::normal_cdf;
using base::normal_quantile;
/// The standard normal deviate that belongs to the rank of each value among all of them.
std::vector<double> normal_scores(const std::vector<double>& values);
}  // namespace ovendays::weather
