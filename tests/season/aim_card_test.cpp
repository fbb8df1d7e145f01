// SPDX-License-Identifier: MIT
// The aiming card's sun, shadows and spells against the sun's positions by NREL's SPA and against
// an obstruction whose edge is known.
#include "ovendays/season/aim_card.h"

#include <cmath>

#include "../sun/csv_rows.h"
#include "catch.h"
#include "degrees.h"
#include "made_case.h"

using namespace ovendays;
using namespace ovendays::test;

namespace {
/// A year at a place whose records bear one calendar year, so that its sun is that year's.
weather::WeatherYear year_at(const sun::Place& place, int calendar_year) {
  weather::WeatherYear year;
  year.place = place;
  for (int h = 0; h < 8760; ++h) {
    weather::WeatherHour hour;
    hour.date = base::date_from_day_index_365(h / 24, calendar_year);
    hour.start_s = 3600.0 * (h % 24);
    year.hours.push_back(hour);
  }
  return year;
}

/// Local date and time of an instant [s of the day].
struct Local {
  base::Date date;
  double time_s;
};
Local local_of(base::UtcTime time, double utc_offset_s) {
  const double local_s = time.unix_s + utc_offset_s;
  const double day = std::floor(local_s / 86400.0);
  return {base::date_from_days(static_cast<long>(day)), local_s - day * 86400.0};
}
}  // namespace

// Source: NREL SPA (Reda and Andreas, TP-560-34302) by pvlib, tests/data/sun/solar_position.csv.
TEST_CASE("turning times show the reference sun and its shadow", "[season][reference]") {
  int seen = 0;
  for (const CsvRow& row :
       read_rows(std::string(OVENDAYS_SOURCE_DIR) + "/tests/data/sun/solar_position.csv")) {
    const double elevation_deg = 90.0 - row.number("apparent_zenith_deg");
    if (elevation_deg < 10.0 || elevation_deg > 85.0 || ++seen % 6 != 0) continue;
    const sun::Place place{.name = "reference",
                           .latitude_rad = row.number("latitude_deg") * kDeg,
                           .longitude_rad = row.number("longitude_deg") * kDeg,
                           .elevation_m = 0.0,
                           .utc_offset_s = 3600.0 * std::round(row.number("longitude_deg") / 15.0)};
    const Local local = local_of(row.time("time_utc"), place.utc_offset_s);
    if (local.date.month == 2 && local.date.day == 29) continue;  // a typical year has none
    season::Case c = small_case({"rice"});
    c.routine.set_out_s = local.time_s;
    c.routine.home_from_s = 0.0;
    c.routine.re_aim = task::ReAim::kAtTimes;
    c.routine.re_aim_s = {local.time_s, 86000.0};
    const season::AimCard card = season::make_aim_card(
        c, year_at(place, local.date.year), base::day_index_365(local.date.month, local.date.day));
    INFO("row " << row.text("row"));
    REQUIRE(!card.rows.empty());
    const season::AimRow& first = card.rows.front();
    CHECK(first.time_s == local.time_s);
    // 0.01 deg from the position, 0.02 for the day's mean refraction and 5-minute chords.
    CHECK_THAT(first.sun_elevation_rad / kDeg, within_abs(elevation_deg, 0.03));
    const double turn_rad =
        std::remainder(first.sun_azimuth_rad - row.number("azimuth_deg") * kDeg, base::kTwoPi);
    // Azimuth runs fast when the sun is high; on the sky it is off by sin z times as much.
    CHECK_THAT(turn_rad / kDeg * std::sin(row.number("apparent_zenith_deg") * kDeg),
               within_abs(0.0, 0.03));
    REQUIRE(first.shadow);
    // d(1/tan e) = de / sin^2 e.
    const double e = elevation_deg * kDeg;
    CHECK_THAT(*first.shadow,
               within_abs(1.0 / std::tan(e), 0.03 * kDeg / (std::sin(e) * std::sin(e))));
  }
  CHECK(seen > 100);  // every sixth of them was looked at
}

TEST_CASE("a row holds the aim that the season uses", "[season][identity]") {
  const weather::WeatherYear year = made_weather();
  const season::Case c = small_case({"rice"});
  const season::AimCard card = season::make_aim_card(c, year, 100);
  const auto aims = task::day_aims(c.routine, c.oven, sky::make_sky_day(year, 100, c.sky));
  REQUIRE(card.rows.size() == aims.size());
  for (std::size_t i = 0; i < aims.size(); ++i) {
    CHECK(card.rows[i].aim.azimuth_rad == aims[i].azimuth_rad);
    CHECK(card.rows[i].aim.notch == aims[i].notch);
  }
  CHECK(card.rows.front().time_s == c.routine.set_out_s);
}

TEST_CASE("the sun comes to the spot when it clears a wall", "[season][identity]") {
  season::Case c = small_case({"rice"});
  // Two walls without end, west of the oven up to 45 deg and east up to 30 deg, seen from the
  // middle of the mouth; on the equinox at the equator the sun rises by 15 deg an hour.
  c.spot.mouth = {0.0, 0.0, 1.0};
  c.spot.obstructions.emplace_back(spot::Wall{.name = "east",
                                              .x1_m = 50,
                                              .y1_m = -900,
                                              .x2_m = 50,
                                              .y2_m = 900,
                                              .top_m = 1.0 + 50.0 * std::tan(30.0 * kDeg),
                                              .reflectance = 0.3});
  c.spot.obstructions.emplace_back(spot::Wall{.name = "west",
                                              .x1_m = -50,
                                              .y1_m = -900,
                                              .x2_m = -50,
                                              .y2_m = 900,
                                              .top_m = 51.0,
                                              .reflectance = 0.3});
  const season::AimCard card = season::make_aim_card(
      c, made_weather({.latitude_deg = 0.0, .change = {}}), base::day_index_365(3, 20));
  REQUIRE(card.spells.size() == 1);
  // Noon by the clock is off by the equation of time, 7.5 min on 20 March (almanac): transit_s
  // tells it. A minute's grid, and 1 min for refraction and declination.
  const double noon_s = card.light.transit_s;
  CHECK_THAT(card.spells[0].from_s, within_abs(noon_s - 4.0 * 3600.0, 120.0));
  CHECK_THAT(card.spells[0].to_s, within_abs(noon_s + 3.0 * 3600.0, 120.0));
}

TEST_CASE("an east declination is taken off the true bearing", "[season][unit]") {
  // Rule of every chart: magnetic = true - declination, east positive.
  CHECK_THAT(season::magnetic_bearing_rad(100 * kDeg, 9 * kDeg) / kDeg, within_abs(91.0, 1e-9));
  CHECK_THAT(season::magnetic_bearing_rad(5 * kDeg, 9 * kDeg) / kDeg, within_abs(356.0, 1e-9));
  CHECK_THAT(season::magnetic_bearing_rad(355 * kDeg, -9 * kDeg) / kDeg, within_abs(4.0, 1e-9));
}

TEST_CASE("a polar night has a card without rows", "[season][unit]") {
  const season::AimCard card = season::make_aim_card(
      small_case({"rice"}), made_weather({.latitude_deg = 80.0, .change = {}}), 354);
  CHECK(card.rows.empty());
  CHECK(card.spells.empty());
}
