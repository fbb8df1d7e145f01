// SPDX-License-Identifier: MIT
// The empty oven through nights and days, and the forcing of blocks of days. Tests private parts of
// the season.
#include "empty_days.h"

#include "catch.h"
#include "made_case.h"

using namespace ovendays;
using namespace ovendays::test;

namespace {
/// A season's parts, ready to run empty ovens.
struct Season {
  explicit Season(const season::Case& c) : year(made_weather()), setup(c, 2) {
    season::make_setup(c, year, quick_options(), setup);
  }
  weather::WeatherYear year;
  season::Setup setup;
};

void check_same(const season::DayForcing& a, const season::DayForcing& b) {
  REQUIRE(a.merged.air.size() == b.merged.air.size());
  REQUIRE(a.merged.gains.size() == b.merged.gains.size());
  for (std::size_t i = 0; i < a.merged.air.size(); ++i) {
    CHECK(a.merged.air[i].end.ambient_K == b.merged.air[i].end.ambient_K);
    CHECK(a.merged.gains[0][i].end_W == b.merged.gains[0][i].end_W);
  }
}
}  // namespace

TEST_CASE("what is loaded at midnight goes into the oven as the night left it", "[season][unit]") {
  season::Case c = small_case({"rice"});
  c.routine.earliest_load_s = 0.0;
  const Season season(c);
  const auto days = season::block_forcing(season.setup, 100, 1);
  const season::NightJob night{100, &days->eve};
  const season::Midnight midnight =
      season::run_nights(season.setup, std::span(&night, 1), {}).front();
  // Not as warm as the air: the sky has cooled it.
  const heat::AirSegment& air = days->days[0].front().merged.air.front();
  CHECK(midnight.state[heat::kNodeLiner] < air.start.ambient_K - 0.1);
  const season::EmptyJob job{100, midnight, &days->days[0].front()};
  const season::EmptyDay empty =
      season::run_empty_days(season.setup, std::span(&job, 1), season::Until::kMidnight, {})
          .front();
  REQUIRE(empty.at_load.size() == season.setup.load_times_s.size());
  CHECK(empty.at_load.front() == midnight.state);
  CHECK(empty.at_load[1] != midnight.state);
}

TEST_CASE("the forcing of a day does not depend on the block that it is in", "[season][identity]") {
  const season::Case c = small_case({"rice"});
  const Season season(c);
  const auto long_one = season::block_forcing(season.setup, 30, 5);
  const auto short_one = season::block_forcing(season.setup, 32, 1);
  check_same(short_one->eve, long_one->days[0][1]);
  check_same(short_one->days[0][0], long_one->days[0][2]);
  // The year is a ring.
  check_same(season::block_forcing(season.setup, 0, 1)->eve,
             season::block_forcing(season.setup, 364, 1)->days[0][0]);
}
