// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"
#include "ovendays/sky/sky_model.h"
#include "ovendays/sun/sun.h"

namespace ovendays::sky {
double clear_beam_shape(double zenith_rad) {
  if (zenith_rad > base::kPi / 2.0) return 0.0;
  constexpr double ln_07 = -0.35667494393873245;  // ln 0.7
  return std::exp(ln_07 * std::pow(sun::relative_air_mass(zenith_rad), 0.678));
}

double clear_diffuse_shape(double zenith_rad) { return std::max(0.0, std::cos(zenith_rad)); }

// Eqs. 5, 8 and 9; symbols as in the paper: tl Linke turbidity, am absolute air mass.
ClearSky clear_sky(const ClearSkyInput& input) {
  const double cos_z = std::cos(input.zenith_rad);
  if (cos_z <= 0.0) return {};
  const double tl = input.linke_turbidity;
  const double am =
      sun::relative_air_mass(input.zenith_rad) * input.pressure_Pa / base::kStandardPressure_Pa;
  const double fh1 = std::exp(-input.elevation_m / 8000.0);
  const double fh2 = std::exp(-input.elevation_m / 1250.0);
  const double cg1 = 5.09e-5 * input.elevation_m + 0.868;
  const double cg2 = 3.92e-5 * input.elevation_m + 0.0387;
  const double global_over_cos_Wm2 =
      cg1 * input.dni_extra_Wm2 * std::exp(-cg2 * am * (fh1 + fh2 * (tl - 1.0)));
  const double b = 0.664 + 0.163 / fh1;
  const double direct_Wm2 = input.dni_extra_Wm2 * b * std::exp(-0.09 * am * (tl - 1.0));
  // The beam may not exceed what leaves a least share of diffuse light.
  const double share = 1.0 - (0.1 - 0.2 * std::exp(-tl)) / (0.1 + 0.882 / fh1);
  ClearSky clear;
  clear.dni_Wm2 = std::min(direct_Wm2, global_over_cos_Wm2 * std::max(0.0, share));
  clear.dhi_Wm2 = (global_over_cos_Wm2 - clear.dni_Wm2) * cos_z;
  return clear;
}

double cloud_fraction(double clearness) {
  return std::min(1.0, std::pow(std::max(0.0, 1.0 - clearness) / 0.75, 1.0 / 3.4));
}
}  // namespace ovendays::sky
