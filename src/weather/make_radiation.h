// SPDX-License-Identifier: MIT
// Made irradiance: daily clearness, hourly clearness, diffuse split. See weather_make.h.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "ovendays/weather/weather_make.h"

namespace ovendays::weather {

inline constexpr int kDays = 365;
inline constexpr int kHours = 8760;
inline constexpr int kMadeYear = 2001;  ///< calendar year of made hours; not a leap year

/// The sun over one clock hour.
struct SunHour {
  double extraterrestrial_Wm2 = 0.0;  ///< horizontal, mean over the hour
  double normal_Wm2 = 0.0;            ///< extraterrestrial, normal to the beam
  double mean_cos = 0.0;              ///< mean of max(0, cos z) over the hour
  double up = 0.0;                    ///< part of the hour with the sun up
  double hour_angle_rad = 0.0;        ///< solar, at mid-hour
};
std::vector<SunHour> sun_hours(const sun::Place& place);

/// Days before each month, and 365 at the end.
inline constexpr std::array<int, 13> kMonthStart = {
    0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};

/// Mean clearness of each month that gives the normals' daily GHI; 0 in polar night.
std::array<double, 12> month_clearness(const std::array<double, 12>& ghi_kWhm2day,
                                       const std::vector<SunHour>& suns);

/// Daily clearness by the Markov library; extraterrestrially weighted month means as asked within
/// what the class allows.
std::vector<double> draw_days(const std::array<double, 12>& months,
                              const std::vector<SunHour>& suns,
                              std::uint64_t seed);

struct MadeIrradiance {
  double ghi_Wm2 = 0.0;
  double dni_Wm2 = 0.0;
  double dhi_Wm2 = 0.0;
};
/// Hours by the time-dependent autoregressive Gaussian model, scaled to the days and the months.
std::vector<MadeIrradiance> draw_hours(const MonthlyNormals& normals,
                                       const std::vector<SunHour>& suns,
                                       const std::vector<double>& days,
                                       std::uint64_t seed);
}  // namespace ovendays::weather
