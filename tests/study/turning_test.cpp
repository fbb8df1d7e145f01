// SPDX-License-Identifier: MIT
// Days against turning: the order of things, and closed cases.
#include "ovendays/study/turning.h"
#include <utility>

#include "catch.h"
#include "made_case.h"
#include "thin_sun.h"

using namespace ovendays;
using namespace ovendays::study;
using test::quicker_options;
using test::thin_sun;
using test::within_abs;

TEST_CASE("turning more often never loses days beyond the slack", "[study][identity]") {
  const std::vector<Turning> turnings{{Turning::Kind::kEvery, 900.0},
                                      {Turning::Kind::kEvery, 3600.0},
                                      {Turning::Kind::kEvery, 10800.0},
                                      {Turning::Kind::kNever, 0.0}};
  for (const auto& [task, beam] : {std::pair{"beans", 0.45}, std::pair{"bread", 0.6}}) {
    INFO(task);
    const season::Case c = test::small_case({task});
    const std::vector<TurningDays> rows =
        days_by_turning(c, thin_sun(beam), turnings, quicker_options());
    REQUIRE(rows.size() == 4);
    for (std::size_t i = 1; i < rows.size(); ++i) {
      // Two days of slack: a coarse turn can by luck stand better at the very hour that decides.
      CHECK(rows[i].tasks[0].days[12] <= rows[i - 1].tasks[0].days[12] + 2);
    }
    // The finest gets clearly more than none, or there is nothing to tell.
    CHECK(rows[0].tasks[0].days[12] > rows[3].tasks[0].days[12] + 10);
  }
}

TEST_CASE("turns of a cook are counted between loading and finish", "[study][unit]") {
  season::Case c = test::small_case({"rice"});
  const std::vector<TurningDays> rows = days_by_turning(
      c,
      test::made_weather(),
      {{Turning::Kind::kEvery, 600.0}, {Turning::Kind::kEvery, 1200.0}, {Turning::Kind::kOnce}},
      quicker_options());
  const season::Case ten = turned(c, rows[0].turning, 43200.0);
  const season::SeasonResult result =
      season::run_season(ten, test::made_weather(), quicker_options());
  double turns = 0.0;
  int cooked = 0;
  for (int d = 0; d < season::kDays; ++d) {
    const season::DayTask& day = result.at(0, d);
    if (day.outcome != season::Outcome::kCooked) continue;
    ++cooked;
    // The slow way: every ten minutes from setting out.
    for (int i = 0; i < 144; ++i) {
      const double at_s = c.routine.set_out_s + 600.0 * i;
      if (at_s > static_cast<double>(day.load_s) && at_s < static_cast<double>(day.finish_s)) {
        turns += 1.0;
      }
    }
  }
  REQUIRE(cooked > 0);
  CHECK_THAT(rows[0].tasks[0].turns_a_cook, within_abs(turns / cooked, 1e-12));  // whole numbers
  CHECK(rows[1].tasks[0].turns_a_cook < rows[0].tasks[0].turns_a_cook);
  CHECK(rows[2].tasks[0].turns_a_cook == 0.0);
}

TEST_CASE("mean noon follows longitude and time zone", "[study][unit]") {
  // By hand: 107.4 W in the zone of 105 W (UTC-7): 2.4 deg of 4 min behind, 12:09:36.
  const sun::Place place{"", 0.6, -107.4 * base::kRadPerDeg, 0.0, -7.0 * 3600.0};
  CHECK_THAT(mean_noon_s(place), within_abs(12.0 * 3600.0 + 576.0, 1e-6));  // rounding of radians
}

TEST_CASE("an oven that can neither turn nor tilt has nothing to turn", "[study][unit]") {
  oven::OvenDesign oven = oven::default_design();
  CHECK_FALSE(turning_is_idle(oven));
  oven.aim.turns = false;
  oven.aim.notch_tilt_rad = {0.0, 0.3};
  CHECK_FALSE(turning_is_idle(oven));
  oven.aim.notch_tilt_rad = {0.3};
  CHECK(turning_is_idle(oven));
}
