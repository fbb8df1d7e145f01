// SPDX-License-Identifier: MIT
// Synthetic weather: a year of hours generated from monthly normals, for places without a
// typical-year file. The models, in the order in which they are applied:
//
//   daily clearness   Markov chains with a library of ten transition matrices, chosen by the
//   month's
//                     mean clearness index: Aguiar, Collares-Pereira and Conde, Solar Energy
//                     40(3):269, 1988. Departure: of up to 400 sequences per month the one nearest
//                     to the month's mean is kept, and the remaining difference is scaled away.
//   hourly clearness  time-dependent autoregressive Gaussian model: Aguiar and Collares-Pereira,
//                     Solar Energy 49(3):167, 1992. Then scaled to the energy of the day, with no
//                     hour above the model's clear-sky limit.
//   diffuse fraction  hourly, by Erbs, Klein and Duffie, Solar Energy 28(4):293, 1982. The beam
//                     follows from closure with the mean cosine while the sun is up. It is at most
//                     1.1 times the clear beam of Hottel, Solar Energy 18:129, 1976; the excess
//                     stays diffuse.
//   dry bulb          daily maxima and minima by the weather generator of Richardson, Water
//                     Resources Research 17(1):182, 1981, conditioned on the clearness already
//                     drawn (their spread is our own choice). The course between them is the mean
//                     course of Erbs, Klein and Beckman, ASHRAE Journal 25(6):60, 1983.
//   dew point         from the normals' humidity, higher on cloudy days (our own choice).
//   wind              Rayleigh distributed, with an hourly autocorrelation of 0.9 and a maximum in
//                     the afternoon (common practice, no source for the figures).
//   rain              on the cloudiest days, in exponentially distributed amounts, over four hours.
//   pressure          the standard atmosphere at the elevation, all year.
//
// Horizontal infrared, gusts and snow are not generated; they are missing from the year.
// Temperatures stay within the records observed on earth (-89 to 56.7 degC, dew point up to 35
// degC) and the wind within 55 m/s, so that every year can be read back.
#pragma once

#include <array>
#include <cstdint>
#include <string>

#include "ovendays/weather/weather_year.h"

namespace ovendays::weather {

/// Monthly normals of a real or invented place, January to December.
struct MonthlyNormals {
  std::string file;
  sun::Place place;
  std::array<double, 12> ghi_kWhm2day{};       ///< mean daily global horizontal [kWh/m2 day]
  std::array<double, 12> dry_bulb_max_K{};     ///< mean daily maximum
  std::array<double, 12> dry_bulb_min_K{};     ///< mean daily minimum
  std::array<double, 12> wind_ms{};            ///< mean at 10 m
  std::array<double, 12> relative_humidity{};  ///< mean, 0..1
  std::array<double, 12> rain_m{};             ///< monthly sum; 0 if not given
  std::array<double, 12> rain_days{};          ///< number of days with rain; 0 if not given
  std::array<double, 12> albedo{};             ///< of the ground; 0.2 if not given
  bool rain_given = false;
  std::string comment;  ///< goes into the comment records of the EPW file
};

/// Reads a file of normals. Keys: name, comment, latitude, longitude (degrees), elevation,
/// utc_offset
/// ("-7 h"), and lists of twelve values: ghi_kWhm2_day, dry_bulb_max, dry_bulb_min ("12 C"), wind,
/// relative_humidity (0..1 or "80 %"); optionally rain ("90 mm") with rain_days, and albedo.
/// @throws base::InputError with everything that is missing, unknown or out of range. A month's
/// radiation must be 0.10 to 0.78 of the extraterrestrial radiation at that latitude.
MonthlyNormals read_normals(const std::string& file);

/// Generates a year, dated 2001. It reproduces the monthly means of GHI within 2 %, of daily
/// maximum and minimum dry bulb within 0.3 K, of humidity within 0.03, and of wind and rain to
/// rounding. Takes some tenths of a second. Thread-safe: yes.
/// @param seed the same seed gives the same year, another seed gives another year
WeatherYear make_weather(const MonthlyNormals& normals, std::uint64_t seed);

/// Diffuse fraction of an hour's global irradiance [1]: Erbs, Klein and Duffie 1982 (Duffie and
/// Beckman eq. 2.10.1).
/// @param clearness clearness index, GHI over extraterrestrial horizontal irradiance, 0..1
double erbs_diffuse_fraction(double clearness);

/// The year as the text of an EPW file (EnergyPlus weather format: 8 header records, 35 fields per
/// row, hours that end at their stamp). Each hour is written at its index in the year; a start_s
/// that is not at the full hour is lost. Notes of the year go into the second comment record.
/// Resolution: irradiance 0.1 W/m2, temperature 0.01 K, wind 0.01 m/s, rain 0.01 mm, pressure 1 Pa.
/// @param comment goes into the first comment record
std::string epw_text(const WeatherYear& year, const std::string& comment);
}  // namespace ovendays::weather
