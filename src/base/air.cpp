// SPDX-License-Identifier: MIT
#include "ovendays/base/air.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"

namespace ovendays::base {
namespace {
constexpr double kGasConstantAir_JkgK = 287.05;
// Of the saturation pressure over water (Buck).
constexpr double kSaturationAtZero_Pa = 611.21;
constexpr double kBuckLinear = 18.678;
constexpr double kBuckSquare_K = 234.5;
constexpr double kBuckPole_K = 257.14;
}  // namespace

double air_conductivity_WmK(double temperature_K) {
  return 2.646e-3 * std::pow(temperature_K, 1.5) /
         (temperature_K + 245.4 * std::pow(10.0, -12.0 / temperature_K));
}

double air_viscosity_Pas(double temperature_K) {
  return 1.458e-6 * std::pow(temperature_K, 1.5) / (temperature_K + 110.4);
}

double air_density_kgm3(double temperature_K, double pressure_Pa) {
  return pressure_Pa / (kGasConstantAir_JkgK * temperature_K);
}

double standard_pressure_Pa(double elevation_m) {
  return kStandardPressure_Pa * std::pow(1.0 - 2.25577e-5 * elevation_m, 5.25588);
}

double saturation_pressure_Pa(double temperature_K) {
  const double t = temperature_K - kZeroCelsius_K;
  return kSaturationAtZero_Pa *
         std::exp((kBuckLinear - t / kBuckSquare_K) * (t / (kBuckPole_K + t)));
}

double boiling_point_K(double pressure_Pa) {
  double low = 230.0;
  double high = 450.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (saturation_pressure_Pa(middle) < pressure_Pa ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

double latent_heat_Jkg(double temperature_K) {
  return 2.5025e6 - 2430.0 * (temperature_K - kZeroCelsius_K);
}

double dew_point_K(double temperature_K, double relative_humidity) {
  const double target =
      saturation_pressure_Pa(temperature_K) * std::clamp(relative_humidity, 1e-4, 1.0);
  // Solved for the temperature, the equation says on which side of it a point lies that is not
  // within a margin far beyond rounding.
  constexpr double kMargin_K = 2e-12;
  const double l = std::log(target / kSaturationAtZero_Pa);
  const double b = 0.5 * kBuckSquare_K * (kBuckLinear - l);
  const double product = kBuckSquare_K * kBuckPole_K * l;
  const double root_K = kZeroCelsius_K + product / (b + std::sqrt(std::max(0.0, b * b - product)));
  double low = 180.0;
  double high = temperature_K;
  for (int i = 0; i < 50; ++i) {
    const double middle = 0.5 * (low + high);
    const double beyond_K = middle - root_K;
    bool below = beyond_K < 0.0;
    if (std::abs(beyond_K) <= kMargin_K) below = saturation_pressure_Pa(middle) < target;
    low = below ? middle : low;
    high = below ? high : middle;
  }
  return 0.5 * (low + high);
}

double relative_humidity(double temperature_K, double dew_point_K) {
  return std::clamp(
      saturation_pressure_Pa(dew_point_K) / saturation_pressure_Pa(temperature_K), 0.0, 1.0);
}
}  // namespace ovendays::base
