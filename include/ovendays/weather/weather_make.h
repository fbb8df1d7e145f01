// SPDX-License-Identifier: MIT
// A year of hours from monthly normals, for places without a typical-year file. What each quantity
// is made by (our own choices are named as such):
//
//   daily clearness   Markov chains: Aguiar, Collares-Pereira and Conde, Solar Energy 40(3):269,
//                     1988, a library of ten transition matrices by the month's mean clearness.
//                     Departure: of up to 400 sequences a month the one nearest to the month's mean
//                     is kept and what is left is scaled.
//   hourly clearness  the time-dependent autoregressive Gaussian model: Aguiar and
//   Collares-Pereira,
//                     Solar Energy 49(3):167, 1992, then scaled to the day's energy, no hour above
//                     the model's clear-sky limit.
//   diffuse           Erbs, Klein and Duffie, Solar Energy 28(4):293, 1982, hourly; beam from
//                     closure with the mean cosine while the sun is up, and never above 1.1 times
//                     the clear beam of Hottel, Solar Energy 18:129, 1976 (the rest stays diffuse).
//   dry bulb          daily highs and lows by the weather generator of Richardson, Water Resources
//                     Research 17(1):182, 1981, under the condition of the clearness already drawn
//                     (spread: our own choice); between them the mean course of Erbs, Klein and
//                     Beckman, ASHRAE Journal 25(6):60, 1983.
//   dew point         from the normals' humidity, moister on cloudy days (our own choice).
//   wind              Rayleigh distributed, hourly autoregression 0.9, highest in the afternoon
//                     (common practice, no source for the figures).
//   rain              on the cloudiest days, exponential amounts, four hours each.
//   pressure          the standard atmosphere at the elevation, all year.
//   horizontal infrared, gusts, snow   not made: missing.
//
// Days and hours stay within what has been seen on earth (-89 to 56.7 degC, dew point up to 35
// degC) and below 55 m/s, so that every year made reads back.
#pragma once

#include <array>
#include <cstdint>
#include <string>

#include "ovendays/weather/weather_year.h"

namespace ovendays::weather {

/// Monthly normals of an invented or real place, January to December.
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

/// Reads NORMALS.toml. Keys: name, comment, latitude, longitude (degrees), elevation, utc_offset
/// ("-7 h"), and lists of twelve: ghi_kWhm2_day, dry_bulb_max, dry_bulb_min ("12 C"), wind,
/// relative_humidity (0..1 or "80 %"); where wanted rain ("90 mm") with rain_days, and albedo.
/// @throws base::InputError for all that is missing, unknown or out of range, also a month's
/// radiation below 0.10 or above 0.78 of what arrives above the air at that latitude.
MonthlyNormals read_normals(const std::string& file);

/// A year (dated 2001) that reproduces its monthly means of GHI within 2 %, of daily highest and
/// lowest dry bulb within 0.3 K, of humidity within 0.03, of wind and rain to rounding. The same
/// seed gives the same year; another seed another. Some tenths of a second. Thread-safe: yes.
WeatherYear make_weather(const MonthlyNormals& normals, std::uint64_t seed);

/// Diffuse part of an hour's global irradiance [1], Erbs, Klein and Duffie 1982 (Duffie and Beckman
/// eq. 2.10.1). @param clearness GHI over extraterrestrial horizontal, 0..1
double erbs_diffuse_part(double clearness);

/// The year as an EPW file (EnergyPlus weather format: 8 header records, 35 fields, hours ending at
/// the stamp). The hours are written at the place they have in the year; a start_s off the full
/// hour (see WeatherHour) is lost. Notes of the year go into the second comment record. Digits:
/// irradiance 0.1 W/m2, temperatures 0.01 K, wind 0.01 m/s, rain 0.01 mm, pressure 1 Pa.
/// @param comment goes into the first comment record
std::string epw_text(const WeatherYear& year, const std::string& comment);
}  // namespace ovendays::weather
