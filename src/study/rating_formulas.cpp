// SPDX-License-Identifier: MIT
#include <cmath>

#include "ovendays/base/air.h"
#include "ovendays/base/check.h"
#include "ovendays/study/rating.h"

namespace ovendays::study {

char grade_of(double f1_Km2W) {
  constexpr double kGradeA_Km2W = 0.12;
  constexpr double kGradeB_Km2W = 0.11;
  if (f1_Km2W >= kGradeA_Km2W) return 'A';
  return f1_Km2W >= kGradeB_Km2W ? 'B' : '-';
}

double cooking_power_W(double start_K, double end_K, double water_kg, double interval_s) {
  return (end_K - start_K) * water_kg * base::kWaterSpecificHeat_JkgK / interval_s;
}

double standard_power_W(double power_W, double irradiance_Wm2) {
  constexpr double kStandard_Wm2 = 700.0;
  return power_W * kStandard_Wm2 / irradiance_Wm2;
}

std::optional<double> second_figure(double f1_Km2W, const WaterHeating& heating) {
  const double reach_K = f1_Km2W * heating.irradiance_Wm2;
  const double from = 1.0 - (heating.from_K - heating.ambient_K) / reach_K;
  const double to = 1.0 - (heating.to_K - heating.ambient_K) / reach_K;
  if (!(to > 0.0) || !(from > to) || !(heating.time_s > 0.0)) return std::nullopt;
  return f1_Km2W * heating.water_kg * base::kWaterSpecificHeat_JkgK /
         (heating.aperture_m2 * heating.time_s) * std::log(from / to);
}

LineFit fit_line(std::span<const double> x, std::span<const double> y) {
  OVENDAYS_CHECK(x.size() == y.size() && x.size() >= 2);
  const auto count = static_cast<double>(x.size());
  double mean_x = 0.0;
  double mean_y = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    mean_x += x[i] / count;
    mean_y += y[i] / count;
  }
  double xx = 0.0;
  double xy = 0.0;
  double yy = 0.0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xx += (x[i] - mean_x) * (x[i] - mean_x);
    xy += (x[i] - mean_x) * (y[i] - mean_y);
    yy += (y[i] - mean_y) * (y[i] - mean_y);
  }
  LineFit fit;
  fit.slope = xx > 0.0 ? xy / xx : 0.0;
  fit.intercept = mean_y - fit.slope * mean_x;
  fit.r2 = xx > 0.0 && yy > 0.0 ? xy * xy / (xx * yy) : 0.0;
  return fit;
}
}  // namespace ovendays::study
