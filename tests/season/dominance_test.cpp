// SPDX-License-Identifier: MIT
// A season with dominance pruning, against the same season with every cook followed to its end.
#include <cmath>

#include "catch.h"
#include "ovendays/base/random.h"
#include "ovendays/season/season.h"

using namespace ovendays;
using namespace ovendays::season;

namespace {

void same_but_for_the_steps(const SeasonResult& pruned, const SeasonResult& followed) {
  for (std::size_t t = 0; t < followed.task_names.size(); ++t) {
    for (int d = 0; d < kDays; ++d) {
      const DayTask& a = pruned.at(t, d);
      const DayTask& b = followed.at(t, d);
      INFO(followed.task_names[t] << ", day " << d);
      CHECK(a.outcome == b.outcome);
      CHECK(a.cause == b.cause);
      CHECK(a.window_first_s == b.window_first_s);
      CHECK(a.window_last_s == b.window_last_s);
      CHECK(a.window_count == b.window_count);
      CHECK(a.finish_s == b.finish_s);
      // A lost day reports its best attempt; of attempts that are equal to a hundredth of a kelvin
      // it may be either.
      CHECK_THAT(a.shortfall_K, test::within_abs(b.shortfall_K, 0.3));
      CHECK_THAT(a.hold_share, test::within_abs(b.hold_share, 0.005));
    }
  }
}

/// Of the year that is most broken: cool, with the oven's design and routine drawn.
void check_case(std::uint64_t key, const std::string& weather, std::size_t first_task) {
  base::KeyedRandom random(key);
  Case c = read_case_text(starter_case(), "pruning.toml");
  c.tasks = {c.tasks[first_task], c.tasks[first_task + 1], c.tasks[first_task + 2]};
  c.oven.box.leak_area_m2 = 1e-4 + 5e-4 * random.uniform();
  c.oven.box.wall.front().thickness_m = 0.02 + 0.05 * random.uniform();
  c.routine.preheat = key % 3 != 0;
  c.routine.re_aim_every_s = 1800.0 + 3600.0 * random.uniform();
  if (key % 4 == 1) c.routine.lid_open_after_s = {2700.0};
  const weather::WeatherYear year =
      weather::read_weather(std::string(OVENDAYS_SOURCE_DIR) + "/weather/" + weather + ".epw");
  SeasonOptions options;
  const SeasonResult pruned = run_season(c, year, options);
  options.follow_all = true;
  const SeasonResult followed = run_season(c, year, options);
  INFO("case " << key << ", " << weather);
  same_but_for_the_steps(pruned, followed);
  CHECK(pruned.audit.runs == followed.audit.runs);
  CHECK(static_cast<double>(pruned.audit.steps) < 0.97 * static_cast<double>(followed.audit.steps));
}
}  // namespace

TEST_CASE("a season with pruned cooks has the same days, causes and windows", "[slow][identity]") {
  check_case(1, "cool_coast", 0);
  check_case(2, "high_desert", 5);
}

TEST_CASE("so have seasons of ovens, weather and routines drawn at random", "[slow][identity]") {
  const char* years[] = {"cool_coast", "high_desert", "humid_coast"};
  for (std::uint64_t key = 3; key <= 11; ++key) check_case(key, years[key % 3], key % 6);
}
