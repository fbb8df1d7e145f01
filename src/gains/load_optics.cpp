// SPDX-License-Identifier: MIT
#include "ovendays/gains/load_optics.h"

#include <utility>

namespace ovendays::gains {

std::shared_ptr<const SplitMask> open_mask() {
  const spot::Spot nothing;
  return std::make_shared<const SplitMask>(
      spot::Scene(nothing).mask(std::vector{nothing.mouth}, 1));
}

LoadOptics make_load_optics(optics::AcceptanceTable table,
                            std::span<const double> glazing_tilt_rad,
                            std::shared_ptr<const SplitMask> open) {
  LoadOptics load;
  load.table = std::move(table);
  const double pane_ir_m2 = outer_pane_infrared_m2(load.table);
  for (const double tilt_rad : glazing_tilt_rad)
    load.light.emplace_back(load.table, pane_ir_m2, tilt_rad);
  load.open_mask = std::move(open);
  load.open = DiffuseTable(load.light, load.open_mask);
  return load;
}

double diffuse_on_mouth_Wm2(const Light& light,
                            const SurroundingLight& around,
                            const DiffuseGain& diffuse) {
  double sum_Wm2 = light.isotropic_horizontal_Wm2 * diffuse.plane_isotropic +
                   light.horizon_Wm2 * diffuse.plane_horizon +
                   around.ground_Wm2 * diffuse.plane_ground;
  for (std::size_t f = 0; f < spot::kFacings; ++f)
    sum_Wm2 += around.facing_Wm2[f] * diffuse.plane_facing[f];
  return std::max(0.0, sum_Wm2);
}
}  // namespace ovendays::gains
