// SPDX-License-Identifier: MIT
// Plan geometry of obstructions, shared by the reader, the clearance and the scene. Private to
// spot.
#pragma once

#include <algorithm>
#include <cmath>

#include "ovendays/base/vec.h"
#include "ovendays/spot/spot.h"

namespace ovendays::spot {

/// A rectangle on the ground.
struct Footprint {
  double x_m, y_m;  ///< centre
  double width_m, depth_m;
  double turn_rad;  ///< clockwise seen from above

  /// The side along the width, as a vector in plan [m].
  [[nodiscard]] base::Vec3 width_edge() const {
    return width_m * base::Vec3{std::cos(turn_rad), -std::sin(turn_rad), 0.0};
  }
  /// The side along the depth, as a vector in plan [m].
  [[nodiscard]] base::Vec3 depth_edge() const {
    return depth_m * base::Vec3{std::sin(turn_rad), std::cos(turn_rad), 0.0};
  }
  /// How far a point is outside of the sides [m], along width and depth; negative inside.
  [[nodiscard]] base::Vec3 excess(const base::Point& p) const {
    const double east = p.x - x_m;
    const double north = p.y - y_m;
    const double along_x = east * std::cos(turn_rad) - north * std::sin(turn_rad);
    const double along_y = east * std::sin(turn_rad) + north * std::cos(turn_rad);
    return {std::abs(along_x) - 0.5 * width_m, std::abs(along_y) - 0.5 * depth_m, 0.0};
  }
  /// True if the point is inside, seen from above.
  [[nodiscard]] bool contains(const base::Point& p) const {
    const base::Vec3 outside = excess(p);
    return outside.x < 0.0 && outside.y < 0.0;
  }
  /// Distance in plan [m]; 0 inside.
  [[nodiscard]] double distance_m(const base::Point& p) const {
    const base::Vec3 outside = excess(p);
    return std::hypot(std::max(0.0, outside.x), std::max(0.0, outside.y));
  }
};

/// Height of the middle of a tree's crown [m].
inline double crown_middle_m(const Tree& t) { return 0.5 * (t.crown_base_m + t.crown_top_m); }

/// True if the point is inside the ellipsoid of the crown.
inline bool inside_crown(const Tree& t, const base::Point& p) {
  const double across = std::hypot(p.x - t.x_m, p.y - t.y_m) / (0.5 * t.crown_width_m);
  const double up = (p.z - crown_middle_m(t)) / (0.5 * (t.crown_top_m - t.crown_base_m));
  return across * across + up * up < 1.0;
}
}  // namespace ovendays::spot
