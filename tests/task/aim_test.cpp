// SPDX-License-Identifier: MIT
// Where the oven points: halfway rule, notches, both hemispheres, the tropics. Suns by hand: a day
// made of straight arcs, so that the sun at any time is known without an almanac.
#include "ovendays/task/aim.h"

#include <cmath>

#include "catch.h"
#include "degrees.h"
#include "ovendays/base/constants.h"

using namespace ovendays;
using task::Aim;
using task::ReAim;
using task::Routine;
using test::kDeg;
using test::within_abs;

namespace {
// Between segment ends 600 s apart the sun is interpolated along the chord: under 1e-5 rad.
constexpr double kChord_rad = 2e-5;

struct Sun {
  double azimuth_rad;
  double elevation_rad;
};

/// Sun of a solar time by the textbook's spherical triangle (declination fixed through the day).
Sun textbook_sun(double latitude_rad, double declination_rad, double time_s) {
  const double w = (time_s / 3600.0 - 12.0) * 15.0 * kDeg;
  const double z = std::sin(latitude_rad) * std::sin(declination_rad) +
                   std::cos(latitude_rad) * std::cos(declination_rad) * std::cos(w);
  const double east = -std::cos(declination_rad) * std::sin(w);
  const double north = std::cos(latitude_rad) * std::sin(declination_rad) -
                       std::sin(latitude_rad) * std::cos(declination_rad) * std::cos(w);
  const double azimuth = std::atan2(east, north);
  return {azimuth < 0.0 ? azimuth + base::kTwoPi : azimuth, std::asin(z)};
}

base::Direction towards(const Sun& sun) {
  return base::direction_from_sky(sun.azimuth_rad, sun.elevation_rad);
}

sky::SkyDay made_day(double latitude_deg, double declination_deg) {
  sky::SkyDay day;
  const double latitude = latitude_deg * kDeg;
  const double declination = declination_deg * kDeg;
  const double half_rad = std::acos(-std::tan(latitude) * std::tan(declination));
  const double half_s = half_rad / (15.0 * kDeg) * 3600.0;
  day.light = {true, 43200.0 - half_s, 43200.0 + half_s, 43200.0};
  for (int i = 0; i < 144; ++i) {
    day.segments.push_back({600.0 * i, 600.0 * (i + 1), static_cast<std::size_t>(i)});
  }
  for (int i = 0; i <= 144; ++i) {
    sky::SkyState state;
    state.to_sun = towards(textbook_sun(latitude, declination, 600.0 * i));
    day.states.push_back(state);
  }
  return day;
}

/// The notch squarest to a sun, by trying all.
int squarest(const oven::OvenDesign& oven, const Sun& sun, double facing_rad) {
  int best = 0;
  double best_cos = -2.0;
  for (std::size_t i = 0; i < oven.aim.notch_tilt_rad.size(); ++i) {
    const double tilt = oven.aim.notch_tilt_rad[i] + oven.box.glazing_slope_rad;
    const base::Direction normal = base::direction_from_sky(facing_rad, 0.5 * base::kPi - tilt);
    const double c = dot(normal, towards(sun));
    if (c > best_cos) best = static_cast<int>(i);
    best_cos = std::max(best_cos, c);
  }
  return best;
}

Routine routine_every(double every_s) {
  Routine r;
  r.re_aim = ReAim::kEvery;
  r.re_aim_every_s = every_s;
  return r;
}
}  // namespace

TEST_CASE("turned every half hour, the oven is set on the sun a quarter ahead", "[task][unit]") {
  const sky::SkyDay day = made_day(36.0, 10.0);
  const oven::OvenDesign oven = oven::default_design();
  const auto aims = task::day_aims(routine_every(1800.0), oven, day);
  REQUIRE(aims.size() == 23U);  // 07:00, 07:30, ... 18:00; sunset is at 18:29
  CHECK(day.light.sunset_s > 18.0 * 3600);
  CHECK(day.light.sunset_s < 18.5 * 3600);
  for (std::size_t i = 0; i < aims.size(); ++i) {
    const double turn_s = 7.0 * 3600 + 1800.0 * static_cast<double>(i);
    CHECK_THAT(aims[i].from_s, within_abs(i == 0 ? 0.0 : turn_s, 1e-9));
    CHECK_THAT(aims[i].sun_s, within_abs(turn_s + 900.0, 1e-9));
    const Sun sun = textbook_sun(36.0 * kDeg, 10.0 * kDeg, turn_s + 900.0);
    CHECK_THAT(aims[i].azimuth_rad, within_abs(sun.azimuth_rad, 10.0 * kChord_rad));
    CHECK(aims[i].notch == squarest(oven, sun, sun.azimuth_rad));
    CHECK_THAT(aims[i].box_tilt_rad,
               within_abs(oven.aim.notch_tilt_rad[static_cast<std::size_t>(aims[i].notch)], 0.0));
    CHECK_THAT(aims[i].glazing_tilt_rad, within_abs(aims[i].box_tilt_rad, 0.0));  // no slope
  }
}

TEST_CASE("a late turn keeps the aim that was planned for its time", "[task][unit]") {
  const sky::SkyDay day = made_day(36.0, 10.0);
  const oven::OvenDesign oven = oven::default_design();
  Routine late = routine_every(1800.0);
  late.re_aim_late_s = 600.0;
  const auto planned = task::day_aims(routine_every(1800.0), oven, day);
  const auto done = task::day_aims(late, oven, day);
  REQUIRE(done.size() == planned.size());
  CHECK(done[0].from_s == 0.0);  // set out in time
  for (std::size_t i = 0; i < done.size(); ++i) {
    if (i > 0) CHECK(done[i].from_s == planned[i].from_s + 600.0);
    CHECK(done[i].sun_s == planned[i].sun_s);
    CHECK(done[i].azimuth_rad == planned[i].azimuth_rad);
    CHECK(done[i].notch == planned[i].notch);
  }
}

TEST_CASE("a sloped glass counts in the choice of the notch", "[task][unit]") {
  const sky::SkyDay day = made_day(36.0, 0.0);
  oven::OvenDesign oven = oven::default_design();
  oven.box.glazing_slope_rad = 30.0 * kDeg;
  Routine r;
  r.re_aim = ReAim::kOnce;
  r.re_aim_s = {43200.0};
  const auto aims = task::day_aims(r, oven, day);
  REQUIRE(aims.size() == 1U);
  // Equinox noon at 36 N: the sun's zenith angle is 36 deg; 30 deg of slope and 10 of tilt come
  // nearest (4 deg off; without tilt 6).
  CHECK_THAT(aims[0].box_tilt_rad, within_abs(10.0 * kDeg, 1e-12));
  CHECK_THAT(aims[0].glazing_tilt_rad, within_abs(40.0 * kDeg, 1e-12));
}

TEST_CASE("turned at stated times, each aim looks halfway to the next", "[task][unit]") {
  const sky::SkyDay day = made_day(36.0, 0.0);
  Routine r;
  r.re_aim = ReAim::kAtTimes;
  r.re_aim_s = {32400.0, 39600.0, 50400.0};
  const auto aims = task::day_aims(r, oven::default_design(), day);
  REQUIRE(aims.size() == 3U);
  CHECK_THAT(aims[0].from_s, within_abs(0.0, 0.0));
  CHECK_THAT(aims[1].from_s, within_abs(39600.0, 0.0));
  CHECK_THAT(aims[0].sun_s, within_abs(36000.0, 1e-9));
  CHECK_THAT(aims[1].sun_s, within_abs(45000.0, 1e-9));
  CHECK_THAT(aims[2].sun_s, within_abs(50400.0, 1e-9));  // no next turn: the sun of the moment
  const Sun sun = textbook_sun(36.0 * kDeg, 0.0, 45000.0);
  CHECK_THAT(aims[1].azimuth_rad, within_abs(sun.azimuth_rad, 10.0 * kChord_rad));
}

TEST_CASE("pointed once, the oven keeps the sun of that moment all day", "[task][unit]") {
  const sky::SkyDay day = made_day(36.0, 0.0);
  Routine r;
  r.re_aim = ReAim::kOnce;
  r.re_aim_s = {36000.0};
  const auto aims = task::day_aims(r, oven::default_design(), day);
  REQUIRE(aims.size() == 1U);
  const Sun sun = textbook_sun(36.0 * kDeg, 0.0, 36000.0);
  CHECK_THAT(aims[0].azimuth_rad, within_abs(sun.azimuth_rad, 10.0 * kChord_rad));
  CHECK_THAT(aims[0].from_s, within_abs(0.0, 0.0));
}

TEST_CASE("never turned, the oven keeps its facing and the best notch for noon", "[task][unit]") {
  const sky::SkyDay day = made_day(36.0, -10.0);
  const oven::OvenDesign oven = oven::default_design();
  Routine r;
  r.re_aim = ReAim::kNever;
  r.facing_rad = 150.0 * kDeg;
  const auto aims = task::day_aims(r, oven, day);
  REQUIRE(aims.size() == 1U);
  CHECK_THAT(aims[0].azimuth_rad, within_abs(150.0 * kDeg, 0.0));
  const Sun noon = textbook_sun(36.0 * kDeg, -10.0 * kDeg, 43200.0);
  CHECK(aims[0].notch == squarest(oven, noon, 150.0 * kDeg));
}

TEST_CASE("an oven that does not turn keeps its facing under any routine", "[task][unit]") {
  const sky::SkyDay day = made_day(36.0, 0.0);
  oven::OvenDesign oven = oven::default_design();
  oven.aim.turns = false;
  Routine r = routine_every(3600.0);
  r.facing_rad = 120.0 * kDeg;
  const auto aims = task::day_aims(r, oven, day);
  REQUIRE(aims.size() > 5U);
  for (const Aim& aim : aims) {
    CHECK_THAT(aim.azimuth_rad, within_abs(120.0 * kDeg, 0.0));
    const Sun sun = textbook_sun(36.0 * kDeg, 0.0, aim.sun_s);
    if (sun.elevation_rad > 0.0) CHECK(aim.notch == squarest(oven, sun, 120.0 * kDeg));
  }
}

TEST_CASE("a fixed tilt takes the nearest notch all day", "[task][unit]") {
  const sky::SkyDay day = made_day(36.0, 0.0);
  const oven::OvenDesign oven = oven::default_design();  // notches at 0, 10, ... 50 deg
  Routine r = routine_every(1800.0);
  for (const auto& [tilt_deg, nearest_deg] :
       {std::pair{27.0, 30.0}, {24.0, 20.0}, {0.0, 0.0}, {88.0, 50.0}}) {
    r.fixed_tilt_rad = tilt_deg * kDeg;
    for (const Aim& aim : task::day_aims(r, oven, day))
      CHECK_THAT(aim.box_tilt_rad, within_abs(nearest_deg * kDeg, 1e-12));
  }
}

TEST_CASE("south of the equator the oven follows the sun through north", "[task][unit]") {
  const oven::OvenDesign oven = oven::default_design();
  const auto south = task::day_aims(routine_every(1800.0), oven, made_day(-36.0, 0.0));
  const auto north = task::day_aims(routine_every(1800.0), oven, made_day(36.0, 0.0));
  REQUIRE(south.size() == north.size());
  for (std::size_t i = 0; i < south.size(); ++i) {
    // The mirror image in the east-west plane: azimuth a becomes 180 deg - a, tilts stay.
    CHECK_THAT(std::cos(south[i].azimuth_rad), within_abs(-std::cos(north[i].azimuth_rad), 1e-9));
    CHECK_THAT(std::sin(south[i].azimuth_rad), within_abs(std::sin(north[i].azimuth_rad), 1e-9));
    CHECK(south[i].notch == north[i].notch);
  }
}

TEST_CASE("in the tropics the oven faces a noon sun that stands in the north", "[task][unit]") {
  const sky::SkyDay day = made_day(10.0, 23.0);  // noon sun 13 deg north of the zenith
  Routine r;
  r.re_aim = ReAim::kOnce;
  r.re_aim_s = {43200.0};
  const auto aims = task::day_aims(r, oven::default_design(), day);
  REQUIRE(aims.size() == 1U);
  CHECK_THAT(std::cos(aims[0].azimuth_rad), within_abs(1.0, 1e-9));
  CHECK_THAT(aims[0].box_tilt_rad, within_abs(10.0 * kDeg, 1e-12));
}

TEST_CASE("turning waits for somebody to be home, and for sunset it stops", "[task][unit]") {
  const sky::SkyDay day = made_day(36.0, 0.0);  // the sun sets at 18:00
  Routine r = routine_every(3600.0);
  r.home_from_s = 9.5 * 3600;
  r.home_until_s = 15.0 * 3600;
  const auto aims = task::day_aims(r, oven::default_design(), day);
  REQUIRE(aims.size() == 6U);  // 9:30 ... 14:30
  CHECK_THAT(aims[1].from_s, within_abs(10.5 * 3600, 1e-9));
  CHECK_THAT(aims.back().from_s, within_abs(14.5 * 3600, 1e-9));
  r.home_until_s = 86400.0;
  CHECK(task::day_aims(r, oven::default_design(), day).back().from_s < day.light.sunset_s);
}

TEST_CASE("an aim taken in the dark is set on the first or last of the sun", "[task][unit]") {
  const sky::SkyDay day = made_day(36.0, 0.0);  // the sun rises at 06:00
  Routine r;
  r.re_aim = ReAim::kOnce;
  r.re_aim_s = {4.0 * 3600};
  const auto aims = task::day_aims(r, oven::default_design(), day);
  REQUIRE(aims.size() == 1U);
  // Equinox sunrise is due east: a minute later 0.25 deg of hour angle.
  CHECK_THAT(aims[0].azimuth_rad, within_abs(90.0 * kDeg, 0.5 * kDeg));
  CHECK_THAT(aims[0].box_tilt_rad, within_abs(50.0 * kDeg, 1e-12));
}

TEST_CASE("a day without any sun still has an aim", "[task][unit]") {
  sky::SkyDay day = made_day(36.0, 0.0);
  day.light = {false, 43200.0, 43200.0, 43200.0};
  for (sky::SkyState& s : day.states) s.to_sun = base::direction_from_sky(base::kPi, -5.0 * kDeg);
  CHECK(task::day_aims(routine_every(1800.0), oven::default_design(), day).size() >= 1U);
  CHECK(task::perfect_aims(oven::default_design(), day).size() >= 1U);
}

TEST_CASE("perfect aims are never farther from the sun than any routine's", "[task][identity]") {
  const sky::SkyDay day = made_day(36.0, -15.0);
  const oven::OvenDesign oven = oven::default_design();
  const auto perfect = task::perfect_aims(oven, day);
  REQUIRE(perfect.size() > 50U);
  const auto square = [](const std::vector<Aim>& aims, double time_s, const Sun& sun) {
    const Aim* now = &aims.front();
    for (const Aim& aim : aims) now = aim.from_s <= time_s ? &aim : now;
    const base::Direction normal =
        base::direction_from_sky(now->azimuth_rad, 0.5 * base::kPi - now->glazing_tilt_rad);
    return dot(normal, towards(sun));
  };
  Routine never;
  never.re_aim = ReAim::kNever;
  for (const Routine& r : {routine_every(1800.0), routine_every(7200.0), never}) {
    const auto aims = task::day_aims(r, oven, day);
    for (int i = 48; i < 96; ++i) {  // 8 h to 16 h, middles of segments
      const double t = 600.0 * i + 300.0;
      const Sun sun = textbook_sun(36.0 * kDeg, -15.0 * kDeg, t);
      CHECK(square(perfect, t, sun) >= square(aims, t, sun) - 1e-9);
    }
  }
}
