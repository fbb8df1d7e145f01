// SPDX-License-Identifier: MIT
// Sunrise, transit and sunset in local standard time.
#include <cmath>
#include <vector>

#include "catch.h"
#include "csv_rows.h"
#include "ovendays/base/constants.h"
#include "ovendays/sun/sun.h"

using namespace ovendays;
using base::kDegPerRad;
using base::kRadPerDeg;
using test::within_abs;

namespace {
sun::Place place_at(double latitude_deg, double longitude_deg, double utc_offset_h) {
  return {"", latitude_deg * kRadPerDeg, longitude_deg * kRadPerDeg, 0.0, utc_offset_h * 3600.0};
}
double zenith_deg(const base::Date& date, double local_s, const sun::Place& place) {
  return kDegPerRad *
         sun::sun_position(base::utc_from_local(date, local_s, place.utc_offset_s), place)
             .zenith_rad;
}

// True if the daylight of the date or of a neighbouring date covers a local instant.
bool lit(const base::Date& date, double local_s, const sun::Place& place) {
  for (int offset = -1; offset <= 1; ++offset) {
    const base::Date near = base::date_from_days(base::days_from_date(date) + offset);
    const sun::DayLight light = sun::day_light(near, place);
    const double t_s = local_s - 86400.0 * offset;
    if (light.up && t_s > light.sunrise_s && t_s < light.sunset_s) return true;
  }
  return false;
}
}  // namespace

TEST_CASE("the centre of the apparent sun is on the horizon at sunrise and sunset",
          "[sun][identity]") {
  for (double latitude_deg : {-54.0, -20.0, 0.0, 36.0, 60.0, 65.5}) {
    for (int month = 1; month <= 12; ++month) {
      const base::Date date{2009, month, 9};
      const sun::Place place = place_at(latitude_deg, 20.0, 1.0);
      const sun::DayLight light = sun::day_light(date, place);
      INFO("latitude " << latitude_deg << " month " << month);
      REQUIRE(light.up);
      // 0.01 s of time is 4e-5 deg of the sun's path at most.
      CHECK_THAT(zenith_deg(date, light.sunrise_s, place), within_abs(90.0, 1e-4));
      CHECK_THAT(zenith_deg(date, light.sunset_s, place), within_abs(90.0, 1e-4));
      CHECK(light.sunrise_s < light.transit_s);
      CHECK(light.transit_s < light.sunset_s);
    }
  }
}

TEST_CASE("transit agrees with the SPA table", "[sun][reference]") {
  int compared = 0;
  for (const test::CsvRow& row :
       test::read_rows(std::string(OVENDAYS_TEST_DATA) + "/solar_position.csv")) {
    if (row.text("case") != "transit") continue;
    const double longitude_deg = row.number("longitude_deg");
    const double offset_h =
        std::round(longitude_deg / 15.0);  // puts noon in the middle of the date
    const sun::Place place = place_at(row.number("latitude_deg"), longitude_deg, offset_h);
    const double local_s = row.time("time_utc").unix_s + place.utc_offset_s;
    const long day = static_cast<long>(std::floor(local_s / 86400.0));
    const double at_s = local_s - 86400.0 * static_cast<double>(day);
    const double transit_s = sun::day_light(base::date_from_days(day), place).transit_s;
    INFO(row.text("time_utc") << " " << row.number("latitude_deg"));
    // Transits in the table are interpolated by the SPA itself and rounded to whole seconds.
    CHECK_THAT(transit_s, within_abs(at_s, 2.0));
    ++compared;
  }
  CHECK(compared == 66);
}

TEST_CASE("the equinox day lasts twelve hours plus the time that refraction adds", "[sun][unit]") {
  const sun::Place place = place_at(0.0, 0.0, 0.0);
  const sun::DayLight light = sun::day_light({2010, 3, 20}, place);
  // On the equator the sun climbs 15 deg an hour. Refraction lifts a centre that appears on the
  // horizon by 0.571 deg (eq. 42 of the SPA report at 1013 hPa, 12 degC): 137 s at either end. In
  // half a day the equation of time gains 9 s, and parallax takes 0.6 s at either end.
  const sun::DayLight vacuum = sun::day_light({2010, 3, 20}, place, {0.0, 285.15});
  CHECK_THAT(vacuum.sunset_s - vacuum.sunrise_s, within_abs(43200.0 - 10.2, 1.0));
  CHECK_THAT(light.sunset_s - light.sunrise_s, within_abs(43200.0 - 10.2 + 274.0, 2.0));
}

TEST_CASE("polar day and polar night", "[sun][unit]") {
  const sun::Place place = place_at(78.2, 15.6, 1.0);
  const sun::DayLight summer = sun::day_light({2013, 6, 21}, place);
  CHECK(summer.up);
  CHECK(summer.sunrise_s == 0.0);
  CHECK(summer.sunset_s == 86400.0);
  const sun::DayLight winter = sun::day_light({2013, 12, 21}, place);
  CHECK_FALSE(winter.up);
  CHECK(winter.sunrise_s == winter.transit_s);
  CHECK(winter.sunset_s == winter.transit_s);
  CHECK_THAT(winter.transit_s, within_abs(43200.0, 600.0));
  // In the Antarctic it is the other way round.
  CHECK_FALSE(sun::day_light({2013, 6, 21}, place_at(-78.2, 15.6, 1.0)).up);
  CHECK(sun::day_light({2013, 12, 21}, place_at(-78.2, 15.6, 1.0)).sunset_s == 86400.0);
}

TEST_CASE("the daylight of neighbouring dates covers exactly the times when the sun is up",
          "[sun][identity]") {
  struct Case {
    double latitude_deg, longitude_deg, utc_offset_h;
  };
  // An ordinary place, a clock 12 h off, a transit close to midnight, and high latitudes around the
  // change from polar night to polar day, with a correct and with a wrong clock.
  for (const Case& c : {Case{40.0, -105.0, -7.0},
                        Case{40.0, -105.0, 5.0},
                        Case{-30.0, 179.9, -12.0},
                        Case{67.5, 25.0, 2.0},
                        Case{78.2, 15.6, 1.0},
                        Case{78.2, 15.6, -6.0},
                        Case{88.0, 100.0, 0.0}}) {
    const sun::Place place = place_at(c.latitude_deg, c.longitude_deg, c.utc_offset_h);
    const long first = base::days_from_date({2014, 1, 1});
    int wrong = 0;
    for (long day = first; day < first + 365; day += 3) {
      const base::Date date = base::date_from_days(day);
      for (int i = 0; i < 16; ++i) {
        const double t_s = 450.0 + 5400.0 * i;
        const double z_deg = zenith_deg(date, t_s, place);
        if (std::abs(z_deg - 90.0) < 0.02) continue;  // DayLight neglects the drift of declination
        if ((z_deg < 90.0) != lit(date, t_s, place)) ++wrong;
      }
    }
    INFO("latitude " << c.latitude_deg << " offset " << c.utc_offset_h);
    CHECK(wrong == 0);
  }
}

TEST_CASE("sunset may fall after midnight where the clock is far from solar time", "[sun][unit]") {
  // A clock six hours fast at 105 W: transit at 18 h, so the sun sets after 24 h.
  const sun::DayLight fast = sun::day_light({2014, 6, 21}, place_at(40.0, -105.0, -1.0));
  CHECK(fast.sunset_s > 86400.0);
  CHECK(fast.sunrise_s > 0.0);
  const sun::DayLight slow = sun::day_light({2014, 6, 21}, place_at(40.0, -105.0, -13.0));
  CHECK(slow.sunrise_s < 0.0);
  CHECK_THAT(slow.transit_s, within_abs(fast.transit_s - 12 * 3600.0, 10.0));
}
