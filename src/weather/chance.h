// SPDX-License-Identifier: MIT
// Draws for made weather: normal deviates, and the normal distribution both ways.
#pragma once

#include <cstdint>
#include <vector>

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

/// The standard normal distribution function, 0..1.
double normal_share(double deviate);
/// Its inverse. @param share above 0 and below 1
double normal_deviate(double share);
/// Each value's standard normal deviate by its rank among all.
std::vector<double> normal_scores(const std::vector<double>& values);
}  // namespace ovendays::weather
