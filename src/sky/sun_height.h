// SPDX-License-Identifier: MIT
// The models of sky_model.h for a sun whose cosine and air mass are already computed, because every
// instant needs them several times. The results have the same bits. Private to sky.
#pragma once

#include "ovendays/sky/sky_model.h"

namespace ovendays::sky {

/// Zenith angle of the sun with what follows from it.
struct SunHeight {
  SunHeight() = default;
  /// @param zenith_rad apparent; beyond 90 deg it counts as 90 deg
  explicit SunHeight(double zenith_rad);
  double zenith_rad = 1.5707963267948966;
  double cos_zenith = 0.0;
  double air_mass = 37.9;  ///< relative
};

PerezParts perez_parts(const SunHeight& sun, double dni_Wm2, double dhi_Wm2, double dni_extra_Wm2);

double clear_beam_shape(const SunHeight& sun);

/// clear_sky() for one site, with everything that does not depend on the sun computed beforehand.
/// The zenith angle and the extraterrestrial irradiance of the input are not used.
class ClearSite {
 public:
  explicit ClearSite(const ClearSkyInput& site);
  [[nodiscard]] ClearSky at(const SunHeight& sun, double dni_extra_Wm2) const;

 private:
  double pressure_Pa_, turbidity_, fh1_, fh2_, cg1_, cg2_, b_, share_;
};
}  // namespace ovendays::sky
