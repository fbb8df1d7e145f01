// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"
#include "sun_height.h"

namespace ovendays::sky {
double clear_beam_shape(double zenith_rad) {
  if (zenith_rad > base::kPi / 2.0) return 0.0;
  return clear_beam_shape(SunHeight(zenith_rad));
}

double clear_beam_shape(const SunHeight& sun) {
  constexpr double ln_07 = -0.35667494393873245;  // ln 0.7
  return std::exp(ln_07 * std::pow(sun.air_mass, 0.678));
}

double clear_diffuse_shape(double zenith_rad) { return std::max(0.0, std::cos(zenith_rad)); }

ClearSky clear_sky(const ClearSkyInput& input) {
  if (std::cos(input.zenith_rad) <= 0.0) return {};
  return ClearSite(input).at(SunHeight(input.zenith_rad), input.dni_extra_Wm2);
}

// Ineichen and Perez 2002, eqs. 5, 8 and 9. Symbols as in the paper: tl is the Linke turbidity, am
// the absolute air mass. Everything that depends on the site only is computed once here.
ClearSite::ClearSite(const ClearSkyInput& site)
    : pressure_Pa_(site.pressure_Pa),
      turbidity_(site.linke_turbidity),
      fh1_(std::exp(-site.elevation_m / 8000.0)),
      fh2_(std::exp(-site.elevation_m / 1250.0)),
      cg1_(5.09e-5 * site.elevation_m + 0.868),
      cg2_(3.92e-5 * site.elevation_m + 0.0387),
      b_(0.664 + 0.163 / fh1_),
      // Upper limit of the beam, which leaves a minimum of diffuse light.
      share_(1.0 - (0.1 - 0.2 * std::exp(-site.linke_turbidity)) / (0.1 + 0.882 / fh1_)) {}

ClearSky ClearSite::at(const SunHeight& sun, double dni_extra_Wm2) const {
  if (sun.cos_zenith <= 0.0) return {};
  const double tl = turbidity_;
  const double am = sun.air_mass * pressure_Pa_ / base::kStandardPressure_Pa;
  const double global_over_cos_Wm2 =
      cg1_ * dni_extra_Wm2 * std::exp(-cg2_ * am * (fh1_ + fh2_ * (tl - 1.0)));
  const double direct_Wm2 = dni_extra_Wm2 * b_ * std::exp(-0.09 * am * (tl - 1.0));
  ClearSky clear;
  clear.dni_Wm2 = std::min(direct_Wm2, global_over_cos_Wm2 * std::max(0.0, share_));
  clear.dhi_Wm2 = (global_over_cos_Wm2 - clear.dni_Wm2) * sun.cos_zenith;
  return clear;
}

double cloud_fraction(double clear_sky_index) {
  return std::min(1.0, std::pow(std::max(0.0, 1.0 - clear_sky_index) / 0.75, 1.0 / 3.4));
}
}  // namespace ovendays::sky
