// SPDX-License-Identifier: MIT
// The sky's formulas for a sun whose cosine and air mass are at hand: every instant asks for them
// several times. The same bits as those of sky_model.h. Private to sky.
#pragma once

#include "ovendays/sky/sky_model.h"

namespace ovendays::sky {

/// How high the sun stands.
struct SunHeight {
  SunHeight() = default;
  /// @param zenith_rad apparent; taken as 90 deg beyond
  explicit SunHeight(double zenith_rad);
  double zenith_rad = 1.5707963267948966;
  double cos_zenith = 0.0;
  double air_mass = 37.9;  ///< relative
};

PerezParts perez_parts(const SunHeight& sun, double dni_Wm2, double dhi_Wm2, double dni_extra_Wm2);

double clear_beam_shape(const SunHeight& sun);

/// clear_sky() at one site: the input without sun and what lies above the air.
class ClearSite {
 public:
  explicit ClearSite(const ClearSkyInput& site);
  [[nodiscard]] ClearSky at(const SunHeight& sun, double dni_extra_Wm2) const;

 private:
  double pressure_Pa_, turbidity_, fh1_, fh2_, cg1_, cg2_, b_, share_;
};
}  // namespace ovendays::sky
