// SPDX-License-Identifier: MIT
// The surroundings seen from above, for pictures and for the size of a plot. x east, y north [m].
#pragma once

#include <string>
#include <vector>

#include "ovendays/spot/spot.h"

namespace ovendays::spot {

/// One line of the plan.
struct PlanLine {
  enum class Kind {
    kSolid,  ///< the footprint of what stands on the ground; closed
    kWall,   ///< a thin wall; open
    kRoof,   ///< overhead: the edge of a slab or of a bay's roof; closed
    kCrown,  ///< a tree's crown; closed
    kTrunk,  ///< closed
  } kind = Kind::kSolid;
  std::string name;                 ///< of the obstruction
  std::vector<base::Point> points;  ///< z is 0
  [[nodiscard]] bool closed() const { return kind != Kind::kWall; }
};

/// The lines of one obstruction. A round thing is a polygon of 48 corners.
std::vector<PlanLine> plan_of(const Obstruction& obstruction);
}  // namespace ovendays::spot
