// SPDX-License-Identifier: MIT
// One day at the minute against the season of the same case: the same cook must come out.
#include "ovendays/season/day_trace.h"

#include <cmath>

#include "catch.h"
#include "made_case.h"

using namespace ovendays;
using namespace ovendays::test;

namespace {
const weather::WeatherYear& some_cloud() {
  static const weather::WeatherYear year = made_weather({.change = [](int day, int, auto& hour) {
    if (day % 3 == 1) hour.dni_Wm2 *= 0.2;
  }});
  return year;
}

season::DayTrace trace(const season::Case& c, const season::DayQuestion& question) {
  return season::trace_one_day(c, some_cloud(), question, quick_options(true));
}

double single(double x) { return static_cast<double>(static_cast<float>(x)); }
}  // namespace

TEST_CASE("a traced day is the season's day, bit by bit", "[season][identity]") {
  season::Case c = small_case({"rice", "bread"});
  c.routine.lid_open_after_s = {1800.0};
  const season::SeasonResult whole = run(c, some_cloud(), true);
  // Days on both sides of the boundaries of blocks are among them.
  for (const int day : {0, 31, 32, 40, 100, 172, 351, 352, 364}) {
    for (const std::size_t t : {std::size_t{0}, std::size_t{1}}) {
      INFO("day " << day << ", task " << t);
      const season::DayTask& reported = whole.at(t, day);
      const season::DayTrace found = trace(c, {.day_index = day, .task = t});
      REQUIRE(found.as_season);
      CHECK(found.season.outcome == reported.outcome);
      CHECK(found.season.cause == reported.cause);
      CHECK(single(found.load_s) == static_cast<double>(reported.load_s));
      CHECK(single(found.cook.peak_core_K) == static_cast<double>(reported.peak_core_K));
      CHECK(single(found.cook.evaporated_kg) == static_cast<double>(reported.evaporated_kg));
      CHECK(single(found.cook.danger_s) == static_cast<double>(reported.danger_s));
      CHECK(found.cook.done == (reported.finish_s >= 0.0F));
      if (found.cook.done)
        CHECK(single(found.cook.finish_s) == static_cast<double>(reported.finish_s));
    }
  }
}

TEST_CASE("the minutes agree with the cook's own account", "[season][identity]") {
  const season::Case c = small_case({"rice"});
  const season::DayTrace found = trace(c, {.day_index = 171});
  REQUIRE(found.cook.done);
  REQUIRE(found.target_s);
  REQUIRE(found.minutes.size() == season::kMinutes + 1);
  double hottest_K = 0.0;
  for (const season::MinuteTrace& minute : found.minutes) {
    const bool cooking = minute.time_s >= found.load_s && minute.time_s <= found.end_s;
    CHECK(std::isnan(minute.core_K) != cooking);
    if (cooking) hottest_K = std::max(hottest_K, minute.core_K);
    // The rice's core crosses its target once: below before, at or above after, to the minute.
    if (cooking && minute.time_s < *found.target_s) CHECK(minute.core_K < found.target_K);
    if (cooking && minute.time_s > *found.target_s) CHECK(minute.core_K > found.target_K - 1e-6);
  }
  // Between whole minutes the core rises by at most about a kelvin.
  CHECK_THAT(hottest_K, within_abs(found.cook.peak_core_K, 1.0));
  // The peak is that of the steps' ends; between them a core that levels off bends a little higher.
  CHECK(hottest_K <= found.cook.peak_core_K + 0.01);
  CHECK(*found.target_s + found.hold_s <= found.cook.finish_s + 1e-6);
}

TEST_CASE("the minutes' light sums up to the season's hours", "[season][identity]") {
  season::Case c = small_case({"rice"});
  c.spot.obstructions.emplace_back(spot::Wall{.name = "wall",
                                              .x1_m = -4,
                                              .y1_m = -3,
                                              .x2_m = 1,
                                              .y2_m = -3,
                                              .top_m = 4,
                                              .reflectance = 0.3});
  const season::SeasonResult whole = run(c, some_cloud());
  const season::DayTrace found = trace(c, {.day_index = 20});
  for (std::size_t hour = 0; hour < 24; ++hour) {
    double beam = 0.0;
    double diffuse = 0.0;
    for (std::size_t m = 0; m < 60; ++m) {
      const season::MinuteTrace& a = found.minutes[hour * 60 + m];
      const season::MinuteTrace& b = found.minutes[hour * 60 + m + 1];
      beam += 0.5 * (a.beam_mouth_Wm2 + b.beam_mouth_Wm2) / 60.0;
      diffuse += 0.5 * (a.diffuse_mouth_Wm2 + b.diffuse_mouth_Wm2) / 60.0;
    }
    const season::HourTrace& reported = whole.hours[std::size_t{20} * 24 + hour];
    INFO("hour " << hour);
    // The trapezoid over a minute misses a jump within it (a new aim, a shadow's edge) by at most a
    // sixtieth of the jump; there are a few jumps an hour.
    CHECK_THAT(beam, within_abs(static_cast<double>(reported.beam_mouth_Wm2), 12.0));
    CHECK_THAT(diffuse, within_abs(static_cast<double>(reported.diffuse_mouth_Wm2), 4.0));
  }
}

TEST_CASE("loading when the season does not is traced too", "[season][unit]") {
  const season::Case c = small_case({"rice"});
  const season::DayTrace found = trace(c, {.day_index = 171, .load_s = 10.25 * 3600.0});
  CHECK_FALSE(found.as_season);
  CHECK(found.load_s == 10.25 * 3600.0);
  CHECK(found.cook.done);
  CHECK_FALSE(std::isnan(found.minutes[10 * 60 + 15].core_K));
  CHECK(std::isnan(found.minutes[10 * 60 + 14].core_K));
  // Loaded at a candidate time by hand is the season's own cook of that time.
  const season::DayTrace same =
      trace(c, {.day_index = 171, .load_s = static_cast<double>(found.season.load_s)});
  CHECK(same.as_season);
  CHECK(single(same.cook.finish_s) == static_cast<double>(found.season.finish_s));
}

TEST_CASE("a day with frozen food shows its temperatures, not its heat", "[season][unit]") {
  season::Case c = small_case({"stew"});
  c.tasks[0].start_K = base::kZeroCelsius_K - 18.0;
  c.tasks[0].food.frozen = true;
  const season::DayTrace found = trace(c, {.day_index = 171, .load_s = 9.0 * 3600.0});
  const auto core_C = [&](std::size_t minute) {
    return found.minutes[9 * 60 + minute].core_K - base::kZeroCelsius_K;
  };
  CHECK_THAT(core_C(0), within_abs(-18.0, 1e-3));  // single precision
  double thawing_min = 0.0;
  for (std::size_t m = 1; m < 600 && !std::isnan(core_C(m)); ++m) {
    CHECK(core_C(m) >= -18.0 - 1e-3);
    thawing_min += core_C(m) > -2.0 && core_C(m) < 0.0 ? 1.0 : 0.0;
  }
  // 2 kg with 80 % water take 545 kJ to melt: an hour at 150 W, 20 min at 450 W.
  CHECK(thawing_min > 20.0);
}
