// SPDX-License-Identifier: MIT
// The apparent geocentric sun: direction, distance, and the sidereal time.
#pragma once

#include "ovendays/base/calendar.h"

namespace ovendays::sun {

/// The sun as the Earth's centre sees it, of date (nutation and aberration applied).
struct GeocentricSun {
  // Unit vector: towards the equinox, a quarter turn on along the equator, and north.
  double to_equinox = 1.0, to_quarter = 0.0, to_north = 0.0;
  double distance_au = 1.0;
  double sidereal_rad = 0.0;        ///< apparent sidereal time at Greenwich, not reduced
  double mean_ascension_rad = 0.0;  ///< of the mean sun, with nutation, not reduced
  /// Apparent minus mean solar time, -pi..pi.
  [[nodiscard]] double equation_of_time_rad() const;
};

/// VSOP87 (Bretagnon and Francou 1988) as tabulated in Meeus, Astronomical Algorithms, 2nd ed.,
/// appendix III, cut at 2e-6 rad in longitude and 3e-6 in distance; the sun's ecliptic latitude
/// (under 1.2") is left out. Nutation: the four largest terms (Meeus p. 144).
/// @param time UTC taken as UT1 @param delta_t_s TT - UT1 [s]
GeocentricSun geocentric_sun(base::UtcTime time, double delta_t_s);

/// TT - UT1 [s] at a decimal year.
double delta_t_of_year_s(double decimal_year);
}  // namespace ovendays::sun
