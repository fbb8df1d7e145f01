// SPDX-License-Identifier: MIT
// Other places to stand in the same surroundings: is there room, and what wind and rain reach the
// oven there. World axes x east, y north, z up [m]. Thread-safe: yes.
#pragma once

#include "ovendays/spot/spot.h"

namespace ovendays::spot {

/// The spot with the oven's mouth somewhere else. Everything that the mouth's place decides is
/// worked out anew as read_spot does: wind_factor from terrain, height and shelter, roofed from
/// what stands above; what the case states of either stays as stated.
/// @param mouth centre of the mouth [m], z > 0
Spot moved_to(const Spot& spot, const base::Point& mouth);

/// Distance in plan [m] from the mouth's centre to the nearest thing that leaves no room for an
/// oven standing on the ground with its mouth at mouth.z: walls, blocks, trunks, the walls of a
/// bay, its lintel or a slab where they hang lower than the mouth. 0 inside one of them and inside
/// a crown; infinity where there is none. Crowns above the mouth and roofs do not count.
double room_to_stand_m(const Spot& spot, const base::Point& mouth);
}  // namespace ovendays::spot
