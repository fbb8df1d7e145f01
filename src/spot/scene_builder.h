// SPDX-License-Identifier: MIT
// Turns the obstructions of a spot into the facets and crowns of a scene.
#pragma once

#include <vector>

#include "footprint.h"
#include "scene_parts.h"

namespace ovendays::spot {

/// The radius of each ball is enlarged by this factor, so that rounding errors never discard an
/// obstruction that a ray meets.
inline constexpr double kBallMargin = 1.0 + 1e-9;

struct SceneParts::Builder {
  SceneParts& scene;
  std::vector<base::Point> corners;  ///< corners of the obstruction under construction

  void add(const Overhang& overhang);
  void add(const Bay& bay);
  void add(const Wall& wall);
  void add(const Block& block);
  void add(const Tree& tree);
  /// Combines the facets from index `first` on into one solid with a bounding ball.
  void close(std::size_t first);

 private:
  void rectangle(const base::Point& corner,
                 const base::Vec3& u,
                 const base::Vec3& v,
                 double reflectance);
  void box(const Footprint& plan, double base_m, double top_m, double reflectance);
};
}  // namespace ovendays::spot
