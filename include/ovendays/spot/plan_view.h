// SPDX-License-Identifier: MIT
// The obstructions as outlines seen from above, for pictures and for the extent of a plot. x east,
// y north [m]. Thread-safe: yes.
#pragma once

#include <string>
#include <vector>

#include "ovendays/spot/spot.h"

namespace ovendays::spot {

/// One outline of the plan view.
struct PlanLine {
  enum class Kind {
    kSolid,  ///< footprint of something that stands on the ground; closed
    kWall,   ///< a thin wall; open
    kRoof,   ///< edge of something overhead: a slab, a raised block or the roof of a bay; closed
    kCrown,  ///< crown of a tree; closed
    kTrunk,  ///< trunk of a tree; closed
  } kind = Kind::kSolid;
  std::string name;                 ///< of the obstruction
  std::vector<base::Point> points;  ///< corners; z is 0
  /// True if the last point connects to the first.
  [[nodiscard]] bool closed() const { return kind != Kind::kWall; }
};

/// The outlines of one obstruction. Circles become polygons with 48 corners.
std::vector<PlanLine> plan_view(const Obstruction& obstruction);
}  // namespace ovendays::spot
