// SPDX-License-Identifier: MIT
// Synthetic temperature, humidity, wind and rain. The models are described in weather_make.h.
#pragma once

#include <cstdint>
#include <vector>

#include "ovendays/weather/weather_make.h"

namespace ovendays::weather {

/// The input of the four functions below.
struct AirInputs {
  const MonthlyNormals& normals;
  std::vector<double> day_clearness;  ///< clearness index of each of the 365 days
  std::vector<double> day_score;      ///< its standard normal deviate among the days of the month
  std::uint64_t seed = 0;
};

/// Each function fills its fields of all 8760 hours. Humidity needs the temperature to be made
/// first.
void make_temperature(const AirInputs& inputs, std::vector<WeatherHour>& hours);
void make_humidity(const AirInputs& inputs, std::vector<WeatherHour>& hours);
void make_wind(const AirInputs& inputs, std::vector<WeatherHour>& hours);
void make_rain(const AirInputs& inputs, std::vector<WeatherHour>& hours);
}  // namespace ovendays::weather
