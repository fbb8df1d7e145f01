// SPDX-License-Identifier: MIT
// Made temperature, humidity, wind and rain. See weather_make.h.
#pragma once

#include <cstdint>
#include <vector>

#include "ovendays/weather/weather_make.h"

namespace ovendays::weather {

/// What the air's makers share.
struct AirPlan {
  const MonthlyNormals& normals;
  std::vector<double> day_clearness;  ///< 365
  std::vector<double> day_score;      ///< the same as standard normal deviates within the month
  std::uint64_t seed = 0;
};

void make_temperature(const AirPlan& plan, std::vector<WeatherHour>& hours);
void make_humidity(const AirPlan& plan, std::vector<WeatherHour>& hours);
void make_wind(const AirPlan& plan, std::vector<WeatherHour>& hours);
void make_rain(const AirPlan& plan, std::vector<WeatherHour>& hours);
}  // namespace ovendays::weather
