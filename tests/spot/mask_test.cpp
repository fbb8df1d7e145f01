// SPDX-License-Identifier: MIT
#include <cmath>
#include <numeric>

#include "catch.h"
#include "degrees.h"
#include "ovendays/base/constants.h"
#include "ovendays/spot/scene.h"

namespace base = ovendays::base;
namespace spot = ovendays::spot;
using ovendays::test::kDeg;
using ovendays::test::within_abs;

namespace {
const std::vector<base::Point> kMouth = {{0.0, 0.0, 0.9}};

spot::SpotMask mask_of(std::vector<spot::Obstruction> obstructions, int month = 6) {
  spot::Spot s;
  s.obstructions = std::move(obstructions);
  return spot::Scene(s).mask(kMouth, month);
}

double blocked_total(const std::array<double, spot::kFacings>& blocked) {
  return std::accumulate(blocked.begin(), blocked.end(), 0.0);
}

// The patch nearest to a direction.
std::size_t patch_at(const std::vector<ovendays::sky::Patch>& patches,
                     double azimuth_deg,
                     double elevation_deg) {
  const auto d = base::direction_from_sky(azimuth_deg * kDeg, elevation_deg * kDeg);
  std::size_t best = 0;
  for (std::size_t i = 1; i < patches.size(); ++i) {
    if (base::dot(patches[i].direction, d) > base::dot(patches[best].direction, d)) best = i;
  }
  return best;
}

// View factor of a horizontal element to a parallel rectangle a x b at height c, with a corner
// straight above the element (catalogue of configuration factors, Howell; from memory).
double corner_view_factor(double a_m, double b_m, double c_m) {
  const double x = a_m / c_m;
  const double y = b_m / c_m;
  const double rx = std::sqrt(1.0 + x * x);
  const double ry = std::sqrt(1.0 + y * y);
  return (x / rx * std::atan(y / rx) + y / ry * std::atan(x / ry)) / base::kTwoPi;
}
}  // namespace

TEST_CASE("every patch is fully visible from open ground", "[spot][identity]") {
  const spot::SpotMask mask = mask_of({});
  REQUIRE(mask.sky.size() == mask.sky_visible.size());
  REQUIRE(mask.sky.size() == mask.sky_blocked.size());
  REQUIRE(mask.ground.size() == mask.ground_visible.size());
  REQUIRE(mask.horizon.size() == mask.horizon_visible.size());
  for (const double v : mask.sky_visible) REQUIRE_THAT(v, within_abs(1.0, 1e-12));
  for (const double v : mask.ground_visible) REQUIRE_THAT(v, within_abs(1.0, 1e-12));
  for (const double v : mask.horizon_visible) REQUIRE_THAT(v, within_abs(1.0, 1e-12));
  REQUIRE_THAT(mask.sky_view_factor, within_abs(1.0, 1e-9));
}

TEST_CASE("a long wall leaves a sky view factor of (1 + cos) / 2", "[spot][reference]") {
  // Closed form for a strip seen from a horizontal element: the wall blocks (1 - cos(b)) / 2, where
  // b is the elevation of its top. The wall is 2000 m long and 3 m away. With directions a third of
  // a patch apart, an edge that cuts patches at all heights leaves an error of 0.002.
  for (const double angle_deg : {15.0, 30.0, 45.0, 60.0}) {
    const double top_m = 0.9 + 3.0 * std::tan(angle_deg * kDeg);
    const auto mask = mask_of({spot::Wall{"", -1000, 3, 1000, 3, 0, top_m}});
    INFO(angle_deg);
    REQUIRE_THAT(mask.sky_view_factor, within_abs((1.0 + std::cos(angle_deg * kDeg)) / 2.0, 0.002));
  }
}

TEST_CASE("beneath a wide roof only the sky beyond its edge is visible", "[spot][reference]") {
  // The visible strip extends from the horizon to the edge, at an angle t from the zenith:
  // (1 - sin(t)) / 2. The roof is 1.5 m above the mouth, its edge `out` metres south.
  for (const double out_m : {0.3, 1.0, 3.0}) {
    spot::Overhang roof{"", 0.0, 1000.0 - out_m, 4000.0, 2000.0};
    roof.underside_m = 2.4;
    roof.thickness_m = 0.001;
    const auto mask = mask_of({roof});
    const double t = std::atan(out_m / 1.5);
    INFO(out_m);
    REQUIRE_THAT(mask.sky_view_factor, within_abs((1.0 - std::sin(t)) / 2.0, 0.002));
  }
}

TEST_CASE("a rectangular roof reduces the sky view factor by its configuration factor",
          "[spot][reference]") {
  spot::Overhang roof{"", 0.5, -0.5, 4.0, 3.0};
  roof.underside_m = 2.4;
  roof.thickness_m = 0.001;
  const auto mask = mask_of({roof});
  const double c = 1.5;
  const double taken = corner_view_factor(2.5, 1.0, c) + corner_view_factor(2.5, 2.0, c) +
                       corner_view_factor(1.5, 1.0, c) + corner_view_factor(1.5, 2.0, c);
  REQUIRE_THAT(1.0 - mask.sky_view_factor, within_abs(taken, 0.002));  // as above
}

TEST_CASE("a roof blocks exactly the patches it covers and shows its underside", "[spot][unit]") {
  spot::Overhang roof{"", 0.0, 10.0, 40.0, 20.0};  // extends north from the mouth
  roof.underside_m = 2.4;
  roof.reflectance = 0.6;
  const auto mask = mask_of({roof});
  const std::size_t north = patch_at(mask.sky, 0.0, 60.0);
  const std::size_t south = patch_at(mask.sky, 180.0, 60.0);
  REQUIRE(mask.sky_visible[north] == 0.0);
  REQUIRE_THAT(mask.sky_blocked[north][static_cast<std::size_t>(spot::Facing::kDown)],
               within_abs(0.6, 1e-12));
  REQUIRE_THAT(mask.sky_visible[south], within_abs(1.0, 1e-12));
  REQUIRE(blocked_total(mask.sky_blocked[south]) == 0.0);
}

TEST_CASE("blocking surfaces are classed by the side that faces the viewer", "[spot][unit]") {
  struct Side {
    spot::Wall wall;
    double azimuth_deg;
    spot::Facing facing;
  };
  const std::vector<Side> sides = {{{"", -9, 3, 9, 3, 0, 9}, 0.0, spot::Facing::kSouth},
                                   {{"", 3, -9, 3, 9, 0, 9}, 90.0, spot::Facing::kWest},
                                   {{"", -9, -3, 9, -3, 0, 9}, 180.0, spot::Facing::kNorth},
                                   {{"", -3, -9, -3, 9, 0, 9}, 270.0, spot::Facing::kEast}};
  for (const Side& side : sides) {
    const auto mask = mask_of({side.wall});
    const std::size_t at = patch_at(mask.sky, side.azimuth_deg, 30.0);
    INFO(side.azimuth_deg);
    REQUIRE(mask.sky_visible[at] == 0.0);
    REQUIRE_THAT(mask.sky_blocked[at][static_cast<std::size_t>(side.facing)],
                 within_abs(side.wall.reflectance, 1e-12));
    REQUIRE_THAT(blocked_total(mask.sky_blocked[at]), within_abs(side.wall.reflectance, 1e-12));
  }
}

TEST_CASE("a white surface reflects everything that it blocks", "[spot][identity]") {
  spot::Tree tree{"", -4, -3, 1.5, 6, 4};
  tree.transmission.fill(0.35);
  tree.reflectance = 1.0;
  spot::Wall wall{"", 2, -5, 6, 3, 0, 3};
  wall.reflectance = 1.0;
  spot::Bay bay{"", 0, -0.6, base::kPi, 3, 5, 2.1, 2.4};
  bay.reflectance = 1.0;
  spot::Block block{"", 5, -20, 9, 9, 12};
  block.reflectance = 1.0;
  const auto mask = mask_of({tree, wall, bay, block});
  for (std::size_t i = 0; i < mask.sky.size(); ++i) {
    REQUIRE_THAT(mask.sky_visible[i] + blocked_total(mask.sky_blocked[i]), within_abs(1.0, 1e-12));
  }
  for (std::size_t i = 0; i < mask.ground.size(); ++i) {
    REQUIRE_THAT(mask.ground_visible[i] + blocked_total(mask.ground_blocked[i]),
                 within_abs(1.0, 1e-12));
  }
}

TEST_CASE("a wall lower than the mouth blocks ground and no sky", "[spot][unit]") {
  // The wall is 1 m north and 0.5 m high, the mouth at 0.9 m: rays to the north that descend at
  // between atan(0.4) = 21.8 deg and atan(0.9) = 42 deg hit it; steeper ones reach the ground
  // before it.
  const auto mask = mask_of({spot::Wall{"", -50, 1, 50, 1, 0, 0.5}});
  REQUIRE_THAT(mask.sky_view_factor, within_abs(1.0, 1e-9));
  const auto north = [&mask](double elevation_deg) {
    return mask.ground_visible[patch_at(mask.ground, 5.0, elevation_deg)];
  };
  REQUIRE_THAT(north(-5.0), within_abs(1.0, 1e-12));
  REQUIRE(north(-35.0) == 0.0);
  REQUIRE_THAT(north(-65.0), within_abs(1.0, 1e-12));
  REQUIRE_THAT(mask.ground_visible[patch_at(mask.ground, 180.0, -35.0)], within_abs(1.0, 1e-12));
}

TEST_CASE("a crown in front of a wall shows both, and one behind it is hidden", "[spot][unit]") {
  spot::Tree tree{"", 0, 6, 0.5, 9, 8, 0.0};
  tree.transmission.fill(0.5);
  tree.reflectance = 0.2;
  spot::Wall wall{"", -50, 12, 50, 12, 0, 20};
  wall.reflectance = 0.8;
  const auto front = mask_of({tree, wall});
  const std::size_t at = patch_at(front.sky, 0.0, 32.0);
  const auto south = static_cast<std::size_t>(spot::Facing::kSouth);
  REQUIRE(front.sky_visible[at] == 0.0);
  REQUIRE_THAT(front.sky_blocked[at][south], within_abs(0.5 * 0.2 + 0.5 * 0.8, 1e-12));
  wall.y1_m = wall.y2_m = 1.0;
  const auto behind = mask_of({tree, wall});
  REQUIRE_THAT(behind.sky_blocked[at][south], within_abs(0.8, 1e-12));
}

TEST_CASE("visibility of the horizon band is the mean of the lowest six degrees", "[spot][unit]") {
  spot::Spot s;
  s.horizon = {{0.0, base::kPi / 2.0, base::kPi, 1.5 * base::kPi},
               {4 * kDeg, 4 * kDeg, 4 * kDeg, 4 * kDeg}};
  const auto mask = spot::Scene(s).mask(kMouth, 1);
  for (const double v : mask.horizon_visible) REQUIRE_THAT(v, within_abs(1.0 / 3.0, 1e-12));
  // Hills up to 4 deg block sin^2(4 deg) of the sky of a horizontal surface.
  REQUIRE_THAT(mask.sky_view_factor, within_abs(1.0 - std::pow(std::sin(4 * kDeg), 2), 0.002));
  const std::size_t low = patch_at(mask.sky, 180.0, 2.5);
  REQUIRE(mask.sky_blocked[low][static_cast<std::size_t>(spot::Facing::kNorth)] > 0.1);
}

TEST_CASE("a patch behind an edge is partly visible over the points of the mouth", "[spot][unit]") {
  spot::Spot s;
  s.obstructions = {spot::Wall{"", -50, 2, 50, 2, 0, 2.0}};
  const spot::Scene scene(s);
  base::Frame frame;
  frame.origin = {0.0, 0.0, 0.9};
  const auto points = spot::mouth_points(frame, 0.8, 0.8, 3);
  const auto mask = scene.mask(points, 3);
  const std::size_t edge = patch_at(mask.sky, 2.0, 28.8);  // atan(1.1 / 2)
  REQUIRE(mask.sky_visible[edge] > 0.1);
  REQUIRE(mask.sky_visible[edge] < 0.9);
}

TEST_CASE("months with equal tree transmission give masks with the same bits",
          "[spot][determinism]") {
  spot::Tree tree{"", 0, -6, 2, 6, 4};
  tree.transmission.fill(0.2);
  tree.transmission[0] = 0.6;
  spot::Spot s;
  s.obstructions = {tree};
  const spot::Scene scene(s);
  REQUIRE(scene.same_mask(4, 9));
  REQUIRE(scene.mask(kMouth, 4).sky_visible == scene.mask(kMouth, 9).sky_visible);
  REQUIRE(scene.mask(kMouth, 1).sky_visible != scene.mask(kMouth, 9).sky_visible);
}
