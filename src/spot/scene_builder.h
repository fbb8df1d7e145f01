// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "scene_parts.h"

namespace ovendays::spot {

/// Balls are a little larger than what they enclose, so that rounding never loses a hit.
inline constexpr double kBallMargin = 1.0 + 1e-9;

struct SceneParts::Builder {
  struct Plan {  // a rectangle on the ground, turned clockwise seen from above
    double x_m, y_m;
    double width_m, depth_m;
    double turn_rad;
  };

  SceneParts& scene;
  std::vector<base::Point> corners;  // of the obstruction being built

  void add(const Overhang& overhang);
  void add(const Bay& bay);
  void add(const Wall& wall);
  void add(const Block& block);
  void add(const Tree& tree);
  /// Makes a solid of the facets from `first` on.
  void close(std::size_t first);

 private:
  void rectangle(const base::Point& corner,
                 const base::Vec3& u,
                 const base::Vec3& v,
                 double reflectance);
  void box(const Plan& plan, double base_m, double top_m, double reflectance);
};
}  // namespace ovendays::spot
