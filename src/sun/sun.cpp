// SPDX-License-Identifier: MIT
#include "ovendays/sun/sun.h"

#include <algorithm>
#include <cmath>

#include "ephemeris.h"
#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::sun {
namespace {
using base::kDegPerRad;
using base::kPi;
using base::kRadPerDeg;
using base::kTwoPi;

// Below this true elevation [deg] the whole refracted disc is under the horizon, and refraction is
// left out: -(radius of the disc + refraction at the horizon), Reda and Andreas section 3.11.3.
constexpr double kRefractionEnd_deg = -(0.26667 + 0.5667);
constexpr double kHorizontalParallax_rad = 8.794 / 3600.0 * kRadPerDeg;

// Reda and Andreas eq. 42 (Saemundsson's formula). The report converts from Celsius by adding 273,
// not 273.15; hence the 0.15.
double refraction_rad(double true_elevation_rad, const RefractionAir& air) {
  const double e0 = true_elevation_rad * kDegPerRad;
  if (e0 < kRefractionEnd_deg) return 0.0;
  const double scale = air.pressure_Pa / 101000.0 * 283.0 / (air.temperature_K - 0.15);
  return kRadPerDeg * scale * 1.02 / (60.0 * std::tan(kRadPerDeg * (e0 + 10.3 / (e0 + 5.11))));
}

double delta_t_at_s(base::UtcTime time) {
  return delta_t_of_year_s(1970.0 + time.unix_s / (365.2425 * base::kSecondsPerDay));
}

// Unit vector from the centre of the Earth towards the sun, along the axes of the site.
struct Towards {
  double east, north, up, horizontal;
};

Towards towards(const GeocentricSun& sun, const Place& place) {
  const double meridian_rad = sun.sidereal_rad + place.longitude_rad;
  const double sin_meridian = std::sin(meridian_rad);
  const double cos_meridian = std::cos(meridian_rad);
  const double sin_lat = std::sin(place.latitude_rad);
  const double cos_lat = std::cos(place.latitude_rad);
  const double along = sun.to_equinox * cos_meridian + sun.to_quarter * sin_meridian;
  Towards to{};
  to.east = sun.to_quarter * cos_meridian - sun.to_equinox * sin_meridian;
  to.north = sun.to_north * cos_lat - along * sin_lat;
  to.up = sun.to_north * sin_lat + along * cos_lat;
  to.horizontal = std::sqrt(to.east * to.east + to.north * to.north);
  return to;
}

SunZenith zenith_of(const GeocentricSun& sun, const Towards& to, const RefractionAir& air) {
  SunZenith made;
  // Parallax lowers the sun by up to 8.8"; the Earth's flattening changes that by under 0.1".
  made.true_zenith_rad =
      std::atan2(to.horizontal, to.up) + kHorizontalParallax_rad / sun.distance_au * to.horizontal;
  made.zenith_rad = made.true_zenith_rad - refraction_rad(kPi / 2.0 - made.true_zenith_rad, air);
  made.distance_au = sun.distance_au;
  return made;
}

SunDirection direction_of(const GeocentricSun& sun, const Place& place, const RefractionAir& air) {
  const Towards to = towards(sun, place);
  SunDirection made;
  static_cast<SunZenith&>(made) = zenith_of(sun, to, air);
  const double azimuth_rad = std::atan2(to.east, to.north);
  made.azimuth_rad = azimuth_rad < 0.0 ? azimuth_rad + kTwoPi : azimuth_rad;
  if (to.horizontal > 0.0) {
    made.azimuth_sine = to.east / to.horizontal;
    made.azimuth_cosine = to.north / to.horizontal;
  }
  return made;
}
}  // namespace

base::Direction SunDirection::direction() const {
  const double s = std::sin(zenith_rad);
  return {s * azimuth_sine, s * azimuth_cosine, std::cos(zenith_rad)};
}

double SunDirection::elevation_rad() const { return kPi / 2.0 - zenith_rad; }

double delta_t_s(int year, int month) {
  OVENDAYS_CHECK(month >= 1 && month <= 12);
  return delta_t_of_year_s(year + (month - 0.5) / 12.0);
}

SunPosition sun_position(base::UtcTime time, const Place& place, const RefractionAir& air) {
  return sun_position(time, place, air, delta_t_at_s(time));
}

SunPosition sun_position(base::UtcTime time,
                         const Place& place,
                         const RefractionAir& air,
                         double delta_t_s) {
  const GeocentricSun sun = geocentric_sun(time, delta_t_s);
  SunPosition position;
  static_cast<SunDirection&>(position) = direction_of(sun, place, air);
  position.declination_rad = std::asin(sun.to_north);
  position.equation_of_time_s = sun.equation_of_time_rad() / kTwoPi * base::kSecondsPerDay;
  return position;
}

SunDirection sun_direction(base::UtcTime time, const Place& place, const RefractionAir& air) {
  return direction_of(geocentric_sun(time, delta_t_at_s(time)), place, air);
}

SunZenith sun_zenith(base::UtcTime time, const Place& place, const RefractionAir& air) {
  const GeocentricSun sun = geocentric_sun(time, delta_t_at_s(time));
  return zenith_of(sun, towards(sun, place), air);
}

double extraterrestrial_normal_Wm2(double distance_au, double solar_constant_Wm2) {
  OVENDAYS_DCHECK(distance_au > 0.0);
  return solar_constant_Wm2 / (distance_au * distance_au);
}

double relative_air_mass(double zenith_rad) {
  const double z = std::min(zenith_rad, kPi / 2.0);
  return 1.0 / (std::cos(z) + 0.50572 * std::pow(96.07995 - z * kDegPerRad, -1.6364));
}
}  // namespace ovendays::sun
