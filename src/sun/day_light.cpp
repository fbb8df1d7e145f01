// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"
#include "ovendays/sun/sun.h"

namespace ovendays::sun {
namespace {
using base::kPi;
using base::kSecondsPerDay;
constexpr double kHalfDay_s = kSecondsPerDay / 2.0;
constexpr double kTimeTolerance_s = 0.01;

// The sun's apparent elevation over one local day.
struct DaySun {
  const base::Date& date;
  const Place& place;
  const RefractionAir& air;

  [[nodiscard]] SunPosition at(double local_s) const {
    return sun_position(base::utc_from_local(date, local_s, place.utc_offset_s), place, air);
  }
  [[nodiscard]] double height(double local_s) const { return std::cos(at(local_s).zenith_rad); }
};

// Upper transit. The mean sun crosses the meridian exactly once in [0, 86400) of each date; the
// equation of time is added after that, so that no date has two transits or none.
double transit_of(const DaySun& sun) {
  const double mean_noon_s =
      kHalfDay_s - sun.place.longitude_rad / base::kTwoPi * kSecondsPerDay + sun.place.utc_offset_s;
  const double wrapped_s = mean_noon_s - kSecondsPerDay * std::floor(mean_noon_s / kSecondsPerDay);
  const double first_s = wrapped_s - sun.at(wrapped_s).equation_of_time_s;
  return wrapped_s - sun.at(first_s).equation_of_time_s;
}

// Where the height changes sign between two instants: regula falsi with the Illinois rule, which
// keeps the bracket and so cannot run away.
double crossing(const DaySun& sun, double a_s, double b_s) {
  double height_a = sun.height(a_s);
  double height_b = sun.height(b_s);
  for (int i = 0; i < 60 && std::abs(b_s - a_s) > kTimeTolerance_s; ++i) {
    const double middle_s = b_s - height_b * (b_s - a_s) / (height_b - height_a);
    const double height = sun.height(middle_s);
    if (height == 0.0) return middle_s;
    const double moved_s = std::abs(middle_s - b_s);
    if ((height > 0.0) != (height_b > 0.0)) {
      a_s = b_s;
      height_a = height_b;
    } else {
      height_a *= 0.5;
    }
    b_s = middle_s;
    height_b = height;
    if (moved_s < 0.1 * kTimeTolerance_s) break;
  }
  return b_s;
}
}  // namespace

DayLight day_light(const base::Date& date, const Place& place, const RefractionAir& air) {
  const DaySun sun{date, place, air};
  DayLight light;
  light.transit_s = transit_of(sun);
  const double before_s = light.transit_s - kHalfDay_s;
  const double after_s = light.transit_s + kHalfDay_s;
  const bool up_before = sun.height(before_s) > 0.0;
  const bool up_transit = sun.height(light.transit_s) > 0.0;
  const bool up_after = sun.height(after_s) > 0.0;

  light.up = up_before || up_transit || up_after;
  light.sunrise_s = light.sunset_s = light.transit_s;
  if (!light.up) return light;
  if (up_before && up_transit && up_after) {
    light.sunrise_s = 0.0;
    light.sunset_s = kSecondsPerDay;
    return light;
  }
  // A sun that does not set before (after) this day's light joins it to the neighbouring day's.
  const double joined_rise_s = std::min(0.0, before_s);
  const double joined_set_s = std::max(kSecondsPerDay, after_s);
  if (up_transit) {
    light.sunrise_s = up_before ? joined_rise_s : crossing(sun, before_s, light.transit_s);
    light.sunset_s = up_after ? joined_set_s : crossing(sun, light.transit_s, after_s);
  } else if (up_before) {  // close to a pole, the autumn sun sinks through the day
    light.sunrise_s = joined_rise_s;
    light.sunset_s = crossing(sun, before_s, light.transit_s);
  } else {  // close to a pole, spring
    light.sunrise_s = crossing(sun, light.transit_s, after_s);
    light.sunset_s = joined_set_s;
  }
  return light;
}
}  // namespace ovendays::sun
