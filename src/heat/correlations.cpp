// SPDX-License-Identifier: MIT
#include "ovendays/heat/correlations.h"

#include <algorithm>
#include <cmath>

#include "network.h"
#include "ovendays/base/air.h"
#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::heat {

double convection_group(double film_K, double pressure_Pa) {
  return portable::convection_group_fit(film_K).value *
         std::sqrt(pressure_Pa / base::kStandardPressure_Pa);
}

double natural_convection_Wm2K(
    PlateKind kind, double surface_K, double air_K, double length_m, double pressure_Pa) {
  const double factor = kind == PlateKind::kHotUpOrColdDown ? 0.54 : 0.515;
  const double difference_K = std::abs(surface_K - air_K);
  return factor * convection_group(0.5 * (surface_K + air_K), pressure_Pa) *
         std::pow(difference_K / length_m, 0.25);
}

GapTilt gap_tilt(double tilt_rad) {
  const double tilt = std::min(tilt_rad, 75.0 * base::kRadPerDeg);
  const double cosine = std::cos(tilt);
  return {
      cosine, 1708.0 * std::pow(std::max(0.0, std::sin(1.8 * tilt)), 1.6), std::pow(cosine, 0.25)};
}

double hollands_nusselt(double rayleigh, double tilt_rad) {
  const GapTilt tilt = gap_tilt(tilt_rad);
  return portable::hollands_fit(rayleigh, tilt.cosine, tilt.sine_power).value;
}

double gap_convection_Wm2K(
    double lower_K, double upper_K, double gap_m, double tilt_rad, double pressure_Pa) {
  const double film_K = 0.5 * (lower_K + upper_K);
  const double conductivity = base::air_conductivity_WmK(film_K);
  const double density = base::air_density_kgm3(film_K, pressure_Pa);
  const double viscosity_m2s = base::air_viscosity_Pas(film_K) / density;
  const double diffusivity_m2s = conductivity / (density * base::kAirSpecificHeat_JkgK);
  const double rayleigh = base::kGravity_ms2 * std::max(0.0, lower_K - upper_K) * gap_m * gap_m *
                          gap_m / (film_K * viscosity_m2s * diffusivity_m2s);
  return hollands_nusselt(rayleigh, tilt_rad) * conductivity / gap_m;
}

double wind_coefficient_Wm2K(double wind_ms) { return 2.8 + 3.0 * wind_ms; }

double box_shape_factor(double width_m, double depth_m, double height_m, double thickness_m) {
  OVENDAYS_CHECK(width_m > 0 && depth_m > 0 && height_m > 0 && thickness_m > 0);
  // Of an open-topped box: floor and four walls, four edges along the floor, four upright ones,
  // four corners at the floor.
  const double area_m2 = width_m * depth_m + 2.0 * height_m * (width_m + depth_m);
  const double edges_m = 2.0 * (width_m + depth_m) + 4.0 * height_m;
  const double shape_m = area_m2 / thickness_m + 0.54 * edges_m + 4.0 * 0.15 * thickness_m;
  return shape_m * thickness_m / area_m2;
}

double foot_contact_Wm2K(double gap_m, double foot_emittance, double plate_emittance) {
  constexpr double kMean_K = 350.0;
  const double infrared = 4.0 * base::kStefanBoltzmann_Wm2K4 * kMean_K * kMean_K * kMean_K /
                          (1.0 / foot_emittance + 1.0 / plate_emittance - 1.0);
  return base::air_conductivity_WmK(kMean_K) / gap_m + infrared;
}

double foot_conductance_WK(const FootOnPlate& foot) {
  const double whole_WK = foot.contact_Wm2K * foot.foot_m2;
  const double a = std::sqrt(foot.foot_m2 / base::kPi);
  const double ring2 = (foot.plate_m2 - foot.foot_m2) / base::kPi;  // R^2 - a^2
  if (ring2 <= 1e-6 || whole_WK <= 0.0) return whole_WK;
  const double R2 = foot.plate_m2 / base::kPi;
  const double ma = a * std::sqrt(foot.contact_Wm2K / foot.sheet_WK);
  // I1(x)/I0(x) tends to 1; beyond this the functions themselves overflow.
  const double bessel = ma < 300.0 ? std::cyl_bessel_i(1.0, ma) / std::cyl_bessel_i(0.0, ma) : 1.0;
  const double under_KW = 1.0 / (base::kTwoPi * foot.sheet_WK * ma * bessel);
  const double shape =
      R2 * R2 * 0.5 * std::log(R2 / (a * a)) / (ring2 * ring2) - (3.0 * R2 - a * a) / (4.0 * ring2);
  return 1.0 / (under_KW + shape / (base::kTwoPi * foot.sheet_WK));
}

double fast_saturation_Pa(double temperature_K) {
  return portable::saturation_fit(temperature_K).value;
}
}  // namespace ovendays::heat
