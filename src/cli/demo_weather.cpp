// SPDX-License-Identifier: MIT
#include "demo_weather.h"

#include <algorithm>

#include "ovendays/base/constants.h"

namespace ovendays::cli {

weather::MonthlyNormals demo_normals() {
  constexpr std::array<double, 12> kHighest_degC = {
      8.6, 11.8, 16.5, 21.4, 26.8, 32.4, 33.2, 31.5, 28.0, 21.4, 14.0, 8.5};
  constexpr std::array<double, 12> kLowest_degC = {
      -5.4, -3.0, 0.4, 4.2, 9.4, 14.6, 17.6, 16.6, 12.6, 5.8, -0.8, -5.2};
  constexpr std::array<double, 12> kHumidity_percent = {
      52.0, 46.0, 37.0, 29.0, 27.0, 25.0, 39.0, 44.0, 42.0, 42.0, 46.0, 53.0};
  constexpr std::array<double, 12> kRain_mm = {
      10.0, 11.0, 13.0, 13.0, 14.0, 15.0, 38.0, 42.0, 27.0, 24.0, 14.0, 13.0};
  weather::MonthlyNormals normals;
  normals.file = "made from high_desert.toml";
  normals.place = {.name = "Ochre Mesa",
                   .latitude_rad = 35.2 * base::kRadPerDeg,
                   .longitude_rad = -107.4 * base::kRadPerDeg,
                   .elevation_m = 1600.0,
                   .utc_offset_s = -7.0 * base::kSecondsPerHour};
  normals.ghi_kWhm2day = {3.2, 4.1, 5.5, 6.8, 7.7, 8.1, 7.3, 6.6, 5.8, 4.7, 3.5, 2.9};
  normals.wind_ms = {3.2, 3.6, 4.2, 4.8, 4.6, 4.3, 3.7, 3.4, 3.4, 3.4, 3.2, 3.1};
  normals.rain_days = {3, 3, 4, 3, 4, 3, 8, 9, 6, 5, 3, 4};
  normals.albedo.fill(0.28);
  for (std::size_t month = 0; month < 12; ++month) {
    normals.dry_bulb_max_K[month] = kHighest_degC[month] + base::kZeroCelsius_K;
    normals.dry_bulb_min_K[month] = kLowest_degC[month] + base::kZeroCelsius_K;
    normals.relative_humidity[month] = kHumidity_percent[month] / 100.0;
    normals.rain_m[month] = kRain_mm[month] / 1000.0;
  }
  normals.rain_given = true;
  normals.comment = "Invented place in a high desert. Made weather, not measured.";
  return normals;
}
}  // namespace ovendays::cli
