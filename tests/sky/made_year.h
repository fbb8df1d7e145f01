// SPDX-License-Identifier: MIT
// Synthetic weather years for tests. Their light is deliberately irregular, so that what holds for
// them holds for any file.
#pragma once

#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"
#include "ovendays/base/random.h"
#include "ovendays/sky/sky_year.h"

namespace ovendays::test {

struct MadeYear {
  double latitude_deg = 36.1;
  double longitude_deg = -79.95;
  double utc_offset_h = -5.0;
  double shift_s = 0.0;  ///< offset of the intervals from the full hour
  int year = 2003;
};

inline weather::WeatherYear make_year(const MadeYear& made) {
  weather::WeatherYear year;
  year.place = {"made",
                made.latitude_deg * base::kRadPerDeg,
                made.longitude_deg * base::kRadPerDeg,
                200.0,
                made.utc_offset_h * 3600.0};
  base::KeyedRandom random(7, 11);
  for (int i = 0; i < 8760; ++i) {
    weather::WeatherHour hour;
    const base::Date nominal = base::date_from_day_index_365(i / 24, made.year);
    const double start_s = 3600.0 * (i % 24) + made.shift_s;
    const double days = std::floor(start_s / 86400.0);
    hour.date = base::date_from_days(base::days_from_date(nominal) + static_cast<long>(days));
    hour.start_s = start_s - 86400.0 * days;
    const sun::SunPosition p = sun::sun_position(
        base::utc_from_local(nominal, start_s + 1800.0, year.place.utc_offset_s), year.place);
    const double elevation_deg = p.elevation_rad() * base::kDegPerRad;
    const double height = std::max(0.0, std::sin(p.elevation_rad()));
    if (elevation_deg > -6.0) {
      hour.dhi_Wm2 = 2.0 + 250.0 * height * random.uniform();
      hour.dni_Wm2 = elevation_deg > -3.0 && random.uniform() > 0.3
                         ? 700.0 * std::sqrt(height) * random.uniform() + 1.0
                         : 0.0;
      hour.ghi_Wm2 = hour.dhi_Wm2 + hour.dni_Wm2 * height;
    }
    hour.dry_bulb_K = 283.0 + 10.0 * random.uniform();
    hour.dew_point_K = 275.0 + 5.0 * random.uniform();
    hour.wind_ms = 6.0 * random.uniform();
    year.hours.push_back(hour);
  }
  return year;
}

inline weather::WeatherHour& hour_at(weather::WeatherYear& year,
                                     std::size_t day,
                                     std::size_t hour) {
  return year.hours[day * 24 + hour];
}

/// Energy of one kind of light over part of a day [J/m2], by the trapezoidal rule over segments.
template <typename Light>
double energy_Jm2(const sky::SkyDay& day, double from_s, double to_s, Light light) {
  double sum_Jm2 = 0.0;
  for (const sky::SkySegment& segment : day.segments) {
    if (segment.start_s < from_s || segment.end_s > to_s) continue;
    sum_Jm2 += 0.5 * (segment.end_s - segment.start_s) *
               (light(day.start(segment)) + light(day.end(segment)));
  }
  return sum_Jm2;
}
inline double dni_of(const sky::SkyState& state) { return state.dni_Wm2; }
inline double dhi_of(const sky::SkyState& state) { return state.dhi_Wm2; }
}  // namespace ovendays::test
