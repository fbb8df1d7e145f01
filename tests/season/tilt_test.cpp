// SPDX-License-Identifier: MIT
// Seasons in which a pot cannot be used in every notch: what that costs, and that the cost is told.
#include <algorithm>
#include <cmath>

#include "catch.h"
#include "made_case.h"
#include "ovendays/season/aim_card.h"
#include "ovendays/season/day_trace.h"

using namespace ovendays;
using namespace ovendays::test;
using season::Cause;
using season::Outcome;

namespace {
/// Clear days far from the equator, where a level box gets little sun in winter.
const weather::WeatherYear& northern_year() {
  static const weather::WeatherYear year = made_weather({.latitude_deg = 45.0, .change = {}});
  return year;
}

season::Case fixed_case(const std::vector<std::string>& tasks, double friction = 0.5) {
  season::Case c = small_case(tasks);
  c.oven.shelf = {.friction = friction};
  return c;
}

/// A pot that nothing moves: every notch can be used.
constexpr double kLedge = 10.0;
}  // namespace

TEST_CASE("days that a tilted pot loses have the tilt as their cause", "[season][unit]") {
  const season::SeasonResult free = run(fixed_case({"bread"}, kLedge), northern_year(), true);
  const season::SeasonResult held = run(fixed_case({"bread"}), northern_year(), true);
  CHECK(days_with(free, 0, Cause::kTilt) == 0);
  CHECK(days_with(held, 0, Cause::kTilt) > 20);
  int apart = 0;
  for (int d = 0; d < season::kDays; ++d) {
    const bool free_has = free.at(0, d).outcome == Outcome::kCooked;
    const bool held_has = held.at(0, d).outcome == Outcome::kCooked;
    if (held_has) continue;
    apart += (held.at(0, d).cause == Cause::kTilt) == free_has ? 0 : 1;
  }
  // The segments of the two days are merged apart, which may decide a day with a narrow margin.
  CHECK(apart <= 1);
}

TEST_CASE("more notches never lose a day", "[season][identity]") {
  // Friction that holds to 10, 20, 30, 40 deg and all the way.
  std::vector<season::SeasonResult> results;
  for (const double tilt_deg : {10.0, 20.0, 30.0, 40.0, 84.0})
    results.push_back(
        run(fixed_case({"bread"}, std::tan(tilt_deg * base::kRadPerDeg)), northern_year()));
  for (std::size_t i = 1; i < results.size(); ++i) {
    for (int d = 0; d < season::kDays; ++d) {
      INFO("friction " << i << ", day " << d);
      if (results[i - 1].at(0, d).outcome == Outcome::kCooked)
        CHECK(results[i].at(0, d).outcome == Outcome::kCooked);
    }
    CHECK(cooked_days(results[i], 0) >= cooked_days(results[i - 1], 0));
  }
  CHECK(cooked_days(results.back(), 0) > cooked_days(results.front(), 0) + 20);
}

TEST_CASE("a limit on one task leaves the others as they were", "[season][identity]") {
  season::Case c = small_case({"eggs", "water"});
  c.oven.shelf = {.friction = kLedge};
  const season::SeasonResult both = run(c, northern_year());
  const season::SeasonResult alone = run(small_case({"eggs"}), northern_year());
  for (int d = 0; d < season::kDays; ++d) {
    INFO("day " << d);
    CHECK(both.at(0, d).outcome == alone.at(0, d).outcome);
    CHECK(both.at(0, d).finish_s == alone.at(0, d).finish_s);
  }
}

TEST_CASE("a remark says which notches are not used, why and what it costs", "[season][unit]") {
  const season::SeasonResult r = run(fixed_case({"bread", "water"}), northern_year(), true);
  const auto remark = [&](const std::string& task) {
    const auto found = std::find_if(r.notes.begin(), r.notes.end(), [&](const std::string& note) {
      return note.rfind(task, 0) == 0 && contains(note, "notches");
    });
    return found == r.notes.end() ? std::string() : *found;
  };
  const std::string bread = remark("bread loaf:");
  INFO(bread);
  CHECK(contains(bread, "notches 30 deg, 40 deg and 50 deg are not used"));
  CHECK(contains(bread, "would slide from 26.6 deg on"));
  CHECK(contains(bread, "bread loaf " + std::to_string(days_with(r, 0, Cause::kTilt))));
  CHECK(
      contains(bread,
               "Up to as many would be gained by a rack that keeps the vessel level (level = true "
               "in [oven.shelf]), where it has room under the glass."));
  const std::string water = remark("drinking water, pasteurised:");
  INFO(water);
  CHECK(contains(water, "notches 20 deg, 30 deg, 40 deg and 50 deg are not used"));
  CHECK(contains(water, "would spill from 10.4 deg on"));
  for (const std::string& note : run(small_case({"bread"}), northern_year(), true).notes)
    CHECK_FALSE(contains(note, "notch"));
}

TEST_CASE("an oven with a level rack is told what limits it there", "[season][unit]") {
  const auto remark_with = [](double inner_height_m, double step_deg) {
    season::Case c = small_case({"rice"});
    c.oven.box.inner_height_m = inner_height_m;
    c.oven.shelf = {.level = true, .step_rad = step_deg * base::kRadPerDeg, .friction = 0.1};
    const season::SeasonResult r = run(c, northern_year(), true);
    REQUIRE(days_with(r, 0, Cause::kTilt) > 0);
    const auto found = std::find_if(r.notes.begin(), r.notes.end(), [](const std::string& note) {
      return contains(note, "not used");
    });
    return found == r.notes.end() ? std::string() : *found;
  };
  const std::string low = remark_with(6.0 * 0.0254, 10.0);
  INFO(low);
  CHECK(contains(low, "on its level rack, would touch the glass"));
  CHECK(contains(low,
                 "Up to as many would be gained by a lower or narrower vessel or a deeper box."));
  const std::string coarse = remark_with(9.0 * 0.0254, 60.0);
  INFO(coarse);
  CHECK(contains(coarse, "on its level rack, would slide from 5.7 deg on"));
  CHECK(contains(coarse, "Up to as many would be gained by finer settings of the rack (step in "));
  CHECK_FALSE(contains(low + coarse, "level = true"));
}

TEST_CASE("limited seasons have the same bits on any number of threads", "[season][determinism]") {
  const season::Case c = fixed_case({"soup", "bread", "water"});
  season::SeasonOptions options = quick_options(true);
  options.threads = 1;
  const season::SeasonResult one = season::run_season(c, northern_year(), options);
  REQUIRE(days_with(one, 1, Cause::kTilt) > 0);
  const season::SeasonCache cache;
  for (const int threads : {2, 7}) {
    options.threads = threads;
    options.cache = &cache;
    const season::SeasonResult other = season::run_season(c, northern_year(), options);
    for (std::size_t i = 0; i < one.days.size(); ++i) {
      REQUIRE(other.days[i].outcome == one.days[i].outcome);
      REQUIRE(other.days[i].cause == one.days[i].cause);
      REQUIRE(other.days[i].peak_core_K == one.days[i].peak_core_K);
      REQUIRE(other.days[i].finish_s == one.days[i].finish_s);
    }
    CHECK(other.audit.steps == one.audit.steps);
    CHECK(other.notes == one.notes);
  }
}

TEST_CASE("a shared cache tells ovens with other notches apart", "[season][determinism]") {
  season::SeasonOptions options = quick_options(false);
  const season::SeasonCache cache;
  for (const double friction : {0.5, kLedge, 0.2, 0.5}) {
    const season::Case c = fixed_case({"bread"}, friction);
    options.cache = nullptr;
    const season::SeasonResult alone = season::run_season(c, northern_year(), options);
    options.cache = &cache;
    const season::SeasonResult shared = season::run_season(c, northern_year(), options);
    for (std::size_t i = 0; i < alone.days.size(); ++i)
      REQUIRE(shared.days[i].peak_core_K == alone.days[i].peak_core_K);
  }
}

TEST_CASE("days only, a limited season has the same outcomes and causes", "[season][identity]") {
  const season::Case c = fixed_case({"bread", "water"});
  season::SeasonOptions options = quick_options(true);
  const season::SeasonResult full = season::run_season(c, northern_year(), options);
  options.days_only = true;
  const season::SeasonResult quick = season::run_season(c, northern_year(), options);
  for (std::size_t i = 0; i < full.days.size(); ++i) {
    INFO("task and day " << i);
    REQUIRE(quick.days[i].outcome == full.days[i].outcome);
    REQUIRE(quick.days[i].cause == full.days[i].cause);
  }
}

TEST_CASE("a traced day of a fixed pot is the season's, in allowed notches", "[season][identity]") {
  const season::Case c = fixed_case({"bread", "water"});
  const season::SeasonResult whole = run(c, northern_year(), true);
  for (const std::size_t t : {std::size_t{0}, std::size_t{1}}) {
    const task::NotchSet allowed = task::usable_notches(c.oven, c.tasks[t]);
    for (const int day : {20, 110, 300}) {
      INFO("task " << t << ", day " << day);
      const season::DayTrace found = season::trace_one_day(
          c, northern_year(), {.day_index = day, .task = t}, quick_options(true));
      CHECK(found.season.cause == whole.at(t, day).cause);
      CHECK(static_cast<float>(found.cook.peak_core_K) == whole.at(t, day).peak_core_K);
      for (const task::Aim& aim : found.aims) CHECK(allowed[static_cast<std::size_t>(aim.notch)]);
    }
  }
}

TEST_CASE("a task that no notch suits is a no-go for its tilt on every day", "[season][unit]") {
  season::Case c = fixed_case({"bread", "water"});
  c.tasks[1].food.mass_kg =
      4.5;  // more than the pot holds, as a draw of an uncertain amount may be
  c.oven.aim.notch_tilt_rad.erase(c.oven.aim.notch_tilt_rad.begin());
  const season::SeasonResult r = run(c, northern_year(), true);
  CHECK(cooked_days(r, 0) > 0);
  for (int d = 0; d < season::kDays; ++d) {
    CHECK(r.at(1, d).outcome == Outcome::kNoGo);
    CHECK(r.at(1, d).cause == Cause::kTilt);
  }
}

TEST_CASE("an aiming card keeps to a task's notches and says which it lacks", "[season][unit]") {
  const season::Case c = fixed_case({"bread", "water"});
  const season::AimCard any = season::make_aim_card(c, northern_year(), 20);
  const season::AimCard water = season::make_aim_card(c, northern_year(), 20, 1);
  REQUIRE(!any.rows.empty());
  int steepest = 0;
  for (const season::AimRow& row : any.rows) steepest = std::max(steepest, row.aim.notch);
  CHECK(steepest == 2);  // 20 deg: bread slides in the next
  REQUIRE(any.shut.size() == 2U);
  CHECK(any.shut[0].notches == std::vector{3, 4, 5});
  CHECK(any.shut[1].notches == std::vector{2, 3, 4, 5});
  for (const season::AimRow& row : water.rows) CHECK(row.aim.notch <= 1);
  REQUIRE(water.shut.size() == 1U);
  CHECK(water.shut[0].task_names == std::vector<std::string>{"drinking water, pasteurised"});
}
