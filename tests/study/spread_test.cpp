// SPDX-License-Identifier: MIT
// Draws, resampled years and percentiles.
#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <vector>

#include "catch.h"
#include "made_case.h"
#include "ovendays/study/spread.h"

using namespace ovendays;
using namespace ovendays::study;
using test::within_abs;
using test::within_rel;

namespace {
/// The values of one input over `count` draws, sorted.
std::vector<double> sorted_draws(std::size_t input, std::size_t count) {
  std::vector<double> values;
  for (const Draw& draw : make_draws(count, 7, 1)) values.push_back(draw.value[input]);
  std::sort(values.begin(), values.end());
  return values;
}

/// The day of the year an hour's weather came from, marked in its wind by marked_year().
int source_day(const weather::WeatherYear& year, int day) {
  return static_cast<int>(std::lround(year.at(day, 12).wind_ms * 10.0));
}

weather::WeatherYear marked_year() {
  test::MadeWeather made;
  made.change = [](int day, int, weather::WeatherHour& hour) { hour.wind_ms = 0.1 * day; };
  return test::made_weather(made);
}
}  // namespace

TEST_CASE("percentiles agree with numpy's", "[study][reference]") {
  // Own run of numpy 2.x percentile (linear, its default) on the same numbers.
  std::vector<double> values{3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5};
  std::sort(values.begin(), values.end());
  CHECK_THAT(percentile(values, 0.1), within_abs(1.0, 1e-12));  // rounding of the share
  CHECK_THAT(percentile(values, 0.37), within_abs(3.0, 1e-12));
  CHECK_THAT(percentile(values, 0.5), within_abs(4.0, 1e-12));
  CHECK_THAT(percentile(values, 0.9), within_abs(6.0, 1e-12));
  const std::array<double, 2> two{120.0, 300.0};
  CHECK_THAT(percentile(two, 0.1), within_abs(138.0, 1e-12));
  CHECK_THAT(percentile(two, 0.9), within_abs(282.0, 1e-12));
}

TEST_CASE("eight of ten draws fall between the stated ends", "[study][identity]") {
  for (std::size_t k = 0; k < kUncertainInputs; ++k) {
    const UncertainInput& u = uncertain_inputs()[k];
    INFO(u.what);
    CHECK_THAT(value_at(u, 0.9), within_rel(u.p90, 1e-12));  // a bisection to the last bits
    using Shape = UncertainInput::Shape;
    // The absolute value of a normal deviate lies below 0.12566 in one case in ten (table of the
    // normal distribution: P(z < 0.12566) = 0.55), below 0.67449 in half of all, and below 1.64485
    // in nine in ten.
    const double low = u.shape == Shape::kNormalFactor      ? 2.0 - u.p90
                       : u.shape == Shape::kLogNormalFactor ? 1.0 / u.p90
                       : u.shape == Shape::kLater           ? u.p90 * 0.12566135 / 1.64485363
                                                            : -u.p90;
    CHECK_THAT(value_at(u, 0.1), within_rel(low, 1e-7));
    const double middle = u.shape == Shape::kNormalShift ? 0.0
                          : u.shape == Shape::kLater     ? u.p90 * 0.67448975 / 1.64485363
                                                         : 1.0;
    CHECK_THAT(value_at(u, 0.5), within_abs(middle, std::max(1e-12, 1e-7 * middle)));
    // Of a Latin hypercube of 1000, exactly 100 lie above the 90th percentile.
    const std::vector<double> draws = sorted_draws(k, 1000);
    CHECK(draws.end() - std::upper_bound(draws.begin(), draws.end(), value_at(u, 0.9)) == 100);
    CHECK(std::lower_bound(draws.begin(), draws.end(), value_at(u, 0.1)) - draws.begin() == 100);
  }
}

TEST_CASE("few draws cover every uncertain input evenly", "[study][identity]") {
  // Of 12 draws exactly one falls into each twelfth of every distribution.
  for (std::size_t k = 0; k < kUncertainInputs; ++k) {
    const std::vector<double> draws = sorted_draws(k, 12);
    for (std::size_t i = 0; i < 12; ++i) {
      const double part = static_cast<double>(i);
      CHECK(draws[i] >= value_at(uncertain_inputs()[k], std::max(1e-9, part / 12.0)));
      CHECK(draws[i] <= value_at(uncertain_inputs()[k], std::min(1.0 - 1e-9, (part + 1.0) / 12.0)));
    }
  }
  // No input follows another: the strata of 200 draws are uncorrelated, to four standard errors.
  const std::vector<Draw> draws = make_draws(200, 3, 1);
  for (std::size_t a = 0; a < kUncertainInputs; ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      int same_side = 0;
      for (const Draw& draw : draws) {
        const auto high = [&](std::size_t k) {
          return draw.value[k] > value_at(uncertain_inputs()[k], 0.5);
        };
        same_side += high(a) == high(b) ? 1 : 0;
      }
      INFO(uncertain_inputs()[a].key << " and " << uncertain_inputs()[b].key);
      CHECK(std::abs(same_side - 100) <= 29);  // 4 sqrt(200) / 2
    }
  }
}

TEST_CASE("draws depend only on seed and number", "[study][determinism]") {
  CHECK(make_draws(9, 1, 4)[3].value == make_draws(9, 1, 4)[3].value);
  CHECK(make_draws(9, 1, 4)[3].value != make_draws(9, 2, 4)[3].value);
  CHECK(make_draws(9, 1, 4)[3].value != make_draws(9, 1, 4)[4].value);
  std::array<int, 3> taken{};
  for (const Draw& draw : make_draws(9, 1, 3)) ++taken[draw.year];
  CHECK(taken == std::array<int, 3>{3, 3, 3});  // each year as often as the others
}

TEST_CASE("a draw changes the uncertain inputs and nothing else", "[study][unit]") {
  season::Case c = test::small_case({"rice"});
  c.spot.wind_factor = 0.5;
  Draw draw;
  draw.value = {1.1, 2.0, 0.5, 3.0, 1.2, 2.5, 1.9, 2.2, 1.5, -0.03, -0.06, 1.15, 600.0, 0.8};
  const season::Case with = with_draw(c, draw);
  CHECK_THAT(with.oven.flaps[0].reflectance, within_rel(1.1 * c.oven.flaps[0].reflectance, 1e-15));
  CHECK(with.oven.box.leak_area_m2 == 2.0 * c.oven.box.leak_area_m2);
  CHECK(with.oven.box.floor[0].material.conductivity_WmK ==
        0.5 * c.oven.box.floor[0].material.conductivity_WmK);
  CHECK(with.spot.wind_factor == 1.5);
  CHECK(with.tasks[0].food.mass_kg == 1.2 * c.tasks[0].food.mass_kg);
  CHECK(with.tasks[0].food.water_kg == 1.2 * c.tasks[0].food.water_kg);
  CHECK(with.tasks[0].start_K == c.tasks[0].start_K + 2.5);
  CHECK(with.tasks[0].target_K == c.tasks[0].target_K);
  CHECK(with.oven.box.inner_width_m == c.oven.box.inner_width_m);
  CHECK(with.oven.vessels[0].foot_gap_m == 1.9 * c.oven.vessels[0].foot_gap_m);
  CHECK(with.oven.vessels[0].lid_steam_share == 1.5 * c.oven.vessels[0].lid_steam_share);
  CHECK(with.oven.as_built.lid_factor == 2.2);
  CHECK(with.oven.as_built.loss_factor == 1.15);
  CHECK(with.oven.as_built.food_heat_factor == 0.8);
  CHECK_THAT(with.oven.as_built.cleanliness, within_abs(c.oven.as_built.cleanliness - 0.03, 1e-15));
  CHECK_THAT(with.oven.as_built.flap_set, within_abs(c.oven.as_built.flap_set - 0.06, 1e-15));
  CHECK(with.routine.re_aim_late_s == c.routine.re_aim_late_s + 600.0);
  draw.value = {1.0, 1.0, 1.0, 1.0, 1.0, 0.0, 1.0, 1.0, 1.0, 0.0, 0.0, 1.0, 0.0, 1.0};
  const season::Case same = with_draw(c, draw);
  CHECK(same.oven.as_built == c.oven.as_built);
  CHECK(same.oven.flaps[0].reflectance == c.oven.flaps[0].reflectance);
  CHECK(same.oven.vessels[0].foot_gap_m == c.oven.vessels[0].foot_gap_m);
  CHECK(same.oven.vessels[0].lid_steam_share == c.oven.vessels[0].lid_steam_share);
  CHECK(same.routine == c.routine);
  CHECK(same.tasks[0].start_K == c.tasks[0].start_K);
  // Far out in the tails.
  draw.value = {9.0, 1.0, 1.0, 1.0, -1.0, -100.0, 1.0, 1.0, 99.0, 1.0, 1.0, 1.0, 0.0, 1.0};
  const season::Case odd = with_draw(c, draw);
  CHECK(odd.oven.flaps[0].reflectance <= 0.98);
  CHECK(odd.tasks[0].food.mass_kg > 0.0);
  CHECK(odd.tasks[0].start_K == std::min(c.tasks[0].start_K, 273.65));
  CHECK(odd.oven.vessels[0].lid_steam_share == 0.12);
  CHECK(odd.oven.as_built.cleanliness == 1.0);
  CHECK(odd.oven.as_built.flap_set == 1.0);
}

TEST_CASE("a resampled year is made of blocks from the same time of the year", "[study][unit]") {
  const weather::WeatherYear year = marked_year();
  const weather::WeatherYear made = resampled_year(year, 5);
  std::set<int> shifts;
  for (int day = 0; day < season::kDays; ++day) {
    int shift = source_day(made, day) - day;
    if (shift > 182) shift -= 365;
    if (shift < -182) shift += 365;
    CHECK(std::abs(shift) <= kWindow_days);
    shifts.insert(shift);
    if (day % kBlock_days != 0) {  // within a block days follow each other
      CHECK((source_day(made, day) - source_day(made, day - 1) + 365) % 365 == 1);
    }
    CHECK(made.at(day, 5).date.day == year.at(day, 5).date.day);
    CHECK(made.at(day, 5).start_s == year.at(day, 5).start_s);
  }
  // 73 blocks over 21 shifts: an even draw leaves out one shift in 35 (20/21)^73 = 0.03.
  CHECK(shifts.size() >= 18);
  CHECK(source_day(resampled_year(year, 5), 100) == source_day(made, 100));
  const weather::WeatherYear other = resampled_year(year, 6);
  int same = 0;
  for (int day = 0; day < season::kDays; ++day) {
    same += source_day(other, day) == source_day(made, day) ? 1 : 0;
  }
  CHECK(same < 73);  // a 21st of the days on average, 17
}

TEST_CASE("a spread is the same bits at any thread count and with the same seed",
          "[study][determinism]") {
  const season::Case c = test::small_case({"rice"});
  test::MadeWeather broken;
  broken.change = [](int day, int, weather::WeatherHour& hour) {
    if (day % 3 == 0) hour.dni_Wm2 *= 0.2;
  };
  const std::vector<weather::WeatherYear> years{test::made_weather(broken)};
  SpreadOptions options{.draws = 5, .seed = 3, .season = test::quick_options()};
  options.season.optics = {.rays = 64, .grid = 17};
  options.season.threads = 1;
  const Spread one = run_spread(c, years, options);
  options.season.threads = 2;
  const Spread two = run_spread(c, years, options);
  CHECK(one.days == two.days);
  CHECK(one.by_year == two.by_year);
  options.seed = 4;
  CHECK(run_spread(c, years, options).days != one.days);
  // Ranges are those of the draws, by hand: the middle one of five.
  std::vector<int> days;
  for (const MonthDays& draw : one.days[0]) days.push_back(draw[12]);
  std::sort(days.begin(), days.end());
  CHECK(days_range(one, 0, 12)[1] == days[2]);
  CHECK(days_range(one, 0, 12)[0] <= days_range(one, 0, 12)[1]);
  double sum = 0.0;
  for (const MonthDays& draw : one.days[0]) sum += draw[5];
  CHECK_THAT(day_chance(one, 0, 5), within_abs(sum / (5 * 30), 1e-12));  // June; rounding
}

TEST_CASE("with several years each draw uses one unchanged, and each year is reported",
          "[study][unit]") {
  const season::Case c = test::small_case({"rice"});
  test::MadeWeather dark;
  dark.beam = 0.0;
  dark.diffuse = 0.5;
  const std::vector<weather::WeatherYear> years{test::made_weather(), test::made_weather(dark)};
  SpreadOptions options{.draws = 4, .seed = 1, .season = test::quick_options()};
  options.season.optics = {.rays = 64, .grid = 17};
  const Spread spread = run_spread(c, years, options);
  CHECK(spread.by_year[0][0][12] > 300);  // clear every day
  CHECK(spread.by_year[0][1][12] == 0);   // no beam at all
  for (std::size_t d = 0; d < 4; ++d) {
    CHECK((spread.days[0][d][12] == 0) == (spread.draws[d].year == 1));
  }
}
