// SPDX-License-Identifier: MIT
// Position of the sun and daylight hours. Angles are in radians, azimuths run clockwise from north
// (0..2 pi), world axes are x east, y north, z up. Times are UTC and are used as UT1; the two
// differ by less than 0.9 s, which is 0.004 deg of hour angle. All functions are thread-safe, and
// their results depend on their arguments only.
#pragma once

#include <string>

#include "ovendays/base/calendar.h"
#include "ovendays/base/vec.h"

namespace ovendays::sun {

/// A site on the globe.
struct Place {
  std::string name;
  double latitude_rad = 0.0;   ///< geodetic, north positive, -pi/2..pi/2
  double longitude_rad = 0.0;  ///< east positive, -pi..pi
  double elevation_m = 0.0;    ///< above sea level
  double utc_offset_s = 0.0;   ///< local STANDARD time minus UTC
  bool operator==(const Place&) const = default;
};

/// State of the air that atmospheric refraction depends on.
struct RefractionAir {
  double pressure_Pa = 101325.0;
  double temperature_K = 285.15;
};

/// Zenith angle and distance of the sun.
struct SunZenith {
  double zenith_rad = 0.0;       ///< topocentric, with refraction ("apparent")
  double true_zenith_rad = 0.0;  ///< topocentric, without refraction
  double distance_au = 1.0;      ///< Earth to sun
};

/// Direction of the sun as seen from a site.
struct SunDirection : SunZenith {
  double azimuth_rad = 0.0;  ///< clockwise from north, 0..2 pi
  double azimuth_sine = 0.0, azimuth_cosine = 1.0;

  /// Unit vector towards the apparent sun, in world axes.
  [[nodiscard]] base::Direction direction() const;
  /// Apparent elevation [rad], pi/2 - zenith_rad.
  [[nodiscard]] double elevation_rad() const;
};

/// Direction of the sun with the quantities that sundials and textbooks use.
struct SunPosition : SunDirection {
  double declination_rad = 0.0;     ///< geocentric
  double equation_of_time_s = 0.0;  ///< apparent minus mean solar time
};

/// TT - UT1 [s] in the middle of a month: polynomials of Espenak and Meeus 2006 for 1941..2150, and
/// their long-term parabola outside. An error of 1 s moves the sun by 0.04".
/// @param month 1..12, checked
double delta_t_s(int year, int month);

/// Position of the sun, within 0.001 deg of NREL's SPA over 1990..2040 (measured: 0.0004 deg).
/// Truncated VSOP87 with four nutation terms (Meeus 1998, ch. 22, 25, 28 and app. III), parallax on
/// a spherical Earth, and refraction by Reda and Andreas 2008, eq. 42. Refraction is left out for
/// true elevations below -0.8334 deg, where zenith_rad equals true_zenith_rad.
/// Departures from the SPA: the sun's ecliptic latitude (below 1.2") and, in the parallax, the
/// Earth's flattening (below 0.1") and the site's elevation are neglected.
/// @param air for refraction; a pressure of 0 turns refraction off
SunPosition sun_position(base::UtcTime time, const Place& place, const RefractionAir& air = {});

/// The same with a given TT - UT1.
/// @param delta_t_s [s]
SunPosition sun_position(base::UtcTime time,
                         const Place& place,
                         const RefractionAir& air,
                         double delta_t_s);

/// Parts of sun_position() for inner loops: the results have the same bits and take less time.
SunDirection sun_direction(base::UtcTime time, const Place& place, const RefractionAir& air = {});
SunZenith sun_zenith(base::UtcTime time, const Place& place, const RefractionAir& air = {});

/// Solar constant [W/m2] that belongs to the Perez 1990 clearness bins (Gueymard 2004).
inline constexpr double kSolarConstant_Wm2 = 1366.1;

/// Extraterrestrial irradiance on a plane normal to the beam [W/m2]: the solar constant over the
/// square of the distance.
/// @param distance_au above 0
double extraterrestrial_normal_Wm2(double distance_au,
                                   double solar_constant_Wm2 = kSolarConstant_Wm2);

/// Relative optical air mass [1], not corrected for pressure: Kasten and Young 1989,
/// 1 / (cos z + 0.50572 (96.07995 - z)^-1.6364) with z in degrees.
/// @param zenith_rad apparent zenith angle, 0..pi/2; larger angles give the value at 90 deg, 37.9
double relative_air_mass(double zenith_rad);

/// Daylight of one local date. Sunrise and sunset are the instants at which the apparent centre of
/// the sun's disc crosses the horizon (zenith angle 90 deg), found to 0.01 s.
///
/// A date owns the one transit whose mean sun crosses the meridian during [0 h, 24 h) of its local
/// standard time, together with the daylight around that transit. Where the clock is far from solar
/// time, sunrise may therefore be negative (the evening before) or sunset exceed 86400, and part of
/// a date's daylight may belong to a neighbouring date.
///
/// Polar day: sunrise is 0 h and sunset 24 h. If the sun is up at only one of the two lower
/// transits, then sunrise is 0 h (or that lower transit, if it is earlier) or sunset is 24 h (or
/// that lower transit, if it is later), so that the daylight of neighbouring dates joins up. Polar
/// night: both equal the transit, and `up` is false. Limitation: within about 0.1 deg of a pole the
/// sun may rise and set again between the three instants that are examined.
struct DayLight {
  bool up = false;         ///< the sun is up at some time of the day
  double sunrise_s = 0.0;  ///< [s] local standard time of the date; may be negative
  double sunset_s = 0.0;   ///< [s] local standard time of the date; may exceed 86400
  double transit_s = 0.0;  ///< [s] upper transit, neglecting the change of declination
};

/// Computes the daylight of a date.
/// @param air for refraction
DayLight day_light(const base::Date& date, const Place& place, const RefractionAir& air = {});
}  // namespace ovendays::sun
