// SPDX-License-Identifier: MIT
// The quick ranges of a season: against whole seasons, by hand, and against ordinary faults.
#include <algorithm>
#include <vector>

#include "catch.h"
#include "made_case.h"
#include "ovendays/study/spread.h"

using namespace ovendays;
using namespace ovendays::study;
using season::TaskRange;
using test::within_abs;

namespace {
/// The starter case with one of its tasks, and the demo's weather.
season::Case demo(const char* task) {
  season::Case c = season::read_case_text(season::starter_case(),
                                          std::string(OVENDAYS_SOURCE_DIR) + "/weather/case.toml");
  std::erase_if(c.tasks, [&](const task::Task& t) { return t.name.rfind(task, 0) != 0; });
  REQUIRE(c.tasks.size() == 1U);
  return c;
}

season::SeasonOptions days_only() {
  season::SeasonOptions options;
  options.threads = 2;
  options.causes = false;
  options.days_only = options.outcomes_only = true;
  return options;
}

int days_of(const season::Case& c, const weather::WeatherYear& year) {
  return season::cooked_by_month(season::run_season(c, year, days_only()), 0)[12];
}

bool same(const TaskRange& a, const TaskRange& b) {
  return a.draws == b.draws && a.low_days == b.low_days && a.median_days == b.median_days &&
         a.high_days == b.high_days && a.typical_load_s == b.typical_load_s &&
         a.done_in_s == b.done_in_s && a.slow_s == b.slow_s;
}
}  // namespace

TEST_CASE("a choice of days has the outcomes of the whole season on them", "[study][identity]") {
  const season::Case c = demo("rice");
  const weather::WeatherYear year = season::load_weather(c);
  season::SeasonOptions options = days_only();
  const season::SeasonResult whole = season::run_season(c, year, options);
  options.only_days.assign(season::kDays, false);
  for (std::size_t d = 1; d < season::kDays; d += 7) options.only_days[d] = true;
  const season::SeasonCache cache;  // with and without it, the same
  for (const season::SeasonCache* with :
       {static_cast<const season::SeasonCache*>(nullptr), &cache}) {
    options.cache = with;
    const season::SeasonResult part = season::run_season(c, year, options);
    for (int d = 0; d < season::kDays; ++d) {
      if (options.only_days[static_cast<std::size_t>(d)]) {
        CHECK(part.at(0, d).outcome == whole.at(0, d).outcome);
        CHECK(part.at(0, d).cause == whole.at(0, d).cause);
        CHECK(part.at(0, d).finish_s == whole.at(0, d).finish_s);
      } else {
        CHECK(part.at(0, d).outcome == season::Outcome::kNoGo);
        CHECK(part.at(0, d).cause == season::Cause::kNone);
      }
    }
  }
  options.cache = &cache;
  options.only_days.clear();  // the cache must not give back the forcing of a choice of days
  CHECK(season::cooked_by_month(season::run_season(c, year, options), 0) ==
        season::cooked_by_month(whole, 0));
}

TEST_CASE("quick ranges are the same bits at any thread count and with the same seed",
          "[study][determinism]") {
  const season::Case c = test::small_case({"rice"});
  const weather::WeatherYear year = test::made_weather();
  const season::SeasonResult as_given = test::run(c, year);
  SpreadOptions options{.draws = 6, .seed = 3, .season = test::quick_options()};
  options.season.threads = 1;
  const TaskRange one = likely_ranges(c, year, as_given, options)[0];
  options.season.threads = 3;
  CHECK(same(likely_ranges(c, year, as_given, options)[0], one));
  options.seed = 4;
  CHECK_FALSE(same(likely_ranges(c, year, as_given, options)[0], one));
  CHECK(one.draws == 6);
  CHECK(one.low_days <= one.median_days);
  CHECK(one.median_days <= one.high_days);
  CHECK(one.done_in_s <= one.slow_s);
  CHECK(one.typical_load_s == season::typical_load_s(c, 0));
}

TEST_CASE("days on which nobody cooks stay out of a quick range", "[study][unit]") {
  season::Case c = test::small_case({"rice"});
  c.routine.weekdays = {false, false, false, false, false, true, false};
  const weather::WeatherYear year = test::made_weather();
  const season::SeasonResult as_given = test::run(c, year);
  const SpreadOptions options{.draws = 6, .seed = 1, .season = test::quick_options()};
  const TaskRange range = likely_ranges(c, year, as_given, options)[0];
  const int saturdays = 52;
  CHECK(range.high_days <= saturdays + 1.0);  // the quarter of the days holds one more or less
  CHECK(range.low_days >= 0.0);
  CHECK(range.median_days > 0.0);
}

TEST_CASE("a quick range agrees with that of whole seasons", "[study][identity]") {
  const season::Case c = demo("bread");
  const weather::WeatherYear year = season::load_weather(c);
  const season::SeasonResult as_given = season::run_season(c, year, days_only());
  SpreadOptions options{.draws = 24, .seed = 2, .season = {}};
  options.season.threads = 2;
  const TaskRange quick = likely_ranges(c, year, as_given, options)[0];
  const TaskRange whole = task_ranges(c, run_spread(c, {year}, options))[0];
  // The draws are the same ovens; days and weather differ. Of a draw, 91 days give the difference
  // of its oven to about 11 days (some eight of the 91 differ: 4 sqrt(8)).
  CAPTURE(quick.low_days, quick.median_days, quick.high_days);
  CAPTURE(whole.low_days, whole.median_days, whole.high_days);
  CHECK_THAT(quick.median_days, within_abs(whole.median_days, 8.0));
  CHECK_THAT(quick.low_days, within_abs(whole.low_days, 15.0));
  CHECK_THAT(quick.high_days, within_abs(whole.high_days, 15.0));
  CHECK_THAT(quick.done_in_s, within_abs(whole.done_in_s, 300.0));
  CHECK_THAT(quick.slow_s, within_abs(whole.slow_s, 600.0));
}

TEST_CASE("the coarse optics of draws move no task by more than two days", "[study][unit]") {
  season::Case c = season::read_case_text(season::starter_case(),
                                          std::string(OVENDAYS_SOURCE_DIR) + "/weather/case.toml");
  const weather::WeatherYear year = season::load_weather(c);
  const season::SeasonResult fine = season::run_season(c, year, days_only());
  season::SeasonOptions options = days_only();
  options.optics = coarse_optics(options.optics);
  const season::SeasonResult coarse = season::run_season(c, year, options);
  for (std::size_t t = 0; t < c.tasks.size(); ++t) {
    INFO(c.tasks[t].name);
    CHECK_THAT(static_cast<double>(season::cooked_by_month(coarse, t)[12]),
               within_abs(season::cooked_by_month(fine, t)[12], 2.0));
  }
}

TEST_CASE("ordinary faults of an oven together lie inside the range", "[study][unit]") {
  // Five faults that any home-built oven may have at once: washed seldom, foil that sags, a poor
  // seal, a pot with a dented foot, and turns ten minutes late. Judgement, as the ranges are.
  const season::Case c = demo("bread");
  const weather::WeatherYear year = season::load_weather(c);
  season::Case faulty = c;
  faulty.oven.as_built.cleanliness -= 0.03;
  faulty.oven.as_built.flap_set -= 0.06;
  faulty.oven.box.leak_area_m2 *= 2.0;
  for (oven::Vessel& vessel : faulty.oven.vessels) vessel.foot_gap_m *= 1.5;
  faulty.routine.re_aim_late_s = 600.0;
  const int with_faults = days_of(faulty, year);
  const int as_given = days_of(c, year);
  CHECK(with_faults < as_given - 15);  // they are no trifle
  SpreadOptions options{.draws = 40, .seed = 1, .season = {}};
  options.season.threads = 2;
  const Spread spread = run_spread(c, {year}, options);
  std::vector<double> days;
  for (const MonthDays& draw : spread.days[0]) days.push_back(draw[12]);
  std::sort(days.begin(), days.end());
  CAPTURE(with_faults, as_given, days.front(), percentile(days, 0.05), percentile(days, 0.1));
  CHECK(percentile(days, 0.05) <= with_faults);
}
