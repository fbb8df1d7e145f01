// SPDX-License-Identifier: MIT
// What stands around the oven: roof edges, walls, carports, against the open.
#include "catch.h"
#include "made_case.h"

using namespace ovendays;
using namespace ovendays::test;

namespace {
constexpr Days kSummer{120, 212};               // summer's quarter: 1 May to 31 July
constexpr int kNovember = 304, kFebruary = 31;  // winter: 1 November to 31 January

int winter_days(const season::SeasonResult& r) {
  return cooked_days(r, 0, {kNovember, season::kDays}) + cooked_days(r, 0, {0, kFebruary});
}

double beam_kWhm2(const season::SeasonResult& r, Days days) {
  double sum = 0.0;
  for (int h = days.from * 24; h < days.to * 24; ++h)
    sum += static_cast<double>(r.hours[static_cast<std::size_t>(h)].beam_mouth_Wm2);
  return sum / 1000.0;
}
}  // namespace

TEST_CASE("in the open more days are cooked than under the carport", "[season][unit]") {
  season::Case c = small_case({"rice", "bread"});
  const weather::WeatherYear year = season::load_weather(c);
  const season::SeasonResult open = run(c, year);
  c.spot = season::read_case_text(season::starter_case(), "").spot;
  const season::SeasonResult carport = run(c, year);
  for (std::size_t t = 0; t < 2; ++t) {
    INFO(c.tasks[t].name);
    CHECK(cooked_days(open, t) > cooked_days(carport, t) + 20);
    for (int d = 0; d < season::kDays; ++d) {
      const auto [here, there] = std::pair{open.day[static_cast<std::size_t>(d)],
                                           carport.day[static_cast<std::size_t>(d)]};
      CHECK(there.beam_hours_here_s <= here.beam_hours_here_s + 1.0F);
      CHECK(there.beam_hours_open_s == here.beam_hours_open_s);
    }
  }
}

TEST_CASE("a roof edge towards the equator takes the summer and leaves the winter",
          "[season][unit]") {
  season::Case c = small_case({"bread"});
  const weather::WeatherYear year = made_weather();
  const season::SeasonResult open = run(c, year);
  // At 35 N the noon sun stands 78 deg high at midsummer and 32 deg at midwinter. The edge, 1.5 m
  // above the mouth, lies 1.2 m south of it: it hides what is higher than 51 deg to the south.
  spot::Overhang roof;
  roof.y_m = -1.2 + 3.0;
  roof.width_m = 8.0;
  roof.depth_m = 6.0;
  roof.underside_m = 2.4;
  c.spot.obstructions = {roof};
  const season::SeasonResult under = run(c, year);

  const int summer_open = cooked_days(open, 0, kSummer);
  const int summer_under = cooked_days(under, 0, kSummer);
  CHECK(summer_open > 85);
  CHECK(summer_under < summer_open - 30);
  // Midwinter, 1 December to 15 January: the sun stays below the edge all day.
  CHECK_THAT(beam_kWhm2(under, {334, 365}), within_rel(beam_kWhm2(open, {334, 365}), 0.01));
  CHECK_THAT(beam_kWhm2(under, {0, 15}), within_rel(beam_kWhm2(open, {0, 15}), 0.01));
  CHECK(beam_kWhm2(under, kSummer) < 0.5 * beam_kWhm2(open, kSummer));
  // Some of the sky's diffuse light is lost even then: a few days at most.
  CHECK(winter_days(open) > 20);
  CHECK(winter_days(under) <= winter_days(open));
  CHECK(winter_days(under) >= winter_days(open) - 6);
}

TEST_CASE("an oven that faces a tall wall close by bakes on no day", "[season][unit]") {
  season::Case c = small_case({"bread"});
  c.routine.re_aim = task::ReAim::kNever;
  c.routine.facing_rad = base::kPi;
  const weather::WeatherYear year = made_weather();
  CHECK(cooked_days(run(c, year), 0) > 50);
  spot::Wall wall;
  wall.x1_m = -20.0;
  wall.x2_m = 20.0;
  wall.y1_m = wall.y2_m = -0.7;
  wall.top_m = 10.0;
  c.spot.obstructions = {wall};
  const season::SeasonResult shut = run(c, year);
  CHECK(cooked_days(shut, 0) == 0);
  // The high wall hides all of the southern half of the sky up to 85 deg.
  for (int d = kNovember; d < season::kDays; ++d)
    CHECK(shut.day[static_cast<std::size_t>(d)].beam_hours_here_s == 0.0F);
}

TEST_CASE("hills all round shorten the day", "[season][unit]") {
  season::Case c = small_case({"eggs"});
  const weather::WeatherYear year = made_weather();
  const season::SeasonResult open = run(c, year);
  c.spot.horizon = {{0.0}, {20.0 * base::kRadPerDeg}};
  const season::SeasonResult valley = run(c, year);
  for (std::size_t d = 0; d < season::kDays; ++d) {
    CHECK(valley.day[d].beam_hours_here_s < open.day[d].beam_hours_here_s);
    CHECK(valley.day[d].sunrise_s == open.day[d].sunrise_s);
  }
  CHECK(cooked_days(valley, 0) <= cooked_days(open, 0));
}

TEST_CASE("a black wall that covers half the sky takes half the diffuse light",
          "[season][reference]") {
  season::Case c = small_case({"eggs"});
  c.oven.aim.notch_tilt_rad = {0.0};  // lies flat: sees the sky alone
  c.routine.re_aim = task::ReAim::kNever;
  MadeWeather overcast;
  overcast.beam = 0.0;
  const weather::WeatherYear year = made_weather(overcast);
  const season::SeasonResult open = run(c, year);
  spot::Wall wall;
  wall.x1_m = -1000.0;
  wall.x2_m = 1000.0;
  wall.y1_m = wall.y2_m = -1.0;
  wall.top_m = 1000.0;
  wall.reflectance = 0.0;
  c.spot.obstructions = {wall};
  const season::SeasonResult half = run(c, year);
  int light = 0;
  for (std::size_t h = 0; h < open.hours.size(); ++h) {
    const auto all_Wm2 = static_cast<double>(open.hours[h].diffuse_mouth_Wm2);
    if (all_Wm2 < 20.0) continue;
    // A level plane beside an endless wall of elevation a has the view factor (1 + cos a) / 2
    // (closed form); a is 89.9 deg here, the sky's patches are 5 deg high.
    CHECK_THAT(static_cast<double>(half.hours[h].diffuse_mouth_Wm2),
               within_rel(0.5 * all_Wm2, 0.01));
    // What the box absorbs goes with it, front and back of the box being alike; the model gives
    // even a grey sky a little light about the sun, which the wall hides or not: within 4 %.
    const auto liner_W = static_cast<double>(open.hours[h].absorbed_W[oven::kLiner]);
    CHECK_THAT(static_cast<double>(half.hours[h].absorbed_W[oven::kLiner]),
               within_rel(0.5 * liner_W, 0.04));
    ++light;
  }
  CHECK(light > 2000);
}
