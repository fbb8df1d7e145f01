// SPDX-License-Identifier: MIT
#include "ovendays/base/air.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::base {
namespace {
constexpr double kGasConstantAir_JkgK = 287.05;
// Coefficients of the saturation pressure over water (Buck 1981, revised 1996).
constexpr double kSaturationAtZero_Pa = 611.21;
constexpr double kBuckLinear = 18.678;
constexpr double kBuckSquare_K = 234.5;
constexpr double kBuckPole_K = 257.14;

/// Two doubles in one vector register.
using Two __attribute__((vector_size(2 * sizeof(double)))) = double;

/// Bisection for eight dew points at once, so that the processor can overlap them.
///
/// A plain bisection evaluates the saturation pressure at every midpoint. Here Buck's equation is
/// solved for the temperature beforehand, and a midpoint is compared with that root instead. Only a
/// midpoint within kMargin_K of the root, where rounding could matter, needs the pressure itself;
/// so the result has the bits of the plain bisection.
struct DewSearch {
  static constexpr std::size_t kTwos = 4;
  static constexpr std::size_t kSide = 2 * kTwos;
  static constexpr double kMargin_K = 2e-12;
  std::array<Two, kTwos> target_Pa{}, root_K{}, low_K{}, high_K{};

  DewSearch() { root_K.fill(Two{1e9, 1e9}); }  // keeps unused places away from their root

  void set(std::size_t k, double temperature_K, double relative_humidity) {
    const double target =
        saturation_pressure_Pa(temperature_K) * std::clamp(relative_humidity, 1e-4, 1.0);
    // The root of t^2 - 2 b t + product = 0, which is Buck's equation with ln(p / p0) = l.
    const double l = std::log(target / kSaturationAtZero_Pa);
    const double b = 0.5 * kBuckSquare_K * (kBuckLinear - l);
    const double product = kBuckSquare_K * kBuckPole_K * l;
    target_Pa[k / 2][k % 2] = target;
    root_K[k / 2][k % 2] =
        kZeroCelsius_K + product / (b + std::sqrt(std::max(0.0, b * b - product)));
    low_K[k / 2][k % 2] = 180.0;
    high_K[k / 2][k % 2] = temperature_K;
  }

  void run() {
    for (int i = 0; i < 50; ++i) {
      for (std::size_t n = 0; n < kTwos; ++n) {
        const Two middle_K = 0.5 * (low_K[n] + high_K[n]);
        Two beyond_K = middle_K - root_K[n];
        const auto near = (beyond_K <= kMargin_K) & (beyond_K >= -kMargin_K);
        if ((near[0] | near[1]) != 0) beyond_K = sides_by_pressure(n, middle_K, beyond_K);
        low_K[n] = beyond_K < 0.0 ? middle_K : low_K[n];
        high_K[n] = beyond_K < 0.0 ? high_K[n] : middle_K;
      }
    }
  }

  /// Replaces the distances of midpoints too close to their root by the sign that the saturation
  /// pressure gives.
  [[nodiscard]] Two sides_by_pressure(std::size_t n, const Two& middle_K, Two beyond_K) const {
    for (std::size_t k = 0; k < 2; ++k) {
      if (std::abs(beyond_K[k]) <= kMargin_K)
        beyond_K[k] = saturation_pressure_Pa(middle_K[k]) < target_Pa[n][k] ? -1.0 : 1.0;
    }
    return beyond_K;
  }

  [[nodiscard]] double dew_K(std::size_t k) const {
    return 0.5 * (low_K[k / 2][k % 2] + high_K[k / 2][k % 2]);
  }
};
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
  double dew_K = 0.0;
  dew_points_K({&temperature_K, 1}, {&relative_humidity, 1}, {&dew_K, 1});
  return dew_K;
}

void dew_points_K(std::span<const double> temperature_K,
                  std::span<const double> relative_humidity,
                  std::span<double> dew_K) {
  OVENDAYS_CHECK(temperature_K.size() == dew_K.size() && relative_humidity.size() == dew_K.size());
  for (std::size_t first = 0; first < dew_K.size(); first += DewSearch::kSide) {
    const std::size_t count = std::min(DewSearch::kSide, dew_K.size() - first);
    DewSearch search;
    for (std::size_t k = 0; k < count; ++k)
      search.set(k, temperature_K[first + k], relative_humidity[first + k]);
    search.run();
    for (std::size_t k = 0; k < count; ++k) dew_K[first + k] = search.dew_K(k);
  }
}

double relative_humidity(double temperature_K, double dew_point_K) {
  return std::clamp(
      saturation_pressure_Pa(dew_point_K) / saturation_pressure_Pa(temperature_K), 0.0, 1.0);
}
}  // namespace ovendays::base
