// SPDX-License-Identifier: MIT
// Synthetic irradiance: daily clearness, hourly clearness, diffuse fraction. The models are
// described in weather_make.h. "Clearness" is the clearness index throughout: global horizontal
// irradiance over extraterrestrial horizontal irradiance.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "ovendays/weather/weather_make.h"

namespace ovendays::weather {

inline constexpr int kDays = 365;
inline constexpr int kHours = 8760;
inline constexpr int kMadeYear = 2001;  ///< calendar year of synthetic hours; not a leap year

/// The sun over one clock hour.
struct SunHour {
  double extraterrestrial_Wm2 = 0.0;  ///< extraterrestrial horizontal, mean over the hour
  double normal_Wm2 = 0.0;            ///< extraterrestrial normal
  double mean_cos = 0.0;              ///< mean of max(0, cos z) over the hour
  double up = 0.0;                    ///< fraction of the hour with the sun up
  double hour_angle_rad = 0.0;        ///< solar, in the middle of the hour
};
/// The sun over all hours of kMadeYear.
std::vector<SunHour> sun_hours(const sun::Place& place);

/// Number of days before each month; the last value is 365.
inline constexpr std::array<int, 13> kMonthStart = {
    0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};

/// The mean clearness of each month that corresponds to the normals' daily GHI; 0 in polar night.
std::array<double, 12> month_clearness(const std::array<double, 12>& ghi_kWhm2day,
                                       const std::vector<SunHour>& suns);

/// Draws the clearness of 365 days with the library of Markov matrices. The monthly means, weighted
/// with extraterrestrial radiation, are as given, as far as the matrix of the month allows.
std::vector<double> draw_days(const std::array<double, 12>& months,
                              const std::vector<SunHour>& suns,
                              std::uint64_t seed);

struct MadeIrradiance {
  double ghi_Wm2 = 0.0;
  double dni_Wm2 = 0.0;
  double dhi_Wm2 = 0.0;
};
/// Draws the irradiance of all hours with the time-dependent autoregressive Gaussian model, scaled
/// to the energy of the days and the months.
std::vector<MadeIrradiance> draw_hours(const MonthlyNormals& normals,
                                       const std::vector<SunHour>& suns,
                                       const std::vector<double>& days,
                                       std::uint64_t seed);
}  // namespace ovendays::weather
