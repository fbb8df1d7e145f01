// SPDX-License-Identifier: MIT
// A day with the obstructions removed is the day of an open spot in every respect: light,
// temperature of the surroundings and absorbed sun. Tests private parts of the season.
#include <cmath>

#include "catch.h"
#include "made_case.h"
#include "setup.h"

using namespace ovendays;
using namespace ovendays::test;
using season::FineDay;
using season::Without;

namespace {
// The same sums over the same open sky in the same order.
constexpr double kRounding = 1e-12;

/// A wall close by, a roof over half the sky and hills: every way a spot can hide the sky.
spot::Spot shut_in() {
  spot::Spot spot;
  spot::Wall wall;
  wall.x1_m = -4.0;
  wall.x2_m = 4.0;
  wall.y1_m = wall.y2_m = 1.0;
  wall.top_m = 4.0;
  spot::Overhang roof;
  roof.y_m = 2.0;
  roof.width_m = 8.0;
  roof.depth_m = 4.0;
  spot.obstructions = {wall, roof};
  spot.horizon = {{0.0}, {10.0 * base::kRadPerDeg}};
  return spot;
}

/// A season's parts, ready to make days from.
struct DayMaker {
  explicit DayMaker(const season::Case& c) : year(made_weather()), setup(c, 2) {
    season::make_setup(c, year, quick_options(), setup);
  }
  [[nodiscard]] FineDay make(int day, const Without& without) const {
    FineDay fine;
    season::make_day_forcing(
        setup.forcing, sky::make_sky_day(year, day, setup.c->sky), without, setup.groups[0], &fine);
    return fine;
  }
  weather::WeatherYear year;
  season::Setup setup;
};

void check_same(const heat::Surroundings& a, const heat::Surroundings& b) {
  CHECK_THAT(a.pane_env_K4, within_rel(b.pane_env_K4, kRounding));
  CHECK_THAT(a.skin_env_K4, within_rel(b.skin_env_K4, kRounding));
  CHECK_THAT(a.skin_gain_W, within_rel(b.skin_gain_W, kRounding));
  CHECK(a.ambient_K == b.ambient_K);
  CHECK(a.wind_ms == b.wind_ms);
}

void check_same_gains(const FineDay& a, const FineDay& b) {
  REQUIRE(a.segments.gains.size() == b.segments.gains.size());
  for (std::size_t load = 0; load < a.segments.gains.size(); ++load) {
    REQUIRE(a.segments.gains[load].size() == b.segments.gains[load].size());
    for (std::size_t i = 0; i < a.segments.gains[load].size(); ++i) {
      for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
        CHECK_THAT(a.segments.gains[load][i].start_W[s],
                   within_rel(b.segments.gains[load][i].start_W[s], kRounding));
        CHECK_THAT(a.segments.gains[load][i].end_W[s],
                   within_rel(b.segments.gains[load][i].end_W[s], kRounding));
      }
    }
  }
}
}  // namespace

TEST_CASE("without what stands around a day is that of an open spot", "[season][identity]") {
  const season::Case open_case = small_case({"eggs"});
  season::Case shut_case = open_case;
  shut_case.spot = shut_in();
  const DayMaker open(open_case);
  const DayMaker shut(shut_case);
  for (const int day : {20, 190}) {
    const FineDay expected = open.make(day, {});
    Without without;
    without.obstruction = true;
    const FineDay asked = shut.make(day, without);
    REQUIRE(asked.segments.air.size() == expected.segments.air.size());
    for (std::size_t i = 0; i < asked.segments.air.size(); ++i) {
      INFO("day " << day << ", segment " << i);
      check_same(asked.segments.air[i].start, expected.segments.air[i].start);
      check_same(asked.segments.air[i].end, expected.segments.air[i].end);
      CHECK(asked.light[i].visible[0] == 1.0);
    }
    check_same_gains(asked, expected);
  }
}

TEST_CASE("what stands around warms the skin at night and shades it by day", "[season][identity]") {
  season::Case c = small_case({"eggs"});
  c.spot = shut_in();
  const DayMaker shut(c);
  Without without;
  without.obstruction = true;
  const FineDay here = shut.make(190, {});
  const FineDay open = shut.make(190, without);
  const double view = shut.setup.forcing.masks.front().sky_view_factor;
  CHECK(view < 0.7);
  double here_J = 0.0;
  double open_J = 0.0;
  for (std::size_t i = 0; i < here.segments.air.size(); ++i) {
    const heat::Surroundings& a = here.segments.air[i].start;
    const heat::Surroundings& b = open.segments.air[i].start;
    // Upright walls see half of what sky there is, the rest is at air temperature:
    // env = Ta^4 - f/2 (Ta^4 - Ts^4), so that the two depths below Ta^4 are as the view factors.
    const double air_K4 = std::pow(a.ambient_K, 4);
    CHECK_THAT(air_K4 - a.skin_env_K4, within_rel(view * (air_K4 - b.skin_env_K4), 1e-9));
    CHECK(a.skin_env_K4 > b.skin_env_K4);
    const double length_s = here.segments.air[i].end_s - here.segments.air[i].start_s;
    here_J += length_s * a.skin_gain_W;
    open_J += length_s * b.skin_gain_W;
  }
  CHECK(here_J < 0.8 * open_J);
}
