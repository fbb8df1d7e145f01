// SPDX-License-Identifier: MIT
// What reaches the oven from its surroundings, hour by hour: hills, wind, ground and walls. All
// years are made by hand, so nothing outside the repository is needed.
#include <algorithm>
#include <cmath>
#include <string>

#include "catch.h"
#include "made_case.h"
#include "ovendays/season/day_trace.h"
#include "ovendays/sky/patches.h"

using namespace ovendays;
using namespace ovendays::test;

namespace {
constexpr double kDegree = base::kRadPerDeg;
constexpr int kMidMarch = 74;
constexpr int kMidsummer = 172;

/// An oven that stands as it is put: facing an azimuth, at one tilt.
season::Case fixed_case(double facing_rad, double tilt_rad) {
  season::Case c = small_case({"eggs"});
  c.oven.aim.notch_tilt_rad = {tilt_rad};
  c.routine.re_aim = task::ReAim::kNever;
  c.routine.facing_rad = facing_rad;
  return c;
}

void set_albedo(season::Case& c, double albedo) {
  std::fill(std::begin(c.sky.albedo_by_month), std::end(c.sky.albedo_by_month), albedo);
}

std::size_t hour_of(int day, int hour) {
  return static_cast<std::size_t>(day) * 24 + static_cast<std::size_t>(hour);
}

double diffuse_Wm2(const season::SeasonResult& r, std::size_t hour) {
  return static_cast<double>(r.hours[hour].diffuse_mouth_Wm2);
}

/// Diffuse light on the mouth that the ground's albedo of 0.5 adds to that of black ground.
std::vector<double> albedo_adds_Wm2(season::Case c, const weather::WeatherYear& year) {
  set_albedo(c, 0.0);
  const season::SeasonResult black = run(c, year);
  set_albedo(c, 0.5);
  const season::SeasonResult bright = run(c, year);
  std::vector<double> added_Wm2;
  for (std::size_t h = 0; h < black.hours.size(); ++h)
    added_Wm2.push_back(diffuse_Wm2(bright, h) - diffuse_Wm2(black, h));
  return added_Wm2;
}

/// A white wall 1 m from the mouth, so long and high that it takes half of a level plane's sky.
enum class Side { kNorth, kEast };
spot::Wall white_wall(Side side) {
  spot::Wall wall;
  const bool north = side == Side::kNorth;
  wall.x1_m = north ? -1000.0 : 1.0;
  wall.x2_m = north ? 1000.0 : 1.0;
  wall.y1_m = north ? 1.0 : -1000.0;
  wall.y2_m = north ? 1.0 : 1000.0;
  wall.top_m = 1000.0;
  wall.reflectance = 1.0;
  return wall;
}

/// Light on the mouth that a wall's whiteness adds to a black wall's.
std::vector<double> whiteness_adds_Wm2(season::Case c,
                                       spot::Wall wall,
                                       const weather::WeatherYear& year) {
  set_albedo(c, 0.0);
  c.spot.obstructions = {wall};
  const season::SeasonResult white = run(c, year);
  wall.reflectance = 0.0;
  c.spot.obstructions = {wall};
  const season::SeasonResult black = run(c, year);
  std::vector<double> added_Wm2;
  for (std::size_t h = 0; h < white.hours.size(); ++h)
    added_Wm2.push_back(diffuse_Wm2(white, h) - diffuse_Wm2(black, h));
  return added_Wm2;
}
}  // namespace

TEST_CASE("#16 - a hill in the west shades the afternoon and not the morning", "[season][unit]") {
  // The horizon goes through the case's text, as a user writes it: 35 deg from south-south-west to
  // north-north-west, flat elsewhere.
  season::Case c = small_case({"eggs"});
  c.spot.horizon = {{0.0, 200.0 * kDegree, 201.0 * kDegree, 339.0 * kDegree, 340.0 * kDegree},
                    {0.0, 0.0, 35.0 * kDegree, 35.0 * kDegree, 0.0}};
  const season::SeasonResult r = run(c, made_weather());
  int morning = 0;
  int evening = 0;
  for (std::size_t h = 0; h < r.hours.size(); ++h) {
    const season::HourTrace& hour = r.hours[h];
    const double elevation_deg = 90.0 - static_cast<double>(hour.sun_zenith_rad) / kDegree;
    const double azimuth_deg = static_cast<double>(hour.sun_azimuth_rad) / kDegree;
    // In half an hour the sun moves 7.5 deg at most.
    if (elevation_deg < 8.0) continue;
    if (azimuth_deg < 185.0) {
      REQUIRE(hour.visible_share == 1.0F);
      ++morning;
    } else if (azimuth_deg > 215.0 && elevation_deg < 26.0) {
      REQUIRE(hour.visible_share == 0.0F);
      REQUIRE(hour.beam_mouth_Wm2 == 0.0F);
      REQUIRE(hour.open_beam_mouth_Wm2 > 0.0F);
      ++evening;
    }
  }
  CHECK(morning > 365 * 3);
  CHECK(evening > 365);
  // The sky's patches low in the west are taken, those in the east are not.
  const spot::SpotMask& mask = r.mask_july;
  for (std::size_t p = 0; p < mask.sky.size(); ++p) {
    const base::Direction& d = mask.sky[p].direction;
    if (d.z > 0.5) continue;
    if (d.x < -0.6) CHECK(mask.sky_visible[p] == 0.0);
    if (d.x > 0.6) CHECK_THAT(mask.sky_visible[p], within_abs(1.0, 1e-12));
  }
}

TEST_CASE("#16 - flaps are laid in by the wind at the oven, not by that at 10 m",
          "[season][unit]") {
  season::Case c = fixed_case(base::kPi, 30.0 * kDegree);
  MadeWeather made;
  made.wind_ms = 6.0;
  made.change = [](int day, int, weather::WeatherHour& hour) {
    if (day == 300) hour.wind_ms = 30.0;  // so that stowed flaps come up at every wind factor
  };
  const weather::WeatherYear year = made_weather(made);
  const auto liner_W = [&](double wind_factor, double limit_ms) {
    c.spot.wind_factor = wind_factor;
    c.routine.flaps_wind_ms = limit_ms;
    const season::SeasonResult r = run(c, year);
    std::vector<float> noon;
    for (const int day : {kMidMarch, kMidsummer, 300})
      noon.push_back(r.hours[hour_of(day, 12)].absorbed_W[oven::kLiner]);
    return noon;
  };
  constexpr double kNever_ms = 1e9;
  const std::vector<float> out = liner_W(0.5, kNever_ms);
  // 6 m/s at 10 m are 3 m/s here, below the limit of 4; the storm's 30 are 15.
  const std::vector<float> sheltered = liner_W(0.5, 4.0);
  CHECK(sheltered[0] == out[0]);
  CHECK(sheltered[1] == out[1]);
  CHECK(sheltered[2] < 0.8F * out[2]);
  // 6 m/s at 10 m are 5.4 m/s here, above it.
  const std::vector<float> windy = liner_W(0.9, 4.0);
  CHECK(windy[0] < 0.8F * out[0]);
  CHECK(windy[1] < 0.8F * out[1]);
  // On a gusty ridge the oven has more wind than the mast: 6 m/s are 9 m/s.
  const std::vector<float> ridge = liner_W(1.5, 8.0);
  CHECK(ridge[0] == windy[0]);
  CHECK(ridge[1] == windy[1]);
}

TEST_CASE("#16 - flaps keep two fifths of the wind from the glass", "[season][unit]") {
  // The wind behind flaps is taken as 0.6 of that at the oven: a judgement value without a source
  // (DEVELOPERS.md). Flaps of 5 mm catch no light to speak of, so such an oven in 5 m/s must have
  // the glass of one without flaps in 3 m/s.
  season::Case c = fixed_case(base::kPi, 30.0 * kDegree);
  const auto glass_K = [&](bool flaps, double wind_ms) {
    season::Case now = c;
    for (oven::Flap& flap : now.oven.flaps) flap.length_m = 0.005;
    if (!flaps) now.oven.flaps.clear();
    MadeWeather made;
    made.wind_ms = wind_ms;
    const season::SeasonResult r = run(now, made_weather(made));
    std::vector<double> at_noon_K;
    for (int day = 0; day < season::kDays; day += 10)
      at_noon_K.push_back(static_cast<double>(r.hours[hour_of(day, 12)].pane_K));
    return at_noon_K;
  };
  const std::vector<double> behind_flaps_K = glass_K(true, 5.0);
  const std::vector<double> same_wind_K = glass_K(false, 3.0);
  const std::vector<double> full_wind_K = glass_K(false, 5.0);
  for (std::size_t i = 0; i < same_wind_K.size(); ++i) {
    const double effect_K = same_wind_K[i] - full_wind_K[i];
    INFO("sample " << i << ": " << behind_flaps_K[i] << ", " << same_wind_K[i] << ", "
                   << full_wind_K[i]);
    CHECK(effect_K > 3.0);
    // The skin of the walls has the full wind in one and 3 m/s in the other.
    CHECK_THAT(behind_flaps_K[i], within_abs(same_wind_K[i], 0.2 * effect_K));
  }
}

TEST_CASE("#16 - at 3,000 m water boils in the oven where the pressure says",
          "[season][reference]") {
  // ISO 2533 (standard atmosphere): 70,109 Pa at 3,000 m and 101,325 Pa at sea level. Saturation
  // temperatures from the IAPWS-IF97 steam tables: 90.0 C (70,182 Pa) and 100.0 C (101,418 Pa).
  struct Height {
    double pressure_Pa;
    double boiling_degC;
  };
  for (const Height& height : {Height{70109.0, 90.0}, Height{101325.0, 100.0}}) {
    MadeWeather made;
    made.mean_K = 293.15;
    made.change = [&height](int, int, weather::WeatherHour& hour) {
      hour.pressure_Pa = height.pressure_Pa;
    };
    const weather::WeatherYear year = made_weather(made);
    season::Case c = small_case({"rice"});
    c.tasks.front().target_K = base::kZeroCelsius_K + 99.5;
    c.tasks.front().hold_s = 3600.0;
    const season::SeasonResult r = run(c, year);
    const double boiling_K = base::kZeroCelsius_K + height.boiling_degC;
    INFO(height.pressure_Pa << " Pa");
    CHECK_THAT(r.boiling_K, within_abs(boiling_K, 0.1));
    // The target lies above what can be reached and is lowered to 1 K below boiling.
    CHECK_THAT(r.task_target_K.front(), within_abs(boiling_K - 1.0, 0.1));
    CHECK(cooked_days(r, 0, {120, 243}) > 100);
    // The food is held at the boiling point by its own steam, though the oven is far hotter.
    const season::DayTrace day =
        season::trace_one_day(c, year, {.day_index = kMidsummer}, quick_options());
    double hottest_core_K = 0.0;
    double hottest_air_K = 0.0;
    for (const season::MinuteTrace& minute : day.minutes) {
      if (std::isnan(minute.core_K)) continue;
      hottest_core_K = std::max(hottest_core_K, minute.core_K);
      hottest_air_K = std::max(hottest_air_K, minute.air_K);
    }
    CHECK(hottest_air_K > boiling_K + 10.0);
    CHECK_THAT(hottest_core_K, within_abs(boiling_K, 0.6));
  }
}

TEST_CASE("#16 - a tilted pane has (1 - cos tilt) / 2 of the ground's light",
          "[season][reference]") {
  // Liu and Jordan 1963: ground of albedo a sends a GHI (1 - cos t) / 2 to a pane tilted by t. The
  // ground's patches are 5 deg high: within 2 %.
  const double tilt_rad = 60.0 * kDegree;
  season::Case c = fixed_case(base::kPi, tilt_rad);
  const weather::WeatherYear year = made_weather();
  const std::vector<double> added_Wm2 = albedo_adds_Wm2(c, year);
  int lit = 0;
  for (std::size_t h = 0; h < added_Wm2.size(); ++h) {
    // Under a low sun the hour's beam, spread over its minutes, has not quite the mean height.
    if (year.hours[h].ghi_Wm2 < 250.0) continue;
    const double expected_Wm2 = 0.5 * year.hours[h].ghi_Wm2 * 0.5 * (1.0 - std::cos(tilt_rad));
    REQUIRE_THAT(added_Wm2[h], within_rel(expected_Wm2, 0.02));
    ++lit;
  }
  CHECK(lit > 2500);
}

TEST_CASE("#16 - what the box takes in of the ground's light is its acceptance over the ground",
          "[season][identity]") {
  const double tilt_rad = 60.0 * kDegree;
  season::Case c = fixed_case(base::kPi, tilt_rad);
  const weather::WeatherYear year = made_weather();
  set_albedo(c, 0.0);
  const season::SeasonResult black = run(c, year);
  set_albedo(c, 0.5);
  const season::SeasonResult bright = run(c, year);
  // The even radiance of the ground is albedo GHI / pi.
  std::array<double, oven::kSurfaces> accepted_m2{};
  const base::Frame frame = oven::mouth_frame({}, base::kPi, tilt_rad);
  for (const sky::Patch& patch : sky::ground_patches()) {
    const base::Vec3 local = frame.local_from_world(patch.direction);
    if (local.z <= 0.0) continue;
    const optics::Acceptance acceptance = bright.tables.front().at(local);
    for (std::size_t s = 0; s < accepted_m2.size(); ++s)
      accepted_m2[s] += patch.solid_angle_sr / base::kPi * acceptance.absorbed_m2[s];
  }
  for (const int day : {10, kMidMarch, kMidsummer}) {
    for (int hour = 10; hour < 15; ++hour) {
      const std::size_t h = hour_of(day, hour);
      const double ground_Wm2 = 0.5 * year.hours[h].ghi_Wm2;
      for (const std::size_t s : {std::size_t{oven::kLiner}, std::size_t{oven::kTray}}) {
        const double more_W = static_cast<double>(bright.hours[h].absorbed_W[s]) -
                              static_cast<double>(black.hours[h].absorbed_W[s]);
        INFO("day " << day << ", hour " << hour << ", surface " << s);
        // The hour's mean of DNI cos z, from six instants here and from twelve there: 1 %.
        CHECK_THAT(more_W, within_rel(ground_Wm2 * accepted_m2[s], 0.01));
      }
    }
  }
}

TEST_CASE("#16 - a wall passes on half of the ground's light that meets it",
          "[season][reference]") {
  // An upright surface sees the ground with a view factor of 1/2 (Liu and Jordan with t = 90 deg),
  // so it receives albedo GHI / 2; a level plane beside an endless high wall sees it with 1/2 as
  // well.
  season::Case c = fixed_case(base::kPi, 0.0);
  c.spot.obstructions = {white_wall(Side::kNorth)};
  const weather::WeatherYear year = made_weather();
  const std::vector<double> added_Wm2 = albedo_adds_Wm2(c, year);
  int lit = 0;
  for (std::size_t h = 0; h < added_Wm2.size(); ++h) {
    if (year.hours[h].ghi_Wm2 < 250.0) continue;  // as above
    REQUIRE_THAT(added_Wm2[h], within_rel(0.5 * 0.5 * 0.5 * year.hours[h].ghi_Wm2, 0.02));
    ++lit;
  }
  CHECK(lit > 2500);
}

TEST_CASE("#16 - a wall that faces the sun passes on the beam, one that does not only the sky",
          "[season][reference]") {
  // Beam on an upright surface: DNI times the cosine of the incidence, sin(zenith) cos(azimuth from
  // its normal); half of the sky's diffuse light; a level plane sees half of what the wall sends.
  season::Case c = fixed_case(base::kPi, 0.0);
  const weather::WeatherYear year = made_weather();
  season::Case open = c;
  set_albedo(open, 0.0);
  const season::SeasonResult sun = run(open, year);
  struct Facing {
    Side side;
    double azimuth_rad;  // towards which the wall looks
  };
  for (const Facing& wall :
       {Facing{Side::kNorth, base::kPi}, Facing{Side::kEast, 1.5 * base::kPi}}) {
    const std::vector<double> added_Wm2 = whiteness_adds_Wm2(c, white_wall(wall.side), year);
    int in_sun = 0;
    int in_shade = 0;
    for (std::size_t h = 0; h < added_Wm2.size(); ++h) {
      const weather::WeatherHour& hour = year.hours[h];
      const auto zenith_rad = static_cast<double>(sun.hours[h].sun_zenith_rad);
      if (zenith_rad > 70.0 * kDegree) continue;
      const double cosine =
          std::sin(zenith_rad) *
          std::cos(static_cast<double>(sun.hours[h].sun_azimuth_rad) - wall.azimuth_rad);
      // The sun's course through the hour is not straight where it grazes the wall.
      if (std::abs(cosine) < 0.2) continue;
      const double beam_Wm2 = hour.dni_Wm2 * std::max(0.0, cosine);
      INFO("hour " << h << ", wall towards " << wall.azimuth_rad / kDegree << " deg");
      CHECK_THAT(added_Wm2[h], within_rel(0.5 * (beam_Wm2 + 0.5 * hour.dhi_Wm2), 0.03));
      ++(cosine > 0.0 ? in_sun : in_shade);
    }
    CHECK(in_sun > 500);
    if (wall.side == Side::kEast) CHECK(in_shade > 500);
  }
}
