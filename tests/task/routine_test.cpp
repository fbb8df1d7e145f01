// SPDX-License-Identifier: MIT
#include "ovendays/task/routine.h"

#include <string>

#include "catch.h"
#include "ovendays/base/constants.h"

using namespace ovendays;
using task::ReAim;
using task::Routine;
using test::contains;
using test::within_abs;

namespace {
Routine read_routine_of(const std::string& text) {
  base::CaseFile file(text, "case.toml");
  Routine routine = task::read_routine(file.root().table("routine"));
  file.finish();
  return routine;
}

std::string routine_complaint(const std::string& keys) {
  try {
    read_routine_of("[routine]\n" + keys);
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}
}  // namespace

TEST_CASE("the example routine parses into the defaults", "[task][unit]") {
  const Routine read_in = read_routine_of(task::example_routine_toml());
  const Routine built;
  CHECK_THAT(read_in.set_out_s, within_abs(built.set_out_s, 0.0));
  CHECK_THAT(read_in.earliest_load_s, within_abs(built.earliest_load_s, 0.0));
  CHECK_THAT(read_in.latest_load_s, within_abs(built.latest_load_s, 0.0));
  CHECK_THAT(read_in.load_every_s, within_abs(built.load_every_s, 0.0));
  CHECK(read_in.preheat);
  CHECK(read_in.weekdays == built.weekdays);
  CHECK(read_in.re_aim == ReAim::kEvery);
  CHECK_THAT(read_in.re_aim_every_s, within_abs(1800.0, 0.0));
  CHECK(read_in.lid_open_after_s.empty());
  CHECK_THAT(read_in.stay_in_wind_ms, within_abs(14.0, 0.0));
  CHECK_THAT(read_in.stay_in_rain_m, within_abs(0.0005, 1e-12));
  CHECK(read_in.wash_every_s == 0.0);  // no dust is counted
}

TEST_CASE("a routine's keys take units, clocks and words", "[task][unit]") {
  const Routine r = read_routine_of(
      "[routine]\nset_out = 06:30:00\nre_aim = \"at\"\nre_aim_at = [\"09:00\", \"12:30\"]\n"
      "days = [\"Sat\", \"Sun\"]\nfirst_weekday = \"Wed\"\nlid_open_after = [\"90 min\", \"1 h\"]\n"
      "flaps_in_above = \"36 km/h\"\ntilt = \"20 deg\"\nstay_in_rain = \"2 mm\"\n"
      "wash_every = \"1 week\"\ndust_per_day = 0.003\n");
  CHECK_THAT(r.set_out_s, within_abs(6.5 * 3600.0, 0.0));
  CHECK(r.re_aim == ReAim::kAtTimes);
  CHECK(r.re_aim_s == std::vector<double>{32400.0, 45000.0});
  CHECK(r.weekdays == std::array<bool, 7>{false, false, false, false, false, true, true});
  CHECK(r.first_weekday == 2);
  REQUIRE(r.lid_open_after_s.size() == 2U);
  CHECK_THAT(r.lid_open_after_s[0], within_abs(3600.0, 1e-9));  // put in order
  CHECK_THAT(r.lid_open_after_s[1], within_abs(5400.0, 1e-9));
  CHECK_THAT(r.flaps_wind_ms, within_abs(10.0, 1e-9));  // 36 km/h by definition
  CHECK_THAT(r.fixed_tilt_rad, within_abs(20.0 * base::kRadPerDeg, 1e-12));
  CHECK_THAT(r.stay_in_rain_m, within_abs(0.002, 1e-12));
  CHECK_THAT(r.wash_every_s, within_abs(7.0 * 86400.0, 1e-6));
  CHECK_THAT(r.dust_per_day, within_abs(0.003, 0.0));
}

TEST_CASE("a routine that contradicts itself is refused with its line", "[task][unit]") {
  CHECK(routine_complaint("").empty());
  CHECK(contains(routine_complaint("earliest = \"14:00\"\nlatest = \"09:00\"\n"),
                 "case.toml:3: routine.latest: 09:00, allowed no earlier than earliest, 14:00"));
  CHECK(contains(routine_complaint("home_from = \"12:00\"\nhome_until = \"12:00\"\n"),
                 "routine.home_until"));
  CHECK(contains(routine_complaint("re_aim = \"at\"\n"), "at least one time"));
  CHECK(contains(routine_complaint("dust_per_day = 0.003\n"),
                 "case.toml:2: routine.dust_per_day: no wash_every, allowed wash_every beside it"));
  CHECK(contains(routine_complaint("re_aim = \"once\"\n"), "exactly one time"));
  CHECK(contains(routine_complaint("re_aim = \"once\"\nre_aim_at = [\"10:00\", \"11:00\"]\n"),
                 "exactly one time"));
  CHECK(contains(routine_complaint("re_aim = \"at\"\nre_aim_at = [\"12:00\", \"09:00\"]\n"),
                 "times out of order"));
  CHECK(contains(
      routine_complaint("re_aim = \"at\"\nre_aim_at = [\"06:00\"]\nhome_from = \"08:00\"\n"),
      "routine.re_aim_at"));
}

TEST_CASE("a routine's values out of range are refused", "[task][unit]") {
  CHECK(contains(routine_complaint("re_aim = \"sometimes\"\n"), "every"));
  CHECK(contains(routine_complaint("days = [\"Mon\", \"Caturday\"]\n"), "'Caturday'"));
  CHECK(contains(routine_complaint("load_every = \"1 min\"\n"), "routine.load_every"));
  CHECK(contains(routine_complaint("set_out = \"25:00\"\n"), "routine.set_out"));
  CHECK(contains(routine_complaint("lid_open_for = \"2 h\"\n"), "routine.lid_open_for"));
  CHECK(contains(routine_complaint("stay_in_above = -1\n"), "routine.stay_in_above"));
  CHECK(contains(routine_complaint("wash_every = \"1 h\"\n"), "routine.wash_every"));
  CHECK(contains(routine_complaint("wash_every = \"2 years\"\n"), "routine.wash_every"));
  CHECK(contains(routine_complaint("wash_every = \"30 days\"\ndust_per_day = 0.5\n"),
                 "routine.dust_per_day"));
  CHECK(contains(routine_complaint("tilt = \"120 deg\"\n"), "routine.tilt"));
  CHECK(contains(routine_complaint("preheet = true\n"), "routine.preheet"));
}

TEST_CASE("loading times run from earliest to latest while somebody is home", "[task][unit]") {
  Routine r;
  r.earliest_load_s = 8.0 * 3600;
  r.latest_load_s = 10.0 * 3600;
  r.load_every_s = 1800.0;
  CHECK(task::loading_times(r) == std::vector<double>{28800, 30600, 32400, 34200, 36000});
  r.latest_load_s = 10.0 * 3600 - 1.0;  // the last is left out by a second
  CHECK(task::loading_times(r).size() == 4U);
  r.home_from_s = 8.75 * 3600;
  CHECK(task::loading_times(r) == std::vector<double>{32400, 34200});
  r.home_until_s = 9.0 * 3600;
  CHECK(task::loading_times(r) == std::vector<double>{32400});
  r.home_from_s = 20.0 * 3600;
  r.home_until_s = 21.0 * 3600;
  CHECK(task::loading_times(r).empty());
  Routine one;
  one.earliest_load_s = one.latest_load_s = 43200.0;
  CHECK(task::loading_times(one) == std::vector<double>{43200});
}

TEST_CASE("cooking days follow the weekday of 1 January", "[task][unit]") {
  Routine r;
  r.weekdays = {false, false, false, false, false, true, true};
  r.first_weekday = 2;  // Wednesday, so that day 3 is the first Saturday
  CHECK_FALSE(task::cooks_on(r, 0));
  CHECK_FALSE(task::cooks_on(r, 2));
  CHECK(task::cooks_on(r, 3));
  CHECK(task::cooks_on(r, 4));
  CHECK_FALSE(task::cooks_on(r, 5));
  int weekend = 0;
  for (int d = 0; d < 365; ++d) weekend += task::cooks_on(r, d) ? 1 : 0;
  CHECK(weekend == 104);  // 52 whole weeks, the odd day a Wednesday
}
