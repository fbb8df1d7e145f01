// SPDX-License-Identifier: MIT
#include "ovendays/oven/design.h"

#include <cmath>

#include "ovendays/base/constants.h"

namespace ovendays::oven {

double Vessel::base_m2() const {
  return kind == VesselKind::kPot ? 0.25 * base::kPi * diameter_m * diameter_m : width_m * depth_m;
}

double OvenDesign::glass_width_m() const { return box.inner_width_m - 2.0 * box.frame_m; }

double OvenDesign::glass_length_m() const {
  return box.inner_depth_m / std::cos(box.glazing_slope_rad) - 2.0 * box.frame_m;
}

const Vessel* OvenDesign::vessel(const std::string& wanted) const {
  for (const Vessel& candidate : vessels) {
    if (candidate.name == wanted) return &candidate;
  }
  return nullptr;
}
}  // namespace ovendays::oven
