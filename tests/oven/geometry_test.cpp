// SPDX-License-Identifier: MIT
#include "ovendays/oven/geometry.h"

#include <cmath>

#include "catch.h"
#include "ovendays/base/constants.h"
#include "ovendays/oven/materials.h"

using namespace ovendays;
using oven::OvenDesign;
using test::within_abs;
using test::within_rel;

namespace {
constexpr double kFewOperations = 1e-12;  // a handful of operations on numbers of order one

base::Point middle(const oven::Facet& facet) {
  base::Point sum;
  for (int i = 0; i < facet.corners; ++i) sum += facet.corner[static_cast<std::size_t>(i)];
  return (1.0 / facet.corners) * sum;
}

// Divergence theorem: over a closed surface the vector areas sum to zero.
base::Vec3 vector_area(const oven::OvenGeometry& geometry) {
  base::Vec3 sum{0, 0, -4.0 * geometry.glass_half_width_m * geometry.glass_half_length_m};
  for (const oven::Facet& facet : geometry.cavity) sum += facet.area_m2() * facet.normal;
  return sum;
}
}  // namespace

TEST_CASE("walls, floor, rim and glass close the cavity at any slope and frame",
          "[oven][identity]") {
  for (const double slope_deg : {0.0, 17.0, 45.0}) {
    for (const double frame_m : {0.0, 0.03}) {
      OvenDesign design = oven::default_design();
      design.box.glazing_slope_rad = slope_deg * base::kRadPerDeg;
      design.box.frame_m = frame_m;
      design.tray.reset();
      const oven::OvenGeometry geometry = oven::build_geometry(design, nullptr, false);
      CHECK(geometry.cavity.size() == (frame_m > 0.0 ? 9U : 5U));
      REQUIRE_THAT(base::norm(vector_area(geometry)), within_abs(0.0, kFewOperations));
      for (const oven::Facet& facet : geometry.cavity) {
        // the middle of the cavity lies on the inner side of every facet
        const base::Point inside{0.0, 0.0, -0.05};
        CHECK(base::dot(facet.normal, inside - middle(facet)) > 0.0);
        REQUIRE_THAT(base::norm(facet.normal), within_abs(1.0, kFewOperations));
      }
    }
  }
}

TEST_CASE("a sloped box has trapezoid side walls of the right area", "[oven][unit]") {
  OvenDesign design = oven::default_design();
  design.tray.reset();
  design.box.inner_width_m = 0.5;
  design.box.inner_depth_m = 0.4;
  design.box.inner_height_m = 0.2;
  design.box.glazing_slope_rad = 30.0 * base::kRadPerDeg;
  const double back_m = 0.2 + 0.4 * std::tan(design.box.glazing_slope_rad);
  const double walls = 0.5 * 0.2 + 0.5 * back_m + 2.0 * 0.4 * 0.5 * (0.2 + back_m);
  const oven::OvenGeometry geometry = oven::build_geometry(design, nullptr, true);
  REQUIRE_THAT(geometry.area_m2[oven::kLiner], within_abs(0.5 * 0.4 + walls, kFewOperations));
  REQUIRE_THAT(geometry.area_m2[oven::kPane0],
               within_abs(0.5 * 0.4 / std::cos(design.box.glazing_slope_rad), kFewOperations));
  CHECK(geometry.area_m2[oven::kPane1] == 0.0);
  CHECK(geometry.flaps.empty());
}

TEST_CASE("a flap stands on its hinge at its flare angle and looks into the mouth",
          "[oven][unit]") {
  for (int edge = 0; edge < 4; ++edge) {
    for (const double flare_deg : {20.0, 60.0, 90.0}) {
      OvenDesign design = oven::default_design();
      design.flaps.resize(1);
      design.flaps[0].edge = static_cast<oven::Edge>(edge);
      design.flaps[0].flare_angle_rad = flare_deg * base::kRadPerDeg;
      const oven::OvenGeometry geometry = oven::build_geometry(design, nullptr, false);
      const oven::Facet& flap = geometry.flaps.at(0);
      REQUIRE_THAT(flap.area_m2(), within_rel(0.4572 * 0.4572, kFewOperations));
      REQUIRE_THAT(geometry.mouth_height_m,
                   within_abs(0.4572 * std::sin(flare_deg * base::kRadPerDeg), kFewOperations));
      // upright component of the normal is the cosine of the angle to the glazing plane
      REQUIRE_THAT(flap.normal.z,
                   within_abs(std::cos(flare_deg * base::kRadPerDeg), kFewOperations));
      const base::Point at = middle(flap);
      CHECK(at.x * flap.normal.x + at.y * flap.normal.y < 0.0);
      CHECK(flap.surface == -1);
    }
  }
}

TEST_CASE("four flaps at 60 deg as long as the opening double the mouth", "[oven][unit]") {
  const oven::OvenGeometry geometry = oven::build_geometry(oven::default_design(), nullptr, false);
  REQUIRE_THAT(geometry.mouth_width_m, within_abs(2.0 * 0.4572, kFewOperations));
  REQUIRE_THAT(geometry.mouth_length_m, within_abs(2.0 * 0.4572, kFewOperations));
  const double rim = std::hypot(0.4572, 0.2286, 0.4572 * std::sqrt(0.75));
  REQUIRE_THAT(geometry.mouth_radius_m, within_abs(rim, kFewOperations));
}

TEST_CASE("corner panels fill the gaps between flaps and look into the mouth", "[oven][unit]") {
  OvenDesign design = oven::default_design();
  design.corners.present = true;
  const oven::OvenGeometry geometry = oven::build_geometry(design, nullptr, false);
  REQUIRE(geometry.flaps.size() == 8U);
  for (std::size_t i = 4; i < 8; ++i) {
    const oven::Facet& corner = geometry.flaps[i];
    CHECK(corner.corners == 3);
    const base::Point at = middle(corner);
    CHECK(at.x * corner.normal.x + at.y * corner.normal.y < 0.0);
    CHECK(corner.normal.z > 0.0);
  }
  // flaps wide enough to meet leave no gap, so no panel
  for (oven::Flap& flap : design.flaps) flap.outer_width_m = 2.0 * 0.4572;
  CHECK(oven::build_geometry(design, nullptr, false).flaps.size() == 4U);
  CHECK(oven::check_design(design).empty());
}

TEST_CASE("exposed areas leave out what a vessel stands on", "[oven][unit]") {
  OvenDesign design = oven::default_design();
  const double tray_m2 = 2.0 * 0.4064 * 0.4064;
  for (const oven::Vessel& vessel : design.vessels) {
    const oven::OvenGeometry geometry = oven::build_geometry(design, &vessel, false);
    const bool pot = vessel.kind == oven::VesselKind::kPot;
    const double foot = pot ? base::kPi * 0.25 * vessel.diameter_m * vessel.diameter_m
                            : vessel.width_m * vessel.depth_m;
    const double side = pot ? base::kPi * vessel.diameter_m * vessel.height_m
                            : 2.0 * (vessel.width_m + vessel.depth_m) * vessel.height_m;
    REQUIRE_THAT(geometry.area_m2[oven::kTray], within_abs(tray_m2 - foot, kFewOperations));
    REQUIRE_THAT(geometry.area_m2[oven::kVessel], within_abs(side, kFewOperations));
    // the top is the lid, or the food where there is none
    REQUIRE_THAT(geometry.area_m2[oven::kVesselTop], within_abs(foot, kFewOperations));
    CHECK(geometry.pot.has_value() == pot);
  }
}

TEST_CASE("the mouth frame is right-handed and faces the azimuth", "[oven][unit]") {
  // facing south, glazing level: x is east, y is north, z is up
  const base::Frame level = oven::mouth_frame({1, 2, 3}, base::kPi, 0.0);
  REQUIRE_THAT(level.x.x, within_abs(1.0, kFewOperations));
  REQUIRE_THAT(level.y.y, within_abs(1.0, kFewOperations));
  REQUIRE_THAT(level.z.z, within_abs(1.0, kFewOperations));
  for (const double azimuth_deg : {0.0, 75.0, 200.0, 310.0}) {
    const double azimuth = azimuth_deg * base::kRadPerDeg;
    const double tilt = 35.0 * base::kRadPerDeg;
    const base::Frame frame = oven::mouth_frame({}, azimuth, tilt);
    const base::Direction sun = base::direction_from_sky(azimuth, 0.5 * base::kPi - tilt);
    REQUIRE_THAT(base::norm(frame.z - sun), within_abs(0.0, kFewOperations));
    REQUIRE_THAT(base::norm(base::cross(frame.x, frame.y) - frame.z),
                 within_abs(0.0, kFewOperations));
    // "up the slope" goes up, away from the azimuth it faces
    CHECK(frame.y.z > 0.0);
    REQUIRE_THAT(frame.x.z, within_abs(0.0, kFewOperations));
  }
}
