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

// The sun over one local date, as a function of local standard time.
struct DaySun {
  const base::Date& date;
  const Place& place;
  const RefractionAir& air;

  [[nodiscard]] base::UtcTime utc(double local_s) const {
    return base::utc_from_local(date, local_s, place.utc_offset_s);
  }
  [[nodiscard]] double equation_of_time_s(double local_s) const {
    return sun_position(utc(local_s), place, air).equation_of_time_s;
  }
  /// Sine of the apparent elevation.
  [[nodiscard]] double height(double local_s) const {
    return std::cos(sun_zenith(utc(local_s), place, air).zenith_rad);
  }
};

struct Instant {
  double local_s;
  double height;
};

// Time of the upper transit. The mean sun crosses the meridian exactly once during [0, 86400) of
// each date. The equation of time is applied only afterwards, so that no date has two transits or
// none.
double transit_of(const DaySun& sun) {
  const double mean_noon_s =
      kHalfDay_s - sun.place.longitude_rad / base::kTwoPi * kSecondsPerDay + sun.place.utc_offset_s;
  const double wrapped_s = mean_noon_s - kSecondsPerDay * std::floor(mean_noon_s / kSecondsPerDay);
  const double first_s = wrapped_s - sun.equation_of_time_s(wrapped_s);
  return wrapped_s - sun.equation_of_time_s(first_s);
}

// The instant between a and b at which the height changes sign. Regula falsi with the Illinois rule
// converges fast and never leaves the bracket.
double crossing(const DaySun& sun, const Instant& a, const Instant& b) {
  double a_s = a.local_s;
  double b_s = b.local_s;
  double height_a = a.height;
  double height_b = b.height;
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
  const Instant before{before_s, sun.height(before_s)};
  const Instant transit{light.transit_s, sun.height(light.transit_s)};
  const Instant after{after_s, sun.height(after_s)};
  const bool up_before = before.height > 0.0;
  const bool up_transit = transit.height > 0.0;
  const bool up_after = after.height > 0.0;

  light.up = up_before || up_transit || up_after;
  light.sunrise_s = light.sunset_s = light.transit_s;
  if (!light.up) return light;
  if (up_before && up_transit && up_after) {
    light.sunrise_s = 0.0;
    light.sunset_s = kSecondsPerDay;
    return light;
  }
  // If the sun is up at a lower transit, the daylight joins that of the neighbouring date.
  const double joined_rise_s = std::min(0.0, before_s);
  const double joined_set_s = std::max(kSecondsPerDay, after_s);
  if (up_transit) {
    light.sunrise_s = up_before ? joined_rise_s : crossing(sun, before, transit);
    light.sunset_s = up_after ? joined_set_s : crossing(sun, transit, after);
  } else if (up_before) {  // close to a pole in autumn, where the sun sinks all day
    light.sunrise_s = joined_rise_s;
    light.sunset_s = crossing(sun, before, transit);
  } else {  // close to a pole in spring
    light.sunrise_s = crossing(sun, transit, after);
    light.sunset_s = joined_set_s;
  }
  return light;
}
}  // namespace ovendays::sun
