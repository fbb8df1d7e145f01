// SPDX-License-Identifier: MIT
#include "ovendays/oven/design.h"

#include <cmath>

namespace ovendays::oven {

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
