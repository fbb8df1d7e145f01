// SPDX-License-Identifier: MIT
// The light of one instant in the open, before anything stands in its way.
#pragma once

#include "ovendays/sky/sky_year.h"

namespace ovendays::gains {

/// Irradiances [W/m2], all >= 0. Circumsolar light is counted with the beam, in the sun's
/// direction; isotropic and horizon light are the rest of the diffuse (PerezParts, sky_model.h).
struct Light {
  double dni_Wm2 = 0.0;                   ///< beam, normal to the sun
  double dhi_Wm2 = 0.0;                   ///< all diffuse light, horizontal
  double ghi_Wm2 = 0.0;                   ///< beam and diffuse, horizontal
  double circumsolar_normal_Wm2 = 0.0;    ///< normal to the sun
  double isotropic_horizontal_Wm2 = 0.0;  ///< horizontal
  double horizon_Wm2 = 0.0;               ///< see PerezParts; may be negative
  [[nodiscard]] bool any() const { return dhi_Wm2 > 0.0 || dni_Wm2 > 0.0; }
  [[nodiscard]] double beam_normal_Wm2() const { return dni_Wm2 + circumsolar_normal_Wm2; }
};

/// @param clear had there been no cloud, instead of as the weather was
Light light_of(const sky::SkyState& state, bool clear);

/// A state between the two ends of a sky segment: all quantities run linearly, the sun's direction
/// is scaled back to unit length and its azimuth is that of the direction.
/// @param share of the way from `a` to `b`, 0..1
sky::SkyState interpolate(const sky::SkyState& a, const sky::SkyState& b, double share);
}  // namespace ovendays::gains
