// SPDX-License-Identifier: MIT
// How sure a season is: the same case run many times, each time with other values of what nobody
// knows well and with another year's weather, and what that does to the days.
//
// What is drawn (unknowns()) and how widely is a judgement: common practice, no source. The values
// of a draw come from an additive recurrence (Roberts 2018; base/random.h), one coordinate an
// unknown, shifted by the seed (Cranley and Patterson 1976), so that few draws cover all of them
// evenly; each coordinate is turned into a value by its distribution's inverse.
//
// Weather. Of several measured years each draw takes one in turn: the spread between years is then
// the measured one. Of a single (typical) year another year is resampled (resampled_year). That
// gives the luck of the draw, month by month, but no anomaly longer than a block of days and no
// kind of day that the file does not hold: the spread between real years is wider.
// Thread-safe: yes. The same seed gives the same bits at any thread count.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "ovendays/season/season.h"

namespace ovendays::study {

/// Something that is not well known, and the range that eight of ten draws fall into.
struct Unknown {
  enum class Shape {
    kNormalFactor,     ///< the case's value times 1 + sd z; P10 is 2 - P90
    kLogNormalFactor,  ///< times exp(sd z); P10 is 1 / P90
    kNormalShift,      ///< plus sd z; P10 is -P90
  } shape;
  double p90;          ///< one draw of ten is beyond it; a factor, or a shift in the unit named
  const char* key;     ///< name in files
  const char* what;    ///< in words
  const char* reason;  ///< where the range comes from
};
inline constexpr std::size_t kUnknowns = 6;
/// Flap reflectance, leak area, conductivity of the insulation, wind at the oven, mass of the food,
/// temperature of the food when loaded [K].
const std::array<Unknown, kUnknowns>& unknowns();

/// The value below which a share of the draws lies. @param share above 0 and below 1
double value_at(const Unknown& unknown, double share);

struct Draw {
  std::array<double, kUnknowns> value{};  ///< factors and shifts, in the order of unknowns()
  std::size_t year = 0;                   ///< which of the weather years
};
/// @param index 0, 1, ..; @param years how many weather years there are, 1 or more
Draw make_draw(std::size_t index, std::uint64_t seed, std::size_t years);

/// The case with a draw's values: reflectance of flaps and corner panels (0.02..0.98), leak area,
/// conductivities of all layers, wind factor, mass and water of the food, its start (not below
/// 0.5 degC where the case has it above).
season::Case with_draw(const season::Case& c, const Draw& draw);

/// Days in a block of resampled_year: as long as a spell of weather. Judgement.
inline constexpr int kBlock_days = 5;
/// A block comes from at most this many days earlier or later in the year: the sun's declination
/// is then off by 4 deg at most. Judgement.
inline constexpr int kWindow_days = 10;

/// Another year by a local block bootstrap (after Paparoditis and Politis 2002; from memory): the
/// year is cut into blocks of kBlock_days, and each is taken from a place of the same year drawn
/// evenly from kWindow_days earlier to as many later (a ring). Dates stay those of the place
/// filled, so that the sun is that of its day.
weather::WeatherYear resampled_year(const weather::WeatherYear& year, std::uint64_t key);

struct SpreadOptions {
  int draws = 50;
  std::uint64_t seed = 1;
  season::SeasonOptions season;  ///< threads and progress are of all draws together
};

/// Days cooked by month; index 12 the year.
using MonthDays = std::array<int, 13>;

struct Spread {
  std::vector<std::string> task_names;
  std::vector<std::string> year_files;  ///< the weather years, by name
  std::vector<Draw> draws;
  std::vector<std::vector<MonthDays>> days;     ///< [task][draw]
  std::vector<std::vector<MonthDays>> by_year;  ///< [task][year]: the case as it is, each year
};

/// @param years one or more, all of one site. @throws base::RunError as run_season does
Spread run_spread(const season::Case& c,
                  const std::vector<weather::WeatherYear>& years,
                  const SpreadOptions& options);

/// The value below which a share of sorted values lies, linear between them: at share (n - 1) from
/// the least (Hyndman and Fan 1996, type 7). @param sorted not empty; @param share 0..1
double percentile(std::span<const double> sorted, double share);

/// P10, P50 and P90 of the days cooked in a month (12: the year) over all draws.
std::array<double, 3> days_range(const Spread& spread, std::size_t task, std::size_t month);

/// Chance that a day of the month works: mean over draws and days, 0..1.
double day_chance(const Spread& spread, std::size_t task, std::size_t month);
}  // namespace ovendays::study
