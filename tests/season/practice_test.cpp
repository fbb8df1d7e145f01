// SPDX-License-Identifier: MIT
// How long and how often things cook, against what users of box ovens report. Ids such as FOOD-17
// are rows of tests/data/season/published.csv.
#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "catch.h"
#include "kitchen_times.h"
#include "made_case.h"
#include "published.h"

using namespace ovendays;
using namespace ovendays::test;

namespace {
constexpr Days kGoodSun{120, 243};  // May to August: good sun

/// The example tasks by the word their published row begins with.
constexpr std::array<const char*, 6> kFoods = {"rice", "beans", "eggs", "stew", "bread", "cookies"};

season::Case all_tasks() { return small_case({kFoods.begin(), kFoods.end()}); }

/// What most users have: one mirror at the back, and the food set out with the cold oven.
season::Case plain_box() {
  season::Case c = all_tasks();
  std::vector<oven::Flap>& flaps = c.oven.flaps;
  flaps.erase(std::remove_if(flaps.begin(),
                             flaps.end(),
                             [](const oven::Flap& f) { return f.edge != oven::Edge::kBack; }),
              flaps.end());
  c.routine.preheat = false;
  return c;
}

/// Median of loading to done over the days of the span on which it gets done [min].
double usual_min(const season::SeasonResult& r, std::size_t task, Days days) {
  std::vector<double> minutes;
  for (int d = days.from; d < days.to; ++d) {
    const season::DayTask& day = r.at(task, d);
    if (day.outcome != season::Outcome::kCooked) continue;
    minutes.push_back(static_cast<double>(day.finish_s - day.load_s) / 60.0);
  }
  REQUIRE(minutes.size() > 60);
  const auto middle = minutes.begin() + static_cast<std::ptrdiff_t>(minutes.size() / 2);
  std::nth_element(minutes.begin(), middle, minutes.end());
  return *middle;
}

Published practice(const std::string& food) { return published("FOOD-17", food + "_min"); }
}  // namespace

TEST_CASE("a plain box with one mirror takes the times that users report", "[season][reference]") {
  const season::SeasonResult r = run(plain_box(), made_weather());
  for (std::size_t t = 0; t < kFoods.size(); ++t) {
    const std::string food = kFoods[t];
    if (food == "eggs") continue;  // see the next test
    // Cookies are only done after the air has been at 121 C for a while, which a box with one
    // mirror reaches late on the best days: 3.5 h, where users report 82 min (a known difference).
    if (food == "cookies") continue;
    const double ours_min = usual_min(r, t, kGoodSun);
    INFO(food << ": " << ours_min << " min, reported " << practice(food).value);
    CHECK_THAT(ours_min, within_abs(practice(food).value, practice(food).margin));
  }
}

TEST_CASE("eggs in a plain box take half the time that users report", "[season][regression]") {
  // A known difference: users report 2 h. Eggs count as done here at 160 F in the yolk for 10 min;
  // people who cook by the clock leave them in for longer. The 52 min are this program's own.
  season::Case c = plain_box();
  std::erase_if(c.tasks,
                [](const task::Task& t) { return t.name.find("eggs") == std::string::npos; });
  CHECK_THAT(usual_min(run(c, made_weather()), 0, kGoodSun), within_abs(52.0, 8.0));
}

TEST_CASE("the starter oven, loaded cold, takes the times that users report but for eggs and bread",
          "[season][reference]") {
  for (const KitchenTime& each : kitchen_times()) {
    INFO(each.task << ": " << each.ours_min << " min on " << each.days << " days, reported "
                   << each.source);
    CHECK(each.days > 60);
    if (!each.reported()) continue;  // soup and drinking water
    const std::string food = each.task;
    // The band of the ledger, from half of the shortest to one and a half of the longest time.
    CHECK_THAT(practice(food).value - practice(food).margin, within_abs(0.5 * each.low_min, 1e-9));
    CHECK_THAT(practice(food).value + practice(food).margin, within_abs(1.5 * each.high_min, 1e-9));
    // Known differences. Eggs count as done at 160 F in the yolk for 10 min, people who cook by the
    // clock leave them in for longer. Bread: one loaf of 1.6 lb under four flaps, where reports are
    // of several loaves, or of one mirror, with which the same loaf takes a time within the band.
    const bool quick = food == "eggs" || food == "bread";
    CHECK(each.within_band() == !quick);
    CHECK(each.ours_min > each.low_min / 3.0);
  }
}

TEST_CASE("four flaps and a hot oven are much quicker than users report of plain boxes",
          "[season][regression]") {
  // A known difference. Most users report on one mirror and a cold start. Four flaps treble the
  // light, and the loading time compared here is the day's best. Another part of it is that loaded
  // ovens heat too fast in this model (the measured ovens in tests/study say by how much). The
  // ratios of cooking times are this program's own over the published ones.
  struct Row {
    const char* food;
    double ratio;
  };
  const season::SeasonResult r = run(all_tasks(), made_weather());
  std::size_t t = 0;
  for (const Row& row : {Row{"rice", 46.0 / 120.0},
                         Row{"beans", 152.0 / 270.0},
                         Row{"eggs", 30.0 / 120.0},
                         Row{"stew", 124.0 / 255.0},
                         Row{"bread", 36.5 / 180.0},
                         Row{"cookies", 15.5 / 82.5}}) {
    const double ratio = usual_min(r, t++, kGoodSun) / practice(row.food).value;
    INFO(row.food << ": " << ratio);
    CHECK_THAT(ratio, within_rel(row.ratio, 0.25));  // moves with every change of the model
    CHECK(ratio < 0.7);
  }
}

namespace {
/// Days on which a food gets done in the year of the demo.
int days_done(const char* food) {
  static const season::SeasonResult result = [] {
    const season::Case c = all_tasks();
    return run(c, season::load_weather(c));
  }();
  const auto at = std::find(kFoods.begin(), kFoods.end(), std::string(food)) - kFoods.begin();
  return cooked_days(result, static_cast<std::size_t>(at));
}
}  // namespace

TEST_CASE("what users call easy gets done more often, except baking", "[season][reference]") {
  // FOOD-18 (seen): users call eggs, rice and cookies easy, beans and small roasts of medium
  // difficulty.
  INFO("eggs " << days_done("eggs") << ", rice " << days_done("rice") << ", beans "
               << days_done("beans") << ", stew " << days_done("stew") << ", cookies "
               << days_done("cookies") << ", bread " << days_done("bread"));
  CHECK(days_done("eggs") > days_done("rice"));
  CHECK(days_done("rice") > days_done("beans"));
  CHECK(days_done("cookies") > days_done("bread"));
  CHECK(days_done("eggs") > days_done("stew"));
}

TEST_CASE("cookies get done less often than beans, though users call them easy",
          "[season][regression]") {
  // A known difference: baking needs an oven of 250 F here, the hardest demand of all.
  CHECK(days_done("cookies") < days_done("beans"));
}
