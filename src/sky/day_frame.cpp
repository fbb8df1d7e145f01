// SPDX-License-Identifier: MIT
#include "day_frame.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::sky {
namespace {
using base::kSecondsPerDay;
constexpr double kShortestGap_s = 60.0;

// The daylight of neighbouring dates matters only if there is light near midnight. Close to the
// poles, daylight may change by hours from one date to the next, so there it is always examined.
bool neighbours_matter(const sun::DayLight& light, const sun::Place& place) {
  constexpr double kMargin_s = 3.0 * 3600.0;
  constexpr double kHighLatitude_rad = 65.0 * base::kRadPerDeg;
  return std::abs(place.latitude_rad) > kHighLatitude_rad || light.sunrise_s < kMargin_s ||
         light.sunset_s > kSecondsPerDay - kMargin_s;
}

void add_lit_interval(std::vector<LitInterval>& lit, const sun::DayLight& light, double offset_s) {
  if (!light.up) return;
  const LitInterval next{light.sunrise_s + offset_s, light.sunset_s + offset_s};
  if (!lit.empty() && next.from_s < lit.back().to_s + kShortestGap_s) {
    lit.back().to_s = std::max(lit.back().to_s, next.to_s);
  } else {
    lit.push_back(next);
  }
}
}  // namespace

const weather::WeatherHour& wrapped_hour(const weather::WeatherYear& year, long hour) {
  const long wrapped = ((hour % kHoursPerYear) + kHoursPerYear) % kHoursPerYear;
  return year.hours[static_cast<std::size_t>(wrapped)];
}

double interval_shift_s(const weather::WeatherYear& year) {
  OVENDAYS_CHECK(year.hours.size() == static_cast<std::size_t>(kHoursPerYear));
  const double start_s = year.hours.front().start_s;
  return start_s > 0.5 * kSecondsPerDay ? start_s - kSecondsPerDay : start_s;
}

sun::SunDirection DayFrame::sun_at(double t_s, const sun::Place& place) const {
  return sun::sun_direction(base::utc_from_local(date, t_s, place.utc_offset_s), place, air);
}

DayFrame make_day_frame(const weather::WeatherYear& year, long day) {
  const long wrapped = ((day % kDaysPerYear) + kDaysPerYear) % kDaysPerYear;
  DayFrame frame;
  frame.date = base::date_from_day_index_365(static_cast<int>(wrapped),
                                             wrapped_hour(year, 24 * day + 12).date.year);
  frame.air = {0.0, 0.0};
  for (long hour = 24 * day; hour < 24 * day + 24; ++hour) {
    frame.air.pressure_Pa += wrapped_hour(year, hour).pressure_Pa / 24.0;
    frame.air.temperature_K += wrapped_hour(year, hour).dry_bulb_K / 24.0;
  }
  frame.light = sun::day_light(frame.date, year.place, frame.air);
  if (!neighbours_matter(frame.light, year.place)) {
    add_lit_interval(frame.lit, frame.light, 0.0);
    return frame;
  }
  for (int offset = -1; offset <= 1; ++offset) {
    const base::Date date = base::date_from_days(base::days_from_date(frame.date) + offset);
    const sun::DayLight light =
        offset == 0 ? frame.light : sun::day_light(date, year.place, frame.air);
    add_lit_interval(frame.lit, light, offset * kSecondsPerDay);
  }
  return frame;
}
}  // namespace ovendays::sky
