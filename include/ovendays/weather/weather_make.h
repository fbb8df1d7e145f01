// SPDX-License-Identifier: MIT
// A year of hours from monthly normals, for places without a typical-year file. Daily clearness by
// the first-order autoregressive method of Aguiar, Collares-Pereira and Conde 1988, hours by the
// TAG model of Aguiar and Collares-Pereira 1992, diffuse split by Erbs, Klein and Duffie 1982.
// Seeded.
#pragma once

#include <array>
#include <cstdint>
#include <string>

#include "ovendays/weather/weather_year.h"

namespace ovendays::weather {

/// Monthly normals of an invented or real place.
struct MonthlyNormals {
  std::string file;
  sun::Place place;
  std::array<double, 12> ghi_kWhm2day{};       ///< mean daily global horizontal [kWh/m2 day]
  std::array<double, 12> dry_bulb_max_K{};     ///< mean daily maximum
  std::array<double, 12> dry_bulb_min_K{};     ///< mean daily minimum
  std::array<double, 12> wind_ms{};            ///< mean at 10 m
  std::array<double, 12> relative_humidity{};  ///< mean, 0..1
  std::array<double, 12> rain_m{};             ///< monthly sum; 0 where not given
  std::array<double, 12> rain_days{};          ///< days with rain; 0 where not given
  std::array<double, 12> albedo{};             ///< ground; 0.2 where not given
  bool rain_given = false;
  std::string comment;  ///< goes into the EPW's comment lines
};

/// Reads NORMALS.toml. @throws base::InputError
MonthlyNormals read_normals(const std::string& file);

/// A year that reproduces its monthly means of GHI within 2 % and of temperature within 0.3 K.
WeatherYear make_weather(const MonthlyNormals& normals, std::uint64_t seed);

/// The year as an EPW file (EnergyPlus weather format, hours ending at the stamp).
std::string epw_text(const WeatherYear& year, const std::string& comment);
}  // namespace ovendays::weather
