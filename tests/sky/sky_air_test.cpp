// SPDX-License-Identifier: MIT
// Temperatures, wind and infrared of the segments, and daily means.
#include <cmath>

#include "catch.h"
#include "made_year.h"
#include "ovendays/sky/sky_year.h"

using namespace ovendays;
using test::within_abs;
using test::within_rel;

namespace {
const sky::SkyState& state_at(const sky::SkyDay& day, double t_s) {
  for (const sky::SkySegment& segment : day.segments) {
    if (segment.end_s == t_s) return day.end(segment);
  }
  FAIL("no segment ends at " << t_s);
  return day.states.front();
}

// Fills the year with the light of clear days, times a share; includes GHI.
weather::WeatherYear year_of_share(double share) {
  weather::WeatherYear year = test::make_year({});
  for (weather::WeatherHour& hour : year.hours) {
    const sun::SunPosition p = sun::sun_position(hour.sun_time(-5 * 3600.0), year.place);
    const sky::ClearSky clear = sky::clear_sky(
        {p.zenith_rad, sun::extraterrestrial_normal_Wm2(p.distance_au), 200.0, 101325.0, 3.0});
    hour.dry_bulb_K = 293.15;
    hour.dew_point_K = 283.15;
    hour.dni_Wm2 = 0.0;
    hour.dhi_Wm2 = hour.ghi_Wm2 =
        share * (clear.dhi_Wm2 + clear.dni_Wm2 * std::max(0.0, std::cos(p.zenith_rad)));
  }
  return year;
}
}  // namespace

TEST_CASE("dry bulb and wind are interpolated linearly between the instants of the records",
          "[sky][identity]") {
  weather::WeatherYear year = test::make_year({});
  for (double met_s : {0.0, 1800.0, 3600.0}) {
    for (weather::WeatherHour& hour : year.hours) hour.met_s = met_s;
    const sky::SkyDay day = sky::make_sky_day(year, 200);
    for (int h = 1; h < 24; ++h) {
      const double t_s = 3600.0 * h;
      // The two records whose instants enclose the full hour.
      const int before = h - 1;
      const weather::WeatherHour& a = year.at(200, before);
      const weather::WeatherHour& b = year.at(200, h);
      const double share = (3600.0 - met_s) / 3600.0;
      const sky::SkyState& state = state_at(day, t_s);
      CHECK_THAT(state.dry_bulb_K,
                 within_rel(a.dry_bulb_K + share * (b.dry_bulb_K - a.dry_bulb_K), 1e-12));
      CHECK_THAT(state.wind_ms, within_abs(a.wind_ms + share * (b.wind_ms - a.wind_ms), 1e-12));
    }
  }
}

TEST_CASE("the year wraps around: its last record precedes its first", "[sky][unit]") {
  const weather::WeatherYear year = test::make_year({});
  const sky::SkyDay first = sky::make_sky_day(year, 0);
  const sky::SkyDay last = sky::make_sky_day(year, 364);
  const double middle_K = 0.5 * (year.hours.front().dry_bulb_K + year.hours.back().dry_bulb_K);
  CHECK_THAT(first.states.front().dry_bulb_K, within_rel(middle_K, 1e-12));
  CHECK_THAT(last.states.back().dry_bulb_K, within_rel(middle_K, 1e-12));
}

TEST_CASE("the sky temperature comes from the file's infrared where it is given", "[sky][unit]") {
  weather::WeatherYear year = test::make_year({});
  for (weather::WeatherHour& hour : year.hours) {
    hour.horizontal_ir_Wm2 = base::kStefanBoltzmann_Wm2K4 * std::pow(271.0, 4.0);
  }
  for (const sky::SkyState& state : sky::make_sky_day(year, 20).states) {
    REQUIRE_THAT(state.sky_K, within_rel(271.0, 1e-12));
  }
  // One record without infrared: the model is used around that record only.
  test::hour_at(year, 20, 10).horizontal_ir_Wm2.reset();
  const sky::SkyDay day = sky::make_sky_day(year, 20);
  CHECK_THAT(state_at(day, 8 * 3600.0).sky_K, within_rel(271.0, 1e-12));
  CHECK_THAT(state_at(day, 13 * 3600.0).sky_K, within_rel(271.0, 1e-12));
  CHECK(std::abs(state_at(day, 10 * 3600.0).sky_K - 271.0) > 0.5);
}

TEST_CASE("without infrared the sky temperature follows the cloud, by night too", "[sky][unit]") {
  const sky::SkyDay clear = sky::make_sky_day(year_of_share(1.0), 150);
  const sky::SkyDay half = sky::make_sky_day(year_of_share(0.6), 150);
  const sky::SkyDay dull = sky::make_sky_day(year_of_share(0.2), 150);
  for (double t_h : {2.0, 8.0, 12.0, 16.0, 23.0}) {
    const double t_s = 3600.0 * t_h;
    CHECK(state_at(clear, t_s).sky_K < state_at(half, t_s).sky_K - 2.0);
    CHECK(state_at(half, t_s).sky_K < state_at(dull, t_s).sky_K - 2.0);
  }
  // A clear noon: Berdahl and Martin at the transit, cloud 0 (HT-13's air, ledger from memory).
  const double hour = 12.0 + (43200.0 - clear.light.transit_s) / 3600.0;
  const double emissivity = sky::clear_sky_emissivity(283.15, hour, 101325.0);
  CHECK_THAT(state_at(clear, 43200.0).sky_K, within_abs(293.15 * std::pow(emissivity, 0.25), 0.3));
  // Overcast (0.2 < 0.25): cloud 1 day and night.
  const double night = sky::clear_sky_emissivity(283.15, hour + 11.0, 101325.0);
  const double full = night + (1.0 - night) * std::exp(-2.0 / 8.2);
  CHECK_THAT(state_at(dull, 23 * 3600.0).sky_K, within_abs(293.15 * std::pow(full, 0.25), 0.01));
}

TEST_CASE("the cloud of a night is interpolated between its dusk and its dawn", "[sky][unit]") {
  weather::WeatherYear year = year_of_share(1.0);
  const weather::WeatherYear dull = year_of_share(0.2);
  for (std::size_t h = 0; h < 24; ++h) test::hour_at(year, 150, h) = dull.hours[3600 + h];
  const sky::SkyDay day = sky::make_sky_day(year, 150);
  const double dusk_K = state_at(day, 20 * 3600.0).sky_K;
  const double late_K = state_at(day, 23 * 3600.0).sky_K;
  const sky::SkyDay next = sky::make_sky_day(year, 151);
  const double small_K = state_at(next, 3 * 3600.0).sky_K;
  CHECK(dusk_K > late_K);
  CHECK(late_K > small_K);
  // Midnight gives the same state from both sides.
  CHECK_THAT(day.states.back().sky_K, within_abs(next.states.front().sky_K, 0.05));
}

TEST_CASE("the sky temperature is defined in the polar night", "[sky][unit]") {
  const weather::WeatherYear year = test::make_year({78.2, 15.6, 1.0, 0.0, 2008});
  const sky::SkyDay day = sky::make_sky_day(year, 355);
  CHECK_FALSE(day.light.up);
  CHECK(day.segments.size() == 24);
  for (const sky::SkyState& state : day.states) {
    CHECK(state.sky_K > 250.0);
    CHECK(state.sky_K < state.dry_bulb_K);
    CHECK(state.to_sun.z < 0.0);
  }
}

TEST_CASE("daily means of dew point and pressure and the sum of rain", "[sky][unit]") {
  weather::WeatherYear year = test::make_year({});
  double dew_K = 0.0;
  for (std::size_t h = 0; h < 24; ++h) {
    auto& hour = test::hour_at(year, 50, h);
    hour.pressure_Pa = 90000.0 + 100.0 * static_cast<double>(h);
    dew_K += hour.dew_point_K / 24.0;
    if (h % 6 == 0) hour.precipitation_m = 0.001;
  }
  const sky::SkyDay day = sky::make_sky_day(year, 50);
  CHECK_THAT(day.pressure_Pa, within_rel(91150.0, 1e-12));
  CHECK_THAT(day.dew_point_K, within_rel(dew_K, 1e-12));
  CHECK_THAT(day.rain_m, within_rel(0.004, 1e-12));
  CHECK(sky::make_sky_day(year, 51).rain_m == 0.0);
}

TEST_CASE("albedo comes from the case, else the file, else snow, else the default", "[sky][unit]") {
  weather::WeatherYear year = test::make_year({});
  sky::SkyOptions options;
  const auto albedo = [&] { return sky::make_sky_day(year, 40, options).albedo; };
  CHECK_THAT(albedo(), within_rel(0.2, 1e-12));
  for (std::size_t h = 0; h < 12; ++h) {
    test::hour_at(year, 40, h).snow_depth_m = 0.05;
    test::hour_at(year, 40, 12 + h).snow_depth_m = 0.005;
  }
  CHECK_THAT(albedo(), within_rel(0.4, 1e-12));  // half of the day has more than 1 cm of snow
  for (std::size_t h = 0; h < 24; ++h) test::hour_at(year, 40, h).albedo = 0.31;
  CHECK_THAT(albedo(), within_rel(0.31, 1e-12));
  options.albedo_by_month[1] = 0.5;  // day 40 is in February
  CHECK_THAT(albedo(), within_rel(0.5, 1e-12));
  options.albedo_by_month[1] = -1.0;
  options.albedo_by_month[0] = 0.5;
  CHECK_THAT(albedo(), within_rel(0.31, 1e-12));
}
