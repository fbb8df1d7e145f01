// SPDX-License-Identifier: MIT
// Closed forms for flaps, panes and cavity. OPT-14 is a row of the ledger of published values.
#include <algorithm>
#include <cmath>

#include "catch.h"
#include "drawn_design.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/random.h"
#include "ovendays/optics/acceptance.h"

using namespace ovendays;
using optics::BundleTally;
using oven::Edge;
using oven::OvenDesign;
using test::within_abs;
using test::within_rel;

namespace {
constexpr double kOpening_m = 0.4572;
constexpr double kArea_m2 = kOpening_m * kOpening_m;
constexpr double kTable = 2e-5;  // the pane table's 1e-5, relative to shares near one half

// Everything that enters is absorbed: what is inside is what the glazing let through.
OvenDesign black_box() {
  OvenDesign design = test::drawn_design();
  design.flaps.clear();
  design.tray.reset();
  design.liner.absorptance = 1.0;
  design.panes = {oven::Pane{}};
  return design;
}

oven::Flap mirror(Edge edge, double flare_deg, double reflectance) {
  oven::Flap flap;
  flap.edge = edge;
  flap.length_m = kOpening_m;
  flap.flare_angle_rad = flare_deg * base::kRadPerDeg;
  flap.reflectance = reflectance;
  flap.scatter_rad = 0.0;
  return flap;
}

BundleTally traced(const OvenDesign& design,
                   const base::Direction& towards,
                   int rays = 4096,
                   const oven::Vessel* vessel = nullptr) {
  const optics::Tracer tracer(oven::build_geometry(design, vessel, false), design.panes);
  return tracer.trace(towards, rays, 1e-5);
}

base::Direction from_axis(double angle_deg, double turn_deg) {
  const double a = angle_deg * base::kRadPerDeg;
  const double t = turn_deg * base::kRadPerDeg;
  return {std::sin(a) * std::cos(t), std::sin(a) * std::sin(t), std::cos(a)};
}

double everything(const BundleTally& tally) {
  double sum = tally.flaps_m2 + tally.escaped_m2;
  for (const double part_m2 : tally.acceptance.absorbed_m2) sum += part_m2;
  return sum;
}

base::Direction random_direction(base::KeyedRandom& random) {
  const double z = random.uniform();
  const double turn_deg = 360.0 * random.uniform();
  return from_axis(std::acos(z) * base::kDegPerRad, turn_deg);
}
}  // namespace

TEST_CASE("a bare pane over a black box passes A cos(theta) tau(theta)", "[optics][identity]") {
  for (std::size_t panes = 1; panes <= 3; ++panes) {
    OvenDesign design = black_box();
    design.panes.assign(panes, oven::Pane{});
    for (const double angle_deg : {0.0, 25.0, 50.0, 70.0, 85.0}) {
      const base::Direction towards = from_axis(angle_deg, 33.0);
      const BundleTally tally = traced(design, towards);
      const double met_m2 = kArea_m2 * towards.z;
      const auto split = optics::stack_split(design.panes, towards.z, false);
      REQUIRE_THAT(tally.launched_m2, within_rel(met_m2, 1e-12));
      REQUIRE_THAT(tally.acceptance.inside_m2(), within_abs(met_m2 * split.transmitted, kTable));
      REQUIRE_THAT(tally.escaped_m2, within_abs(met_m2 * split.reflected, kTable));
      for (std::size_t k = 0; k < panes; ++k) {
        REQUIRE_THAT(tally.acceptance.absorbed_m2[k],
                     within_abs(met_m2 * split.absorbed[k], kTable));
      }
      REQUIRE_THAT(tally.acceptance.outer_ir_m2,
                   within_rel(met_m2 * design.panes[0].ir_emittance, 1e-12));
    }
  }
}

TEST_CASE("a long mirror at the edge lights the strip that plane geometry says",
          "[optics][identity]") {
  const double flare_deg = 60.0;
  const double reflectance = 0.8;
  OvenDesign design = black_box();
  design.flaps = {mirror(Edge::kBack, flare_deg, reflectance)};
  design.flaps[0].hinge_width_m = 2.0;  // so wide that its ends do not matter
  const double flare = flare_deg * base::kRadPerDeg;
  const base::Direction normal{0.0, -std::sin(flare), std::cos(flare)};
  // suns on the mirror's side, so that light off the glass does not come back to it
  for (const base::Direction& sun :
       {base::Direction{0, 0, 1}, from_axis(10.0, 90.0), from_axis(15.0, 40.0)}) {
    const base::Direction ray = -sun;
    const base::Direction off = ray - (2.0 * base::dot(ray, normal)) * normal;
    // where the mirror's outer edge is thrown on the glass
    const double rim_y = 0.5 * kOpening_m + kOpening_m * std::cos(flare);
    const double rim_z = kOpening_m * std::sin(flare);
    const double far_y = std::max(rim_y + rim_z * off.y / -off.z, -0.5 * kOpening_m);
    const double strip_m = 0.5 * kOpening_m - far_y;
    const auto tau = [&](double c) { return optics::pane_split(design.panes[0], c).transmitted; };
    const double direct_m2 = kArea_m2 * sun.z * tau(sun.z);
    const double mirrored_m2 = kOpening_m * strip_m * -off.z * reflectance * tau(-off.z);
    const double inside_m2 = traced(design, sun, 65536).acceptance.inside_m2();
    // a quarter of the rays spread over a mirror four times as wide as the glass
    REQUIRE_THAT(inside_m2, within_rel(direct_m2 + mirrored_m2, 1e-3));
    CHECK(mirrored_m2 > 0.1 * direct_m2);
  }
}

TEST_CASE("flaps at 60 deg as long as the opening add half their reflectance",
          "[optics][reference]") {
  // OPT-14: elementary geometry; the reflected beam meets the glass at 60 deg and passes OPT-6's
  // share for that angle: 0.874 and 0.793 for 3 mm, K 16
  OvenDesign design = black_box();
  design.panes[0].thickness_m = 0.003;
  design.panes[0].extinction_1m = 16.0;
  const double rho = 0.8;
  design.flaps = {mirror(Edge::kLeft, 60.0, rho), mirror(Edge::kRight, 60.0, rho)};
  const base::Direction axis{0, 0, 1};
  const double pair = traced(design, axis).acceptance.inside_m2() / kArea_m2;
  REQUIRE_THAT(pair, within_abs(0.874 + rho * 0.793, 1e-3));
  const double straight = optics::pane_split(design.panes[0], 1.0).transmitted;
  const double slanted = optics::pane_split(design.panes[0], 0.5).transmitted;
  REQUIRE_THAT(pair, within_abs(straight + rho * slanted, 1e-4));
  design.flaps.push_back(mirror(Edge::kFront, 60.0, rho));
  design.flaps.push_back(mirror(Edge::kBack, 60.0, rho));
  const BundleTally four = traced(design, axis);
  REQUIRE_THAT(four.acceptance.inside_m2() / kArea_m2,
               within_abs(straight + 2.0 * rho * slanted, 1e-4));
  // infrared from the zenith by the same paths: each flap adds half of its reflectance
  const double ir = design.panes[0].ir_emittance * (1.0 + 2.0 * (1.0 - design.flaps[0].emittance));
  REQUIRE_THAT(four.acceptance.outer_ir_m2 / kArea_m2, within_abs(ir, 1e-4));
}

TEST_CASE("an upright flap between sun and glass casts its shadow", "[optics][identity]") {
  OvenDesign design = black_box();
  design.flaps = {mirror(Edge::kFront, 90.0, 0.8)};
  design.flaps[0].length_m = 0.1;
  design.flaps[0].hinge_width_m = 5.0;
  for (const double height_deg : {60.0, 30.0, 10.0}) {
    const base::Direction sun = from_axis(90.0 - height_deg, -90.0);  // over the front
    const double shadow_m = std::min(kOpening_m, 0.1 / std::tan(height_deg * base::kRadPerDeg));
    const double lit_m2 = kOpening_m * (kOpening_m - shadow_m) * sun.z;
    const BundleTally tally = traced(design, sun, 16384);
    const double expected_m2 = lit_m2 * optics::pane_split(design.panes[0], sun.z).transmitted;
    // 4096 points on the glass find the edge of a strip to about a thousandth of the opening
    REQUIRE_THAT(tally.acceptance.inside_m2(), within_abs(expected_m2, 1e-3 * kArea_m2));
    CHECK(tally.flaps_m2 > 0.0);
  }
}

TEST_CASE("every bundle is accounted for to 1e-12", "[optics][identity]") {
  base::KeyedRandom random(7);
  OvenDesign design = test::drawn_design();
  for (int variant = 0; variant < 6; ++variant) {
    design.corners.present = variant % 2 == 1;
    design.box.glazing_slope_rad = variant >= 3 ? 0.4 : 0.0;
    design.box.frame_m = 0.02 * (variant % 3);
    design.liner.absorptance = variant == 4 ? 0.15 : 0.93;
    design.liner.specular_share = variant == 4 ? 0.7 : 0.0;
    design.panes.assign(static_cast<std::size_t>(variant % 3) + 1, oven::Pane{});
    for (std::size_t v = 0; v < design.vessels.size(); ++v) {
      for (int i = 0; i < 10; ++i) {
        // few rays: close to ray by ray
        const base::Direction towards = random_direction(random);
        const BundleTally tally = traced(design, towards, i < 5 ? 4 : 256, &design.vessels[v]);
        REQUIRE_THAT(everything(tally), within_rel(tally.launched_m2, 1e-12));
        CHECK(*std::min_element(tally.acceptance.absorbed_m2.begin(),
                                tally.acceptance.absorbed_m2.end()) >= 0.0);
      }
    }
  }
}

TEST_CASE("surfaces that absorb nothing send everything back", "[optics][identity]") {
  OvenDesign design = test::drawn_design();
  design.liner.absorptance = 0.0;
  design.tray->absorptance = 0.0;
  design.panes[0].extinction_1m = 0.0;
  for (oven::Flap& flap : design.flaps) flap.reflectance = 1.0;
  const BundleTally tally = traced(design, {0, 0, 1}, 512);
  // what is below the weight of a spent ray is left where it is
  REQUIRE_THAT(tally.escaped_m2, within_rel(tally.launched_m2, 1e-3));
}

TEST_CASE("the pot shades the tray and takes what it hides", "[optics][unit]") {
  OvenDesign design = test::drawn_design();
  design.flaps.clear();
  design.vessels[0].absorptance = 1.0;
  design.tray->absorptance = 1.0;
  design.liner.absorptance = 1.0;
  const base::Direction axis{0, 0, 1};
  const double tau = optics::pane_split(design.panes[0], 1.0).transmitted;
  const double lid_m2 =
      base::kPi * 0.25 * design.vessels[0].diameter_m * design.vessels[0].diameter_m;
  const double tray_m2 = design.tray->width_m * design.tray->depth_m;
  const BundleTally tally = traced(design, axis, 16384, &design.vessels[0]);
  // areas found by 16384 points; their edges to a few parts in a thousand
  REQUIRE_THAT(tally.acceptance.absorbed_m2[oven::kVesselTop], within_rel(tau * lid_m2, 4e-3));
  REQUIRE_THAT(tally.acceptance.absorbed_m2[oven::kTray],
               within_rel(tau * (tray_m2 - lid_m2), 4e-3));
  // without a lid the food takes the sun instead
  design.vessels[0].lid = false;
  const BundleTally open = traced(design, axis, 16384, &design.vessels[0]);
  // of the quarter that food reflects, the glass sends about a tenth back, mostly past the food
  const double food = open.acceptance.absorbed_m2[oven::kVesselTop] / (tau * lid_m2);
  CHECK(food > oven::kFoodAbsorptance * (1.0 - 4e-3));
  CHECK(food < oven::kFoodAbsorptance * (1.0 + 0.25 * 0.1));
  CHECK(open.acceptance.absorbed_m2[oven::kVessel] < 1e-3 * lid_m2);
}

TEST_CASE("under sloped glass the pot stands upright on the level floor", "[optics][unit]") {
  OvenDesign design = test::drawn_design();
  design.flaps.clear();
  design.box.glazing_slope_rad = 25.0 * base::kRadPerDeg;
  design.liner.absorptance = 1.0;
  design.tray->absorptance = 1.0;
  design.vessels[0].absorptance = 1.0;
  const double s = std::sin(design.box.glazing_slope_rad);
  const base::Direction plumb{0.0, s, std::sqrt(1.0 - s * s)};  // the floor's normal
  const double tau = optics::pane_split(design.panes[0], plumb.z).transmitted;
  const BundleTally tally = traced(design, plumb, 16384, &design.vessels[0]);
  const double radius_m = 0.5 * design.vessels[0].diameter_m;
  const double lid_m2 = base::kPi * radius_m * radius_m;
  // light down the pot's axis meets its lid only; the whole floor is under the glass
  REQUIRE_THAT(tally.acceptance.absorbed_m2[oven::kVesselTop], within_rel(tau * lid_m2, 4e-3));
  REQUIRE_THAT(tally.acceptance.inside_m2(), within_rel(tau * kArea_m2, 1e-4));
}

TEST_CASE("left and right, front and back agree within the sampling error", "[optics][identity]") {
  const OvenDesign design = test::drawn_design();
  const base::Direction right = from_axis(30.0, 20.0);
  const base::Direction left{-right.x, right.y, right.z};
  const base::Direction front{right.x, -right.y, right.z};
  const double a = traced(design, right, 16384, &design.vessels[2]).acceptance.inside_m2();
  const double b = traced(design, left, 16384, &design.vessels[2]).acceptance.inside_m2();
  const double c = traced(design, front, 16384, &design.vessels[2]).acceptance.inside_m2();
  REQUIRE_THAT(a, within_rel(b, 5e-3));
  REQUIRE_THAT(a, within_rel(c, 5e-3));
}
