// SPDX-License-Identifier: MIT
// The basic facts about one local day of a weather year: its date, its mean air, and when the sun
// is up. Times of a frame are seconds of local standard time since the date's midnight; they may be
// negative or exceed 86400. Private to sky.
#pragma once

#include <vector>

#include "ovendays/base/calendar.h"
#include "ovendays/sun/sun.h"
#include "ovendays/weather/weather_year.h"

namespace ovendays::sky {

inline constexpr long kDaysPerYear = 365;
inline constexpr long kHoursPerYear = 8760;

/// The hour at an index that may lie beyond the ends of the year, which wraps around.
const weather::WeatherHour& wrapped_hour(const weather::WeatherYear& year, long hour);

/// Offset of the intervals' starts from the full hour [s], the same for the whole year. Negative if
/// the first interval starts on 31 December.
double interval_shift_s(const weather::WeatherYear& year);

/// A time span during which the sun is up.
struct LitInterval {
  double from_s;
  double to_s;
};

/// One local day.
struct DayFrame {
  base::Date date;         ///< with the calendar year of the noon record
  sun::RefractionAir air;  ///< daily means
  sun::DayLight light;
  /// The daylight of this and the neighbouring dates, in order. Intervals less than a minute apart
  /// are merged.
  std::vector<LitInterval> lit;

  /// Direction of the sun at a time of this frame.
  [[nodiscard]] sun::SunDirection sun_at(double t_s, const sun::Place& place) const;
};

/// Computes the frame of a day.
/// @param day index of the day; may lie beyond the ends of the year
DayFrame make_day_frame(const weather::WeatherYear& year, long day);
}  // namespace ovendays::sky
