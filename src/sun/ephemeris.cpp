// SPDX-License-Identifier: MIT
#include "ephemeris.h"

#include <array>
#include <cmath>
#include <limits>
#include <span>

#include "ovendays/base/constants.h"
#include "ovendays/sun/sun.h"

namespace ovendays::sun {
namespace {
using base::kPi;
using base::kRadPerDeg;
using base::kTwoPi;

constexpr double kJ2000_s = 946728000.0;  // 2000-01-01 12:00, since 1970
constexpr double kDaysPerMillennium = 365250.0;
constexpr double kRadPerArcsec = kRadPerDeg / 3600.0;

// One periodic term, amplitude cos(phase + rate tau), with tau in Julian millennia since J2000.
struct Term {
  double amplitude;
  double phase;
  double rate;
};

// Heliocentric longitude of the Earth, series L0 [1e-8 rad].
constexpr std::array<Term, 23> kLongitude0 = {{{3341656, 4.6692568, 6283.0758500},
                                               {34894, 4.62610, 12566.15170},
                                               {3497, 2.7441, 5753.3849},
                                               {3418, 2.8289, 3.5231},
                                               {3136, 3.6277, 77713.7715},
                                               {2676, 4.4181, 7860.4194},
                                               {2343, 6.1352, 3930.2097},
                                               {1324, 0.7425, 11506.7698},
                                               {1273, 2.0371, 529.6910},
                                               {1199, 1.1096, 1577.3435},
                                               {990, 5.233, 5884.927},
                                               {902, 2.045, 26.298},
                                               {857, 3.508, 398.149},
                                               {780, 1.179, 5223.694},
                                               {753, 2.533, 5507.553},
                                               {505, 4.583, 18849.228},
                                               {492, 4.205, 775.523},
                                               {357, 2.920, 0.067},
                                               {317, 5.849, 11790.629},
                                               {284, 1.899, 796.298},
                                               {271, 0.315, 10977.079},
                                               {243, 0.345, 5486.778},
                                               {206, 4.806, 2544.314}}};
// Distance of the Earth, series R0 [1e-8 AU].
constexpr std::array<Term, 10> kDistance0 = {{{1670700, 3.0984635, 6283.0758500},
                                              {13956, 3.05525, 12566.15170},
                                              {3084, 5.1985, 77713.7715},
                                              {1628, 1.1739, 5753.3849},
                                              {1576, 2.8469, 7860.4194},
                                              {925, 5.453, 11506.770},
                                              {542, 4.564, 3930.210},
                                              {472, 3.661, 5884.927},
                                              {346, 0.964, 5507.553},
                                              {329, 5.900, 5223.694}}};

double sum_of(std::span<const Term> terms, double tau) {
  double sum = 0.0;
  for (const Term& term : terms) sum += term.amplitude * std::cos(term.phase + term.rate * tau);
  return sum;
}

// The sun's longitude is this rate times tau plus a periodic remainder. Only the remainder is
// interpolated between days, where the steady motion would cost digits.
constexpr double kLongitudeRate = 6283.31966747;

double periodic_longitude_rad(double tau) {
  const double l0 = 175347046.0 + sum_of(kLongitude0, tau);
  const double l1 = 206059.0 * std::cos(2.678235 + 6283.0758500 * tau) +
                    4303.0 * std::cos(2.6351 + 12566.1517 * tau);
  const double l2 = 52919.0;
  // The sun is opposite the Earth, hence pi. The conversion from the dynamical equinox to FK5 takes
  // -0.09033" (Meeus eq. 32.3).
  return 1e-8 * (l0 + tau * (l1 + tau * l2)) + kPi - 0.09033 * kRadPerArcsec;
}

double distance_au(double tau) {
  const double r0 = 100013989.0 + sum_of(kDistance0, tau);
  return 1e-8 * (r0 + tau * 103019.0 * std::cos(1.107490 + 6283.0758500 * tau));
}

struct Nutation {
  double longitude_rad;
  double obliquity_rad;
};

// Meeus p. 144, accurate to 0.5" in longitude and 0.1" in obliquity.
Nutation nutation(double centuries) {
  const double node = (125.04452 - 1934.136261 * centuries) * kRadPerDeg;
  const double sun2 = 2.0 * (280.4665 + 36000.7698 * centuries) * kRadPerDeg;
  const double moon2 = 2.0 * (218.3165 + 481267.8813 * centuries) * kRadPerDeg;
  return {kRadPerArcsec * (-17.20 * std::sin(node) - 1.32 * std::sin(sun2) -
                           0.23 * std::sin(moon2) + 0.21 * std::sin(2.0 * node)),
          kRadPerArcsec * (9.20 * std::cos(node) + 0.57 * std::cos(sun2) + 0.10 * std::cos(moon2) -
                           0.09 * std::cos(2.0 * node))};
}

/// The quantities that need long sums but change slowly.
struct SlowSun {
  double longitude_rad;  ///< periodic remainder
  double distance_au;
  double nutation_rad;  ///< in longitude
  double sin_obliquity, cos_obliquity;
};

SlowSun slow_sun(double days_tt) {
  const double tau = days_tt / kDaysPerMillennium;
  const double centuries = 10.0 * tau;
  const Nutation nut = nutation(centuries);
  const double obliquity_rad =
      kRadPerArcsec * (84381.448 - 46.8150 * centuries) + nut.obliquity_rad;
  return {periodic_longitude_rad(tau),
          distance_au(tau),
          nut.longitude_rad,
          std::sin(obliquity_rad),
          std::cos(obliquity_rad)};
}

/// Interpolates slow_sun() by the cubic (Lagrange) through the four whole days around an instant.
/// The fastest term has a period of 13.7 days, so the error is at most 3e-9 rad. Each thread caches
/// eight days; since an entry depends on its day only, results do not depend on the order of the
/// calls.
SlowSun interpolated_slow_sun(double days_tt) {
  struct CacheEntry {
    double day = std::numeric_limits<double>::quiet_NaN();
    SlowSun sun{};
  };
  constexpr std::size_t kEntries = 8;
  thread_local std::array<CacheEntry, kEntries> cache;
  const double first = std::floor(days_tt) - 1.0;
  const double x = days_tt - first - 1.0;  // 0..1 between the second day and the third
  const std::array<double, 4> weight = {-x * (x - 1.0) * (x - 2.0) / 6.0,
                                        (x + 1.0) * (x - 1.0) * (x - 2.0) / 2.0,
                                        -(x + 1.0) * x * (x - 2.0) / 2.0,
                                        (x + 1.0) * x * (x - 1.0) / 6.0};
  SlowSun sum{};
  for (std::size_t i = 0; i < weight.size(); ++i) {
    const double day = first + static_cast<double>(i);
    const double index = day - kEntries * std::floor(day / kEntries);
    CacheEntry& entry = cache[static_cast<std::size_t>(index)];
    if (entry.day != day) entry = {day, slow_sun(day)};
    sum.longitude_rad += weight[i] * entry.sun.longitude_rad;
    sum.distance_au += weight[i] * entry.sun.distance_au;
    sum.nutation_rad += weight[i] * entry.sun.nutation_rad;
    sum.sin_obliquity += weight[i] * entry.sun.sin_obliquity;
    sum.cos_obliquity += weight[i] * entry.sun.cos_obliquity;
  }
  return sum;
}
}  // namespace

double GeocentricSun::equation_of_time_rad() const {
  return std::remainder(mean_ascension_rad - std::atan2(to_quarter, to_equinox), kTwoPi);
}

GeocentricSun geocentric_sun(base::UtcTime time, double delta_t_s) {
  const double days_ut = (time.unix_s - kJ2000_s) / base::kSecondsPerDay;
  const double days_tt = days_ut + delta_t_s / base::kSecondsPerDay;
  const double tau = days_tt / kDaysPerMillennium;
  const double centuries = 10.0 * tau;
  const SlowSun slow = interpolated_slow_sun(days_tt);

  GeocentricSun sun;
  sun.distance_au = slow.distance_au;
  const double aberration_rad = -20.4898 * kRadPerArcsec / sun.distance_au;
  const double longitude_rad =
      slow.longitude_rad + kLongitudeRate * tau + slow.nutation_rad + aberration_rad;
  const double sin_longitude = std::sin(longitude_rad);
  sun.to_equinox = std::cos(longitude_rad);
  sun.to_quarter = slow.cos_obliquity * sin_longitude;
  sun.to_north = slow.sin_obliquity * sin_longitude;

  const double equinoxes_rad = slow.nutation_rad * slow.cos_obliquity;
  sun.sidereal_rad = kRadPerDeg * (280.46061837 + 360.98564736629 * days_ut +
                                   0.000387933 * centuries * centuries) +
                     equinoxes_rad;
  // Meeus eqs. 28.1 and 28.2; 0.0057183 deg is the constant of aberration.
  const double mean_longitude_rad =
      kRadPerDeg * (280.4664567 + tau * (360007.6982779 + tau * 0.03032028) - 0.0057183);
  sun.mean_ascension_rad = mean_longitude_rad + equinoxes_rad;
  return sun;
}

double delta_t_of_year_s(double decimal_year) {
  const double y = decimal_year;
  const double century = (y - 1820.0) / 100.0;
  const double parabola = -20.0 + 32.0 * century * century;
  if (y >= 1941.0 && y < 1961.0) {
    const double t = y - 1950.0;
    return 29.07 + t * (0.407 + t * (-1.0 / 233.0 + t / 2547.0));
  }
  if (y >= 1961.0 && y < 1986.0) {
    const double t = y - 1975.0;
    return 45.45 + t * (1.067 + t * (-1.0 / 260.0 - t / 718.0));
  }
  if (y >= 1986.0 && y < 2005.0) {
    const double t = y - 2000.0;
    return 63.86 +
           t * (0.3345 + t * (-0.060374 + t * (0.0017275 + t * (0.000651814 + t * 2.373599e-5))));
  }
  if (y >= 2005.0 && y < 2050.0) {
    const double t = y - 2000.0;
    return 62.92 + t * (0.32217 + t * 0.005589);
  }
  if (y >= 2050.0 && y < 2150.0) return parabola - 0.5628 * (2150.0 - y);
  return parabola;
}
}  // namespace ovendays::sun
