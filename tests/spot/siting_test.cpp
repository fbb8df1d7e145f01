// SPDX-License-Identifier: MIT
// Clearance, checked by plane geometry, and what changes with the position of the oven.
#include <cmath>

#include "catch.h"
#include "ovendays/base/constants.h"
#include "ovendays/spot/scene.h"
#include "ovendays/spot/siting.h"

using namespace ovendays;
using namespace ovendays::spot;
using test::within_abs;

namespace {
constexpr double kRounding_m = 1e-12;  // a few operations on metres

Spot with(const Obstruction& obstruction) {
  Spot spot;
  spot.obstructions.push_back(obstruction);
  return spot;
}
}  // namespace

TEST_CASE("clearance from a wall is the distance to it or to its nearer end", "[spot][unit]") {
  const Spot spot = with(Wall{.name = "", .x1_m = 0, .y1_m = 0, .x2_m = 4, .y2_m = 0});
  CHECK_THAT(clearance_m(spot, {2.0, -1.5, 0.9}), within_abs(1.5, kRounding_m));
  CHECK_THAT(clearance_m(spot, {7.0, 4.0, 0.9}), within_abs(5.0, kRounding_m));  // 3-4-5
  // There is clearance below a wall that begins above the mouth.
  const Spot high = with(Wall{.name = "", .x1_m = 0, .y1_m = 0, .x2_m = 4, .y2_m = 0, .base_m = 1});
  CHECK(std::isinf(clearance_m(high, {2.0, 0.0, 0.9})));
}

TEST_CASE("clearance from a turned block is measured from its sides", "[spot][unit]") {
  Block block{.name = "", .x_m = 1, .y_m = 2, .width_m = 4, .depth_m = 2};
  block.turn_rad = 0.5 * base::kPi;  // its width now extends north and south
  const Spot spot = with(block);
  CHECK(clearance_m(spot, {1.0, 3.5, 0.9}) == 0.0);
  CHECK_THAT(clearance_m(spot, {1.0, 5.0, 0.9}), within_abs(1.0, kRounding_m));
  CHECK_THAT(clearance_m(spot, {3.0, 2.0, 0.9}), within_abs(1.0, kRounding_m));
}

TEST_CASE("a bay has clearance inside and none in its walls", "[spot][unit]") {
  const Bay bay{.name = "", .x_m = 0, .y_m = 0, .width_m = 4, .depth_m = 6};  // open to the south
  const Spot spot = with(bay);
  CHECK_THAT(clearance_m(spot, {0.0, 3.0, 0.9}), within_abs(2.0, kRounding_m));
  CHECK_THAT(clearance_m(spot, {2.0, 3.0, 0.9}), within_abs(0.0, kRounding_m));
  // In the opening. A lintel at 2.1 m closes it to a mouth at 2.2 m but not to one at 0.9 m.
  CHECK_THAT(clearance_m(spot, {0.0, 0.0, 0.9}), within_abs(2.0, kRounding_m));
  CHECK_THAT(clearance_m(spot, {0.5, 0.0, 2.2}), within_abs(0.0, kRounding_m));
}

TEST_CASE("there is no clearance inside a crown or a trunk", "[spot][unit]") {
  const Spot spot = with(Tree{.name = "", .crown_base_m = 1, .crown_top_m = 5});
  CHECK(clearance_m(spot, {0.5, 0.0, 3.0}) == 0.0);
  CHECK_THAT(clearance_m(spot, {1.0, 0.0, 0.9}), within_abs(0.85, kRounding_m));
}

TEST_CASE("shelter and roof follow the position unless the case states them", "[spot][unit]") {
  Spot spot = with(Overhang{.name = "", .width_m = 4, .depth_m = 4});
  CHECK(moved_to(spot, {0.0, 0.0, 0.9}).roofed);
  CHECK_FALSE(moved_to(spot, {5.0, 0.0, 0.9}).roofed);
  const double open = wind_profile_factor(spot.terrain, 0.9);
  // A kilometre away, the slab blocks nothing of the band that determines shelter.
  CHECK(moved_to(spot, {1000.0, 0.0, 0.9}).wind_factor == open);
  CHECK(moved_to(spot, {3.0, 0.0, 0.9}).wind_factor <= open);
  spot.stated_roofed = false;
  spot.stated_shelter = 0.5;
  const Spot stated = moved_to(spot, {0.0, 0.0, 0.9});
  CHECK_FALSE(stated.roofed);
  CHECK(stated.wind_factor == 0.5 * open);
}
