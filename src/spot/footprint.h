// SPDX-License-Identifier: MIT
// A rectangle on the ground, turned clockwise seen from above. Private to spot.
#pragma once

#include <algorithm>
#include <cmath>

#include "ovendays/base/vec.h"

namespace ovendays::spot {

struct Footprint {
  double x_m, y_m;  ///< centre
  double width_m, depth_m;
  double turn_rad;

  /// How far a point lies beyond the sides, along the footprint's own axes; negative within.
  [[nodiscard]] base::Vec3 beyond(const base::Point& p) const {
    const double east = p.x - x_m;
    const double north = p.y - y_m;
    const double along_x = east * std::cos(turn_rad) - north * std::sin(turn_rad);
    const double along_y = east * std::sin(turn_rad) + north * std::cos(turn_rad);
    return {std::abs(along_x) - 0.5 * width_m, std::abs(along_y) - 0.5 * depth_m, 0.0};
  }
  [[nodiscard]] bool holds(const base::Point& p) const {
    const base::Vec3 off = beyond(p);
    return off.x < 0.0 && off.y < 0.0;
  }
  /// In plan; 0 within. [m]
  [[nodiscard]] double distance_m(const base::Point& p) const {
    const base::Vec3 off = beyond(p);
    return std::hypot(std::max(0.0, off.x), std::max(0.0, off.y));
  }
};
}  // namespace ovendays::spot
