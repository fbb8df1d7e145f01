// SPDX-License-Identifier: MIT
// The starter text that users see and edit. Its comments explain what to measure.
#include "ovendays/spot/spot.h"

namespace ovendays::spot {

const char* example_spot_toml() {
  return R"toml(# Where the oven stands, and what stands around it.
# Measure from one point on the ground: x runs east, y north, heights up from the ground.
# Lengths without a unit are metres ("80 in" and "2 m" both work); angles are degrees, and
# compass angles run clockwise from north: 90 east, 180 south, 270 west.
[spot]
name = "back garden, in front of the carport"
x = "0 m"               # middle of the oven's mouth (its glass): east of the point,
y = "0 m"               # north of the point,
height = "0.9 m"        # and above the ground
terrain = "suburban"    # what the wind has crossed: "open", "suburban" or "city"
# shelter = 0.3         # share of that wind the surroundings keep off; worked out where left out
# roofed = true         # rain does not reach the oven; worked out where left out

# A carport or garage bay, open on one side. The oven stands 0.6 m inside this one.
[[spot.bay]]
name = "carport"
x = "0 m"               # middle of the open side
y = "-0.6 m"
facing = "180 deg"      # the way you look when you look out
width = "3.6 m"
depth = "5 m"
lintel = "2.2 m"        # top of the opening
height = "2.5 m"        # the roof
left_wall = false       # left and right as you look out
right_wall = true
back_wall = true
reflectance = "40 %"    # of the walls and the ceiling; white paint 80 %, brick 30 %

# An upright wall or a close-boarded fence, from one end to the other.
[[spot.wall]]
name = "garden wall"
x1 = "5 m"
y1 = "-8 m"
x2 = "5 m"
y2 = "4 m"
top = "1.8 m"
reflectance = "30 %"

[[spot.tree]]
name = "apple tree"
x = "-7 m"
y = "-6 m"
crown_base = "1.6 m"
crown_top = "5 m"
crown_width = "4 m"
trunk_width = "25 cm"
# Share of sunlight that comes through the crown: one number, or twelve, January first.
transmission = [0.6, 0.6, 0.6, 0.45, 0.25, 0.2, 0.2, 0.2, 0.25, 0.35, 0.55, 0.6]

# [[spot.overhang]]     # a flat roof edge or a table top: x, y, width, depth, turn,
#                       # underside, thickness, reflectance
# [[spot.block]]        # a house or a shed: x, y, width, depth, height, base, turn, reflectance

# Hills far away: how high they reach, by compass angle. Or file = "horizon.csv".
[spot.horizon]
azimuth = [0, 90, 180, 270]
elevation = [3, 6, 1, 2]
)toml";
}
}  // namespace ovendays::spot
