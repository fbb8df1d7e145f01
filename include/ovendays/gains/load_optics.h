// SPDX-License-Identifier: MIT
// What one load of an oven takes in from beam and diffuse light.
#pragma once

#include <algorithm>
#include <memory>
#include <span>
#include <vector>

#include "ovendays/gains/diffuse_table.h"
#include "ovendays/gains/light.h"
#include "ovendays/gains/surroundings.h"
#include "ovendays/optics/acceptance.h"

namespace ovendays::gains {

/// The optics of one load wherever the oven stands: they can be shared by all spots. Immutable once
/// made; thread-safe.
struct LoadOptics {
  optics::AcceptanceTable table;
  std::vector<PatchLight> light;  ///< by glazing tilt
  DiffuseTable open;              ///< diffuse light with nothing around the oven
  std::shared_ptr<const SplitMask> open_mask;
};

/// The mask of a spot with nothing around it.
std::shared_ptr<const SplitMask> open_mask();

/// @param glazing_tilt_rad every tilt at which the oven can stand
/// @param open as open_mask() makes it, which several loads may share
LoadOptics make_load_optics(optics::AcceptanceTable table,
                            std::span<const double> glazing_tilt_rad,
                            std::shared_ptr<const SplitMask> open);

inline void add_light(double light_Wm2,
                      const optics::AcceptanceRow& areas_m2,
                      optics::AcceptanceRow& sum_W) {
  for (std::size_t s = 0; s < sum_W.size(); ++s) sum_W[s] += light_Wm2 * areas_m2[s];
}

/// Sun absorbed by each surface [W], in the order of oven::Surface; the row's last number has no
/// meaning here. Inline, since a year calls it several hundred thousand times.
/// @param beam_W the part of the beam, from the acceptance table's row in the sun's direction
inline optics::AcceptanceRow absorbed_W(const optics::AcceptanceRow& beam_W,
                                        const Light& light,
                                        const SurroundingLight& around,
                                        const DiffuseGain& diffuse) {
  optics::AcceptanceRow sum_W = beam_W;
  add_light(light.isotropic_horizontal_Wm2, diffuse.isotropic_m2, sum_W);
  add_light(light.horizon_Wm2, diffuse.horizon_m2, sum_W);
  add_light(around.ground_Wm2, diffuse.ground_m2, sum_W);
  for (std::size_t f = 0; f < spot::kFacings; ++f)
    add_light(around.facing_Wm2[f], diffuse.facing_m2[f], sum_W);
  // The horizon band may be negative (darker than the sky), but it takes away no more than the
  // rest brings.
  for (double& surface_W : sum_W) surface_W = std::max(0.0, surface_W);
  return sum_W;
}

/// Diffuse light on a bare plane in the oven's mouth [W/m2]: sky, horizon, ground and what
/// obstructions reflect.
double diffuse_on_mouth_Wm2(const Light& light,
                            const SurroundingLight& around,
                            const DiffuseGain& diffuse);
}  // namespace ovendays::gains
