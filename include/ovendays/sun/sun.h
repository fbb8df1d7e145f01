// SPDX-License-Identifier: MIT
// Where the sun stands. Angles in radians; azimuth clockwise from north (0..2 pi); times UTC, taken
// as UT1 (they differ by under 0.9 s, 0.004 deg of hour angle).
#pragma once

#include <string>

#include "ovendays/base/calendar.h"
#include "ovendays/base/vec.h"

namespace ovendays::sun {

/// A site on the globe.
struct Place {
  std::string name;
  double latitude_rad = 0.0;   ///< north positive, -pi/2..pi/2
  double longitude_rad = 0.0;  ///< east positive, -pi..pi
  double elevation_m = 0.0;
  double utc_offset_s = 0.0;  ///< local STANDARD time minus UTC
};

/// The air's share in refraction.
struct RefractionAir {
  double pressure_Pa = 101325.0;
  double temperature_K = 285.15;
};

struct SunPosition {
  double zenith_rad = 0.0;          ///< topocentric, with refraction ("apparent")
  double true_zenith_rad = 0.0;     ///< topocentric, without refraction
  double azimuth_rad = 0.0;         ///< clockwise from north
  double declination_rad = 0.0;     ///< geocentric
  double equation_of_time_s = 0.0;  ///< apparent minus mean solar time
  double distance_au = 1.0;

  /// Unit vector towards the apparent sun, x east, y north, z up.
  [[nodiscard]] base::Direction direction() const;
  [[nodiscard]] double elevation_rad() const;
};

/// TT - UT1 [s] by year and month (Espenak and Meeus 2006 polynomials), 1986..2050.
double delta_t_s(int year, int month);

/// Position of the sun, within 0.01 deg of NREL's SPA over 1990..2040 (in fact within about 0.001
/// deg). Thread-safe: yes.
SunPosition sun_position(base::UtcTime time, const Place& place, const RefractionAir& air = {});

/// The same with TT - UT1 stated.
SunPosition sun_position(base::UtcTime time,
                         const Place& place,
                         const RefractionAir& air,
                         double delta_t_s);

/// Solar constant [W/m2] used with the Perez 1990 clearness bins (Gueymard 2004).
inline constexpr double kSolarConstant_Wm2 = 1366.1;

/// Extraterrestrial irradiance on a plane normal to the beam [W/m2], 1/R^2. @param distance_au > 0
double extraterrestrial_normal_Wm2(double distance_au,
                                   double solar_constant_Wm2 = kSolarConstant_Wm2);

/// Relative optical air mass, Kasten and Young 1989. @param zenith_rad apparent, 0..pi/2; beyond,
/// the value at 90 deg is returned.
double relative_air_mass(double zenith_rad);

/// Sunrise and sunset of a day as the instants when the apparent centre of the disc crosses the
/// horizon (zenith 90 deg). Polar day: rise 0 h and set 24 h; polar night: both at noon and up =
/// false.
struct DayLight {
  bool up = false;         ///< the sun is up at some time of the day
  double sunrise_s = 0.0;  ///< [s] local standard time of the day
  double sunset_s =
      0.0;  ///< [s]; may be above 86400 or rise below 0 where the clock is far from the sun
  double transit_s = 0.0;
};
DayLight day_light(const base::Date& date, const Place& place, const RefractionAir& air = {});
}  // namespace ovendays::sun
