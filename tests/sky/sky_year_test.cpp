// SPDX-License-Identifier: MIT
// The segments of the year: energy is conserved, there are no gaps and no light at night, and days
// do not depend on the order in which they are built.
#include <algorithm>
#include <cmath>
#include <cstring>
#include <thread>
#include <vector>

#include "catch.h"
#include "made_year.h"
#include "ovendays/sky/sky_year.h"

using namespace ovendays;
using test::dhi_of;
using test::dni_of;
using test::energy_Jm2;
using test::MadeYear;
using test::within_abs;
using test::within_rel;

namespace {
// Temperate, southern, tropical and polar sites, unusual interval offsets, and clocks far from
// solar time.
const std::vector<MadeYear> kYears = {{36.1, -79.95, -5.0, 0.0, 2003},
                                      {-33.9, 151.2, 10.0, 0.0, 1995},
                                      {8.5, 76.9, 5.5, 1800.0, 2016},
                                      {69.7, 18.9, 1.0, 0.0, 2020},
                                      {78.2, 15.6, 1.0, -1800.0, 2008},
                                      {40.5, -108.5, 5.0, 0.0, 2020},
                                      {40.5, -108.5, -7.0, 420.0, 2020},
                                      {40.5, -108.5, -1.0, -1380.0, 2020}};

struct Totals {
  double given_Jm2 = 0.0;
  double placed_Jm2 = 0.0;
};
}  // namespace

TEST_CASE("the segments of every day leave no gap", "[sky][identity]") {
  for (const MadeYear& made : kYears) {
    const weather::WeatherYear year = test::make_year(made);
    for (int d = 0; d < 365; d += 7) {
      const sky::SkyDay day = sky::make_sky_day(year, d);
      INFO("latitude " << made.latitude_deg << " day " << d);
      REQUIRE(day.segments.size() >= 24);
      double at_s = 0.0;
      for (const sky::SkySegment& segment : day.segments) {
        REQUIRE(segment.start_s == at_s);
        REQUIRE(segment.end_s > segment.start_s);
        REQUIRE(segment.end_s - segment.start_s <= 3600.0);
        if (day.start(segment).clear_dni_Wm2 > 0.0)
          REQUIRE(segment.end_s - segment.start_s <= 720.0);
        at_s = segment.end_s;
      }
      REQUIRE(at_s == 86400.0);
      CHECK(day.date.year == made.year);
      CHECK(base::day_index_365(day.date.month, day.date.day) == d);
    }
  }
}

TEST_CASE("the beam and diffuse energy of each hour is conserved", "[sky][identity]") {
  // 1e-9 (relative) is required; the trapezoidal rule is exact except for rounding.
  for (const MadeYear& made : kYears) {
    const weather::WeatherYear year = test::make_year(made);
    const std::vector<sky::SkyDay> days = sky::make_sky_year(year);
    int compared = 0;
    for (std::size_t h = 0; h < 8760; ++h) {
      const weather::WeatherHour& hour = year.hours[h];
      const sun::SunPosition p =
          sun::sun_position(hour.sun_time(year.place.utc_offset_s), year.place);
      if (p.elevation_rad() < 8.0 * base::kRadPerDeg) continue;  // the sun is up for the whole hour
      const double start_s = 3600.0 * static_cast<double>(h % 24) + made.shift_s;
      const auto sum_Jm2 = [&](auto light) {
        double sum = 0.0;
        for (int near = -1; near <= 1; ++near) {  // an interval may cross midnight
          const auto& day = days[(h / 24 + 364 + static_cast<std::size_t>(near + 1)) % 365];
          sum +=
              energy_Jm2(day, start_s - 86400.0 * near, start_s - 86400.0 * near + 3600.0, light);
        }
        return sum;
      };
      INFO("latitude " << made.latitude_deg << " hour " << h);
      REQUIRE_THAT(sum_Jm2(dni_of), within_rel(3600.0 * hour.dni_Wm2, 1e-12));
      REQUIRE_THAT(sum_Jm2(dhi_of), within_rel(3600.0 * hour.dhi_Wm2, 1e-12));
      ++compared;
    }
    CHECK(compared > 1200);
  }
}

TEST_CASE("placed and unplaced energy of a year sum to the energy of the file", "[sky][identity]") {
  double all_unplaced_Jm2 = 0.0;
  for (const MadeYear& made : kYears) {
    const weather::WeatherYear year = test::make_year(made);
    Totals beam;
    Totals diffuse;
    for (const weather::WeatherHour& hour : year.hours) {
      beam.given_Jm2 += 3600.0 * hour.dni_Wm2;
      diffuse.given_Jm2 += 3600.0 * hour.dhi_Wm2;
    }
    double unplaced_Jm2 = 0.0;
    for (const sky::SkyDay& day : sky::make_sky_year(year)) {
      beam.placed_Jm2 += energy_Jm2(day, 0.0, 86400.0, dni_of) + day.unplaced_beam_Jm2;
      diffuse.placed_Jm2 += energy_Jm2(day, 0.0, 86400.0, dhi_of) + day.unplaced_diffuse_Jm2;
      unplaced_Jm2 += day.unplaced_diffuse_Jm2;
    }
    INFO("latitude " << made.latitude_deg);
    CHECK_THAT(beam.placed_Jm2, within_rel(beam.given_Jm2, 1e-11));
    CHECK_THAT(diffuse.placed_Jm2, within_rel(diffuse.given_Jm2, 1e-11));
    CHECK(unplaced_Jm2 < 0.02 * diffuse.given_Jm2);  // twilight only
    all_unplaced_Jm2 += unplaced_Jm2;
  }
  CHECK(all_unplaced_Jm2 > 0.0);  // light of the polar twilight cannot be placed
}

TEST_CASE("light is never negative, above the extraterrestrial value, or present at night",
          "[sky][identity]") {
  for (const MadeYear& made : kYears) {
    const weather::WeatherYear year = test::make_year(made);
    for (int d = 2; d < 365; d += 9) {
      const sky::SkyDay day = sky::make_sky_day(year, d);
      for (const sky::SkySegment& segment : day.segments) {
        for (const sky::SkyState& s : {day.start(segment), day.end(segment)}) {
          // 1366.1 W/m2 at 0.9833 AU.
          REQUIRE(s.dni_Wm2 >= 0.0);
          REQUIRE(s.dni_Wm2 < 1413.0);
          REQUIRE(s.dhi_Wm2 >= 0.0);
          REQUIRE(s.dhi_Wm2 < 1413.0);
          REQUIRE_THAT(base::norm(s.to_sun), within_abs(1.0, 1e-12));
          // Sunrise is found to 0.01 s; gaps of up to a minute between lit intervals are bridged.
          if (s.zenith_rad > 90.1 * base::kRadPerDeg) REQUIRE(s.dni_Wm2 + s.dhi_Wm2 == 0.0);
          if (s.zenith_rad > 90.1 * base::kRadPerDeg) REQUIRE(s.clear_dni_Wm2 == 0.0);
        }
      }
    }
  }
}

TEST_CASE("states hold the Perez components and the clear sky of their instant",
          "[sky][identity]") {
  const weather::WeatherYear year = test::make_year({});
  const sky::SkyDay day = sky::make_sky_day(year, 140);
  int lit = 0;
  for (const sky::SkySegment& segment : day.segments) {
    const sky::SkyState& s = day.end(segment);
    if (s.dhi_Wm2 <= 0.0 || s.to_sun.z < 0.1) continue;
    ++lit;
    CHECK_THAT(s.ghi_Wm2, within_rel(s.dni_Wm2 * s.to_sun.z + s.dhi_Wm2, 1e-12));
    // Above 5 deg the components sum to the diffuse light on the horizontal.
    CHECK_THAT(s.isotropic_horizontal_Wm2 + s.circumsolar_normal_Wm2 * s.to_sun.z,
               within_rel(s.dhi_Wm2, 1e-12));
    CHECK_THAT(s.clear_isotropic_horizontal_Wm2 + s.clear_circumsolar_normal_Wm2 * s.to_sun.z,
               within_rel(s.clear_dhi_Wm2, 1e-12));
    const double extra_Wm2 = sun::extraterrestrial_normal_Wm2(
        sun::sun_position(base::utc_from_local(day.date, segment.end_s, year.place.utc_offset_s),
                          year.place)
            .distance_au);
    const sky::ClearSky clear =
        sky::clear_sky({s.zenith_rad, extra_Wm2, year.place.elevation_m, day.pressure_Pa, 3.0});
    CHECK_THAT(s.clear_dni_Wm2, within_rel(clear.dni_Wm2, 1e-12));
    const sky::PerezParts parts = sky::perez_parts({s.zenith_rad, s.dni_Wm2, s.dhi_Wm2, extra_Wm2});
    CHECK_THAT(s.horizon_Wm2, within_abs(parts.horizon_Wm2, 1e-9));
  }
  CHECK(lit > 60);
}

TEST_CASE("hourly means of a clear sky reproduce its course within the hour", "[sky][identity]") {
  // With hourly means of a clear sky as input, the course within the hour should be close to that
  // sky.
  weather::WeatherYear year = test::make_year({});
  for (std::size_t h = 0; h < 24; ++h) {
    weather::WeatherHour& hour = test::hour_at(year, 172, h);
    hour.dni_Wm2 = hour.dhi_Wm2 = 0.0;
    for (int i = 0; i < 60; ++i) {
      const sun::SunPosition p = sun::sun_position(
          base::utc_from_local(hour.date, hour.start_s + 60.0 * i + 30.0, -5 * 3600.0), year.place);
      const sky::ClearSky clear = sky::clear_sky(
          {p.zenith_rad, sun::extraterrestrial_normal_Wm2(p.distance_au), 200.0, 101325.0, 3.0});
      hour.dni_Wm2 += clear.dni_Wm2 / 60.0;
      hour.dhi_Wm2 += clear.dhi_Wm2 / 60.0;
    }
  }
  const sky::SkyDay day = sky::make_sky_day(year, 172);
  for (const sky::SkySegment& segment : day.segments) {
    const sky::SkyState& s = day.end(segment);
    if (s.to_sun.z < 0.26) continue;  // 15 deg
    INFO("at " << segment.end_s);
    // The profiles are those of another clear-sky model and, for diffuse light, of an average sky;
    // a clear sky's diffuse light rises more slowly than cos z. With a low sun they differ by some
    // per cent within an hour.
    CHECK_THAT(s.dni_Wm2, within_rel(s.clear_dni_Wm2, 0.06));
    CHECK_THAT(s.dhi_Wm2, within_rel(s.clear_dhi_Wm2, 0.10));
  }
}

TEST_CASE("energy without a sun to carry it is left out and counted", "[sky][unit]") {
  weather::WeatherYear year = test::make_year({});
  for (weather::WeatherHour& hour : year.hours) hour.dni_Wm2 = hour.dhi_Wm2 = hour.ghi_Wm2 = 0.0;
  const int d = 100;
  test::hour_at(year, d, 1).dni_Wm2 = 10.0;  // the sun is down
  test::hour_at(year, d, 1).dhi_Wm2 = 4.0;
  test::hour_at(year, d, 12).dni_Wm2 = 1500.0;  // above the extraterrestrial irradiance
  sky::SkyDay day = sky::make_sky_day(year, d);
  const double placed_Jm2 = energy_Jm2(day, 0.0, 86400.0, dni_of);
  CHECK_THAT(placed_Jm2 + day.unplaced_beam_Jm2, within_rel(3600.0 * 1510.0, 1e-12));
  CHECK(placed_Jm2 < 3600.0 * 1366.1);  // April: beyond 1 AU
  CHECK(placed_Jm2 > 3600.0 * 1340.0);
  CHECK_THAT(day.unplaced_diffuse_Jm2, within_rel(3600.0 * 4.0, 1e-12));
}

TEST_CASE("a sunrise hour with more energy than a low sun allows gets constant light",
          "[sky][unit]") {
  weather::WeatherYear year = test::make_year({});
  for (weather::WeatherHour& hour : year.hours) hour.dni_Wm2 = hour.dhi_Wm2 = 0.0;
  const int d = 100;
  const sun::DayLight light = sky::make_sky_day(year, d).light;
  const auto h = static_cast<std::size_t>(light.sunrise_s / 3600.0);
  const double lit_s = 3600.0 * static_cast<double>(h + 1) - light.sunrise_s;
  REQUIRE(lit_s > 120.0);
  // Mean over the lit part: 1200 W/m2 of beam, 300 of diffuse.
  test::hour_at(year, d, h).dni_Wm2 = 1200.0 * lit_s / 3600.0;
  test::hour_at(year, d, h).dhi_Wm2 = 300.0 * lit_s / 3600.0;
  const sky::SkyDay day = sky::make_sky_day(year, d);
  int flat = 0;
  for (const sky::SkySegment& segment : day.segments) {
    if (day.start(segment).dni_Wm2 == 0.0) continue;
    CHECK(segment.start_s >= light.sunrise_s - 1e-6);
    CHECK_THAT(day.start(segment).dni_Wm2, within_rel(1200.0, 1e-3));  // sunrise snaps within 1 s
    CHECK_THAT(day.end(segment).dni_Wm2, within_rel(1200.0, 1e-3));
    CHECK_THAT(day.end(segment).dhi_Wm2, within_rel(300.0, 1e-3));
    ++flat;
  }
  CHECK(flat >= 1);
  CHECK(day.unplaced_beam_Jm2 == 0.0);
}

TEST_CASE("sunrise and sunset are segment ends", "[sky][unit]") {
  const weather::WeatherYear year = test::make_year({});
  for (int d = 3; d < 365; d += 11) {
    const sky::SkyDay day = sky::make_sky_day(year, d);
    // Finds the first and the last state with clear-sky light. If the sun rises in the last minute
    // of an hour, the light starts with the next hour.
    double first_s = -1.0;
    double last_s = -1.0;
    for (const sky::SkySegment& segment : day.segments) {
      if (day.start(segment).clear_dni_Wm2 > 0.0 && first_s < 0.0) first_s = segment.start_s;
      if (day.end(segment).clear_dni_Wm2 > 0.0) last_s = segment.end_s;
    }
    CHECK_THAT(first_s, within_abs(day.light.sunrise_s, 60.0));
    CHECK_THAT(last_s, within_abs(day.light.sunset_s, 60.0));
  }
}

TEST_CASE("a day does not depend on how it was requested", "[sky][determinism]") {
  const weather::WeatherYear year = test::make_year({69.7, 18.9, 1.0, 1800.0, 2020});
  const std::vector<sky::SkyDay> days = sky::make_sky_year(year);
  std::vector<sky::SkyDay> threaded(365);
  std::vector<std::thread> threads;
  threads.reserve(4);
  for (int t = 0; t < 4; ++t) {
    threads.emplace_back([&, t] {
      for (int d = 364 - t; d >= 0; d -= 4) {
        threaded[static_cast<std::size_t>(d)] = sky::make_sky_day(year, d);
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  int different = 0;
  for (std::size_t d = 0; d < 365; ++d) {
    const auto same_bytes = [](const auto& a, const auto& b) {
      // The states hold 8-byte numbers only, so their bytes can be compared.
      static_assert(sizeof a[0] % sizeof(double) == 0);
      return a.size() == b.size() && std::memcmp(a.data(), b.data(), a.size() * sizeof a[0]) == 0;
    };
    if (!same_bytes(days[d].segments, threaded[d].segments)) ++different;
    if (!same_bytes(days[d].states, threaded[d].states)) ++different;
  }
  CHECK(different == 0);
}
