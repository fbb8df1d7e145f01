// SPDX-License-Identifier: MIT
// Other positions of the oven in the same surroundings: whether there is enough clearance, and how
// wind and rain change. World axes: x east, y north, z up [m]. Thread-safe: yes.
#pragma once

#include "ovendays/spot/spot.h"

namespace ovendays::spot {

/// The spot with the mouth of the oven at another position. Everything that depends on the position
/// is recomputed as in read_spot(): wind_factor from terrain, height and shelter, and roofed from
/// what is above. A shelter or roof that the case states is kept.
/// @param mouth centre of the mouth [m], z > 0
Spot moved_to(const Spot& spot, const base::Point& mouth);

/// Horizontal clearance [m]: distance in plan from the centre of the mouth to the nearest thing
/// that would be in the way of an oven that stands on the ground with its mouth at height mouth.z.
/// These are walls, blocks, trunks, the walls of a bay, and lintels and slabs that are lower than
/// the mouth. It is 0 inside one of them and inside a crown, and infinity if there is none. Crowns
/// above the mouth and roofs do not count.
/// @param mouth centre of the mouth [m], z > 0
double clearance_m(const Spot& spot, const base::Point& mouth);
}  // namespace ovendays::spot
