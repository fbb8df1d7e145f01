// SPDX-License-Identifier: MIT
// Draws for made weather: normal deviates, by chance and by rank.
#pragma once

#include <cstdint>
#include <vector>

#include "ovendays/base/normal.h"
#include "ovendays/base/random.h"

namespace ovendays::weather {

/// What a stream is for; keeps the streams of one seed apart.
enum class Stream : std::uint64_t { kDayClearness = 1, kHourClearness, kTemperature, kWind, kRain };

class Chance {
 public:
  Chance(std::uint64_t seed, Stream stream, std::uint64_t index)
      : random_(seed, (static_cast<std::uint64_t>(stream) << 32U) + index) {}
  double uniform() { return random_.uniform(); }
  /// Standard normal deviate by Box and Muller 1958.
  double normal();

 private:
  base::KeyedRandom random_;
  double spare_ = 0.0;
  bool has_spare_ = false;
};

using base::normal_cdf;
using base::normal_quantile;
/// Each value's standard normal deviate by its rank among all.
std::vector<double> normal_scores(const std::vector<double>& values);
}  // namespace ovendays::weather
