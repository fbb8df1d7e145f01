// SPDX-License-Identifier: MIT
// Where the sun stands. Angles in radians; azimuth clockwise from north (0..2 pi); times UTC, taken
// as UT1 (they differ by under 0.9 s, 0.004 deg of hour angle). World axes x east, y north, z up.
// Everything here is thread-safe, and depends on what is asked alone.
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
  double elevation_m = 0.0;    ///< above the sea
  double utc_offset_s = 0.0;   ///< local STANDARD time minus UTC
  bool operator==(const Place&) const = default;
};

/// The air's share in refraction.
struct RefractionAir {
  double pressure_Pa = 101325.0;
  double temperature_K = 285.15;
};

/// How high the sun stands and how far away it is.
struct SunZenith {
  double zenith_rad = 0.0;       ///< topocentric, with refraction ("apparent")
  double true_zenith_rad = 0.0;  ///< topocentric, without refraction
  double distance_au = 1.0;      ///< Earth to sun
};

/// Where it stands.
struct SunPlace : SunZenith {
  double azimuth_rad = 0.0;  ///< clockwise from north, 0..2 pi
  double azimuth_sine = 0.0, azimuth_cosine = 1.0;

  /// Unit vector towards the apparent sun, x east, y north, z up.
  [[nodiscard]] base::Direction direction() const;
  /// Apparent elevation [rad], pi/2 - zenith_rad.
  [[nodiscard]] double elevation_rad() const;
};

struct SunPosition : SunPlace {
  double declination_rad = 0.0;     ///< geocentric
  double equation_of_time_s = 0.0;  ///< apparent minus mean solar time
};

/// TT - UT1 [s] by year and month: Espenak and Meeus 2006 polynomials for 1941..2150, their
/// long-term parabola outside. An error of 1 s moves the sun by 0.04".
/// @param month 1..12
double delta_t_s(int year, int month);

/// Position of the sun, within 0.001 deg of NREL's SPA over 1990..2040 (measured: 0.0004 deg).
/// Truncated VSOP87 and four nutation terms (Meeus 1998, ch. 22, 25, 28, app. III); parallax on a
/// sphere; refraction after Reda and Andreas 2008 eq. 42, switched off where the true elevation is
/// below -0.8334 deg (there zenith_rad equals true_zenith_rad).
/// Departures from the SPA: ecliptic latitude (under 1.2") and the Earth's flattening in the
/// parallax (under 0.1") are left out, and the site's elevation with them.
SunPosition sun_position(base::UtcTime time, const Place& place, const RefractionAir& air = {});

/// The same with TT - UT1 [s] stated.
SunPosition sun_position(base::UtcTime time,
                         const Place& place,
                         const RefractionAir& air,
                         double delta_t_s);

/// Parts of the same, to the bit, for those who need no more and ask often.
SunPlace sun_place(base::UtcTime time, const Place& place, const RefractionAir& air = {});
SunZenith sun_zenith(base::UtcTime time, const Place& place, const RefractionAir& air = {});

/// Solar constant [W/m2] used with the Perez 1990 clearness bins (Gueymard 2004).
inline constexpr double kSolarConstant_Wm2 = 1366.1;

/// Extraterrestrial irradiance on a plane normal to the beam [W/m2], 1/R^2. @param distance_au > 0
double extraterrestrial_normal_Wm2(double distance_au,
                                   double solar_constant_Wm2 = kSolarConstant_Wm2);

/// Relative optical air mass [1], Kasten and Young 1989, not corrected for pressure.
/// @param zenith_rad apparent, 0..pi/2; beyond, the value at 90 deg (37.9) is returned.
double relative_air_mass(double zenith_rad);

/// The light of one local day: sunrise and sunset are the instants when the apparent centre of the
/// disc crosses the horizon (zenith 90 deg), found to 0.01 s.
///
/// A date owns the one transit whose mean sun crosses the meridian in [0 h, 24 h) of its local
/// standard time, and the light around that transit. Where the clock is far from the sun the
/// sunrise may therefore lie below 0 (the evening before) or the sunset above 86400, and another
/// stretch of light on the same date may belong to a neighbouring date.
///
/// Polar day: rise 0 h and set 24 h. The sun up at only one of the two lower transits: rise is 0 h
/// (or that lower transit, if earlier), or set is 24 h (or that lower transit, if later), so that
/// the stretches of neighbouring dates join. Polar night: both at transit and up = false.
/// Within about 0.1 deg of a pole the sun can rise between the three instants looked at, unseen.
struct DayLight {
  bool up = false;         ///< the sun is up at some time of the day
  double sunrise_s = 0.0;  ///< [s] local standard time of the date; may be below 0
  double sunset_s = 0.0;   ///< [s] local standard time of the date; may be above 86400
  double transit_s = 0.0;  ///< [s] upper transit (declination's drift neglected)
};
DayLight day_light(const base::Date& date, const Place& place, const RefractionAir& air = {});
}  // namespace ovendays::sun
