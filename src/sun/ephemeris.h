// SPDX-License-Identifier: MIT
// The apparent geocentric sun: its direction and distance, and the sidereal time. Private to sun.
#pragma once

#include "ovendays/base/calendar.h"

namespace ovendays::sun {

/// The sun as seen from the centre of the Earth, referred to the equinox of date, with nutation and
/// aberration applied.
struct GeocentricSun {
  // Unit vector towards the sun. Its axes point to the equinox, 90 deg east of it along the
  // equator, and to the celestial north pole.
  double to_equinox = 1.0, to_quarter = 0.0, to_north = 0.0;
  double distance_au = 1.0;
  double sidereal_rad = 0.0;        ///< apparent sidereal time at Greenwich, not reduced to 2 pi
  double mean_ascension_rad = 0.0;  ///< right ascension of the mean sun, not reduced to 2 pi
  /// Equation of time: apparent minus mean solar time [rad], -pi..pi.
  [[nodiscard]] double equation_of_time_rad() const;
};

/// Computes the apparent sun from VSOP87 (Bretagnon and Francou 1988) as tabulated in Meeus,
/// Astronomical Algorithms, 2nd ed., appendix III. Terms below 2e-6 rad in longitude and 3e-6 in
/// distance are dropped, and so is the sun's ecliptic latitude (below 1.2"). Nutation has its four
/// largest terms (Meeus p. 144). Thread-safe: yes.
/// @param time UTC, used as UT1
/// @param delta_t_s TT - UT1 [s]
GeocentricSun geocentric_sun(base::UtcTime time, double delta_t_s);

/// TT - UT1 [s] at a decimal year.
double delta_t_of_year_s(double decimal_year);
}  // namespace ovendays::sun
