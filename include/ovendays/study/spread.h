// SPDX-License-Identifier: MIT
// Uncertainty of a season: simulates the same case many times, each time with other values of the
// uncertain inputs and with other weather, and reports the range of days.
//
// The choice of inputs (uncertain_inputs()) and their ranges are judgement, except where an input's
// reason names a source. The values come from a Latin hypercube (McKay, Beckman and Conover 1979):
// of n draws, each n-th of an input's distribution is taken once, so that few draws cover all
// inputs evenly, however many there are. The inverse distribution function turns a share into a
// value.
//
// Weather. If several measured years are given, each draw takes one in turn, and the spread between
// years is the measured one. A single (typical) year is resampled (resampled_year). Resampling
// shows chance variation from month to month, but no anomaly longer than a block of days and no
// kind of day that is missing from the file, so the spread between real years is wider.
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

/// An uncertain input and its distribution; eight of ten draws lie between P10 and P90.
struct UncertainInput {
  enum class Shape {
    kNormalFactor,     ///< the case's value times 1 + sd z; P10 is 2 - P90
    kLogNormalFactor,  ///< times exp(sd z); P10 is 1 / P90
    kNormalShift,      ///< plus sd z; P10 is -P90
    kLater,            ///< plus sd |z|, never less than the case's value; P10 is P90 / 13.1
  } shape;
  double p90;          ///< exceeded by one draw in ten; a factor, or a shift in `unit`
  const char* unit;    ///< of a shift: "K", "s" or "1"; "1" for factors
  const char* key;     ///< name in files
  const char* what;    ///< name for readers
  const char* reason;  ///< source of the range
};
inline constexpr std::size_t kUncertainInputs = 14;
/// In this order: flap reflectance, leak area, conductivity of the insulation, wind at the oven,
/// mass of the food, temperature of the food when loaded [K], gap under the vessel's foot, heat
/// through the lid, steam past the lid, cleanliness of glass and foil, set of the flaps, losses,
/// lateness of turning [s], heat into the food.
const std::array<UncertainInput, kUncertainInputs>& uncertain_inputs();

/// Quantile of an input's distribution. @param share above 0 and below 1
double value_at(const UncertainInput& input, double share);

struct Draw {
  std::array<double, kUncertainInputs>
      value{};           ///< factors and shifts, in the order of uncertain_inputs()
  std::size_t year = 0;  ///< index of the weather year
};
/// Draws the inputs of `count` seasons. The same count and seed give the same draws.
/// @param years number of weather years, >= 1; the draws take them in turn
std::vector<Draw> make_draws(std::size_t count, std::uint64_t seed, std::size_t years);

/// Applies a draw to a case. Values stay physical: reflectances within 0.02..0.98, cleanliness and
/// set of the flaps within 0.3..1, steam past a lid within 0.02..0.12 (or as the case has it, where
/// that is outside), and the food's start temperature not below 0.5 degC unless the case has it
/// below.
season::Case with_draw(const season::Case& c, const Draw& draw);

/// Length of a block of resampled_year, about that of a spell of weather; judgement.
inline constexpr int kBlock_days = 5;
/// Largest distance of a block from the days that it replaces; the sun's declination is then off by
/// at most 4 deg. Judgement.
inline constexpr int kWindow_days = 10;

/// Makes another year by a local block bootstrap (after Paparoditis and Politis 2002; from memory).
/// The year is cut into blocks of kBlock_days; each is replaced by a block of the same year that
/// starts at most kWindow_days earlier or later, drawn uniformly, with the year taken as a ring.
/// The dates are kept, so the sun stays that of the day. @param key key of the random numbers
weather::WeatherYear resampled_year(const weather::WeatherYear& year, std::uint64_t key);

/// For each day of the year, the day whose weather a resampled year takes.
std::array<int, season::kDays> resampled_days(std::uint64_t key);

/// The optics of draws, at most this fine: a quarter of the rays. A season's days hardly move by it
/// (tests/study/likely_ranges_test.cpp), while draws move them by tens.
optics::OpticsOptions coarse_optics(optics::OpticsOptions options);

struct SpreadOptions {
  int draws = 50;
  std::uint64_t seed = 1;
  season::SeasonOptions season;  ///< threads and progress refer to all draws together
};

/// Days cooked by month; index 12 is the year.
using MonthDays = std::array<int, 13>;

struct Spread {
  std::vector<std::string> task_names;
  std::vector<std::string> year_files;  ///< files of the weather years
  std::vector<Draw> draws;
  std::vector<std::vector<MonthDays>> days;     ///< [task][draw]
  std::vector<std::vector<MonthDays>> by_year;  ///< [task][year]: the case as given, in each year
  /// [task][draw]: from loading at the typical time (season::typical_load_s) to done, on the days
  /// on which that works.
  std::vector<std::vector<std::vector<float>>> done_in_s;
};

/// Runs all seasons of a spread. @param years one or more, all of one site
/// @throws base::RunError as run_season does
Spread run_spread(const season::Case& c,
                  const std::vector<weather::WeatherYear>& years,
                  const SpreadOptions& options);

/// Quantile of sorted values with linear interpolation at position share (n - 1) (Hyndman and Fan
/// 1996, type 7). @param sorted not empty; @param share 0..1
double percentile(std::span<const double> sorted, double share);

/// P10, P50 and P90 over all draws of the days cooked in a month (index 12: the year).
std::array<double, 3> days_range(const Spread& spread, std::size_t task, std::size_t month);

/// A year's likely range of every task, from a spread. @param c the case of the spread
std::vector<season::TaskRange> task_ranges(const season::Case& c, const Spread& spread);

/// Draws behind likely_ranges where nothing else is asked for.
inline constexpr int kLikelyDraws = 12;
/// A year's likely range of every task from few draws, for every season. A draw simulates every
/// fourth day of the year, with the weather as given, and is compared with the same days of the
/// season as given: the difference, times four, is the draw's. The chance of the weather is added
/// by resampling the outcomes of the season as given as resampled_days() does the weather. Against
/// a spread, which simulates all days of resampled years, this leaves out how the two work
/// together, and single days weigh more. Days of a draw that are not on the routine stay as they
/// are.
/// @param as_given run_season of this case and year @param options draws, seed, threads, progress
/// @throws base::RunError as run_season does
std::vector<season::TaskRange> likely_ranges(const season::Case& c,
                                             const weather::WeatherYear& year,
                                             const season::SeasonResult& as_given,
                                             const SpreadOptions& options);

/// Chance that a day of a month works, 0..1: mean over draws and days.
double day_chance(const Spread& spread, std::size_t task, std::size_t month);
}  // namespace ovendays::study
