// SPDX-License-Identifier: MIT
// What spills, what slides and what has room under the glass: angles in closed form, volumes summed
// up over the foot, and the turned side view, corner by corner.
#include "ovendays/oven/shelf.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "catch.h"
#include "degrees.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/random.h"

using namespace ovendays;
using oven::OvenDesign;
using oven::Stand;
using oven::TiltLimit;
using oven::Vessel;
using oven::VesselKind;
using test::kDeg;
using test::within_abs;
using test::within_rel;

namespace {
constexpr double kInch_m = 0.0254;
constexpr double kRounding = 1e-12;

Vessel pot(double diameter_m, double height_m) {
  Vessel vessel;
  vessel.name = "pot";
  vessel.diameter_m = diameter_m;
  vessel.height_m = height_m;
  return vessel;
}

Vessel pan(double width_m, double depth_m, double height_m) {
  Vessel vessel;
  vessel.name = "pan";
  vessel.kind = VesselKind::kPan;
  vessel.width_m = width_m;
  vessel.depth_m = depth_m;
  vessel.height_m = height_m;
  return vessel;
}

/// What a tilted vessel still holds when it is full to the lowest point of its rim: the depth of
/// liquid summed up over the foot, by strips across the tilt.
double held_m3(const Vessel& vessel, double tilt_rad) {
  constexpr int kStrips = 20000;
  const bool round = vessel.kind == VesselKind::kPot;
  const double length_m = round ? vessel.diameter_m : vessel.depth_m;
  double sum_m3 = 0.0;
  for (int i = 0; i < kStrips; ++i) {
    const double from_low_m = (i + 0.5) / kStrips * length_m;
    const double y = from_low_m - 0.5 * length_m;
    const double wide_m =
        round ? 2.0 * std::sqrt(0.25 * length_m * length_m - y * y) : vessel.width_m;
    const double deep_m = std::max(0.0, vessel.height_m - from_low_m * std::tan(tilt_rad));
    sum_m3 += wide_m * deep_m * length_m / kStrips;
  }
  return sum_m3;
}

OvenDesign with_shelf(const oven::Shelf& shelf) {
  OvenDesign design = oven::default_design();
  design.shelf = shelf;
  return design;
}

/// The lowest box in which a turned vessel has room, found by halving.
double least_height_m(OvenDesign design, const Vessel& vessel, double turned_rad) {
  double low_m = 0.0;
  double high_m = 5.0;
  for (int i = 0; i < 60; ++i) {
    design.box.inner_height_m = 0.5 * (low_m + high_m);
    (oven::has_room(design, vessel, turned_rad) ? high_m : low_m) = design.box.inner_height_m;
  }
  return high_m;
}
}  // namespace

TEST_CASE("half a cylinder of its own width in height spills at 45 degrees", "[oven][reference]") {
  // tan = 2 freeboard / diameter: 2 x 0.1 / 0.2 = 1.
  const Vessel tall = pot(0.2, 0.2);
  CHECK_THAT(oven::spill_tilt_rad(tall, 0.5 * base::kPi * 0.01 * 0.2),
             within_abs(45.0 * kDeg, kRounding));
  // 5 cm of freeboard over a radius of 10 cm: atan 0.5.
  CHECK_THAT(oven::spill_tilt_rad(pot(0.2, 0.1), base::kPi * 0.01 * 0.05) / kDeg,
             within_abs(26.565051177, 1e-9));
}

TEST_CASE("a pan spills along its depth", "[oven][reference]") {
  // 30 x 20 x 8 cm with 3 l: 5 cm deep, 3 cm of freeboard over half of 20 cm.
  const double three_l_m3 = 0.003;
  CHECK_THAT(std::tan(oven::spill_tilt_rad(pan(0.3, 0.2, 0.08), three_l_m3)),
             within_abs(0.3, kRounding));
}

TEST_CASE("three litres in the starter's pot spill at about ten degrees", "[oven][reference]") {
  const Vessel starter = *oven::default_design().vessel("black pot");
  // 8.5 in across, 4 in high: foot 0.03661 m2, so 3 l stand 8.194 cm high, 1.966 cm below the rim.
  CHECK_THAT(oven::spill_tilt_rad(starter, 0.003) / kDeg, within_abs(10.32, 0.01));
  // 4 lb of soup, 1.814 l: 4.956 cm high.
  CHECK_THAT(oven::spill_tilt_rad(starter, 0.0018144) / kDeg, within_abs(25.7, 0.05));
}

TEST_CASE("a vessel holds at its spill angle what is in it", "[oven][identity]") {
  for (const Vessel& vessel : {pot(0.22, 0.1), pot(0.18, 0.25), pan(0.3, 0.25, 0.06)}) {
    const double full_m3 = vessel.base_m2() * vessel.height_m;
    for (const double share : {0.5, 0.6, 0.8, 0.95}) {
      INFO(vessel.name << ", " << share << " full");
      const double tilt_rad = oven::spill_tilt_rad(vessel, share * full_m3);
      // 1e-4: strips at the rim of a circle.
      CHECK_THAT(held_m3(vessel, tilt_rad), within_rel(share * full_m3, 1e-4));
    }
    // Less than half full, the foot falls dry and the vessel holds more than the formula says.
    for (const double share : {0.1, 0.3, 0.45}) {
      INFO(vessel.name << ", " << share << " full");
      const double tilt_rad = oven::spill_tilt_rad(vessel, share * full_m3);
      CHECK(held_m3(vessel, tilt_rad) > share * full_m3);
    }
  }
}

TEST_CASE("a vessel that is too full spills when it is level", "[oven][unit]") {
  CHECK(oven::spill_tilt_rad(pot(0.2, 0.1), 1.0) == 0.0);
}

TEST_CASE("friction of one half holds to 26.57 degrees", "[oven][reference]") {
  CHECK_THAT(oven::slide_tilt_rad({}) / kDeg, within_abs(26.565051177, 1e-9));
  CHECK_THAT(oven::slide_tilt_rad({.friction = 1.0}) / kDeg, within_abs(45.0, 1e-9));
}

TEST_CASE("a turned pot needs height h cos b + D sin b above its stand", "[oven][reference]") {
  OvenDesign design = oven::default_design();
  const double stand_m = design.tray->height_m;
  const Vessel each = pot(8.5 * kInch_m, 4.0 * kInch_m);
  for (const double turned_deg : {0.0, 10.0, 30.0, 50.0, 80.0}) {
    const double b = turned_deg * kDeg;
    INFO(turned_deg << " deg");
    CHECK_THAT(least_height_m(design, each, b) - stand_m,
               within_abs(4.0 * kInch_m * std::cos(b) + 8.5 * kInch_m * std::sin(b), 1e-8));
  }
  design.tray.reset();
  CHECK_THAT(least_height_m(design, each, 0.5),
             within_abs(4.0 * kInch_m * std::cos(0.5) + 8.5 * kInch_m * std::sin(0.5), 1e-8));
}

TEST_CASE("between front and back wall a turned pan needs L cos b + h sin b", "[oven][reference]") {
  OvenDesign design = oven::default_design();
  design.box.inner_height_m = 2.0;
  const double b = 35.0 * kDeg;
  const Vessel each = pan(0.2, 0.3, 0.1);
  const double needed_m = 0.3 * std::cos(b) + 0.1 * std::sin(b);
  design.box.inner_depth_m = needed_m + 1e-6;
  CHECK(oven::has_room(design, each, b));
  design.box.inner_depth_m = needed_m - 1e-6;
  CHECK_FALSE(oven::has_room(design, each, b));
}

TEST_CASE("under sloped glass the room is that of the turned corners", "[oven][identity]") {
  base::KeyedRandom random(20);
  int fits = 0;
  for (int i = 0; i < 2000; ++i) {
    OvenDesign design = oven::default_design();
    design.box.glazing_slope_rad = 40.0 * kDeg * random.uniform();
    design.box.inner_depth_m = 0.3 + 0.4 * random.uniform();
    design.box.inner_height_m = 0.1 + 0.3 * random.uniform();
    const Vessel each = pan(0.2, 0.1 + 0.2 * random.uniform(), 0.02 + 0.15 * random.uniform());
    const double b = 60.0 * kDeg * random.uniform();
    // The side view turned about the middle of its foot, then moved to the middle of the box and
    // down to the tray.
    const double half_m = 0.5 * each.depth_m;
    std::array<std::array<double, 2>, 4> corners{
        {{-half_m, 0.0}, {half_m, 0.0}, {half_m, each.height_m}, {-half_m, each.height_m}}};
    double lowest = 1e9;
    double front = 1e9;
    double back = -1e9;
    for (auto& [y, z] : corners) {
      const double turned_y = y * std::cos(b) + z * std::sin(b);
      z = z * std::cos(b) - y * std::sin(b);
      y = turned_y;
      lowest = std::min(lowest, z);
      front = std::min(front, y);
      back = std::max(back, y);
    }
    bool expected = back - front <= design.box.inner_depth_m;
    for (const auto& [y, z] : corners) {
      const double from_front_m = y - 0.5 * (front + back) + 0.5 * design.box.inner_depth_m;
      const double height_m = z - lowest + design.tray->height_m;
      const double glass_m =
          design.box.inner_height_m + from_front_m * std::tan(design.box.glazing_slope_rad);
      expected = expected && height_m <= glass_m;
    }
    INFO("box " << i);
    CHECK(oven::has_room(design, each, b) == expected);
    fits += expected ? 1 : 0;
  }
  CHECK(fits > 400);
  CHECK(fits < 1900);
}

TEST_CASE("fixed to the box a pot tilts with it until it spills or slides", "[oven][unit]") {
  const OvenDesign design = with_shelf({});
  const Vessel& black = *design.vessel("black pot");
  const auto limits = [&](double liquid_m3) {
    std::vector<TiltLimit> all;
    for (const Stand& stand : oven::stands(design, black, liquid_m3)) {
      CHECK(stand.turned_back_rad == 0.0);
      all.push_back(stand.limit);
    }
    return all;
  };
  using enum TiltLimit;
  // Notches of 0, 10, ... 50 deg. Solid food slides from 26.6 deg, 1.8 l of soup spill from 25.7
  // deg, 3 l from 10.3 deg.
  CHECK(limits(0.0) == std::vector{kNone, kNone, kNone, kSlides, kSlides, kSlides});
  CHECK(limits(0.0018144) == std::vector{kNone, kNone, kNone, kSpills, kSpills, kSpills});
  CHECK(limits(0.003) == std::vector{kNone, kNone, kSpills, kSpills, kSpills, kSpills});
}

TEST_CASE("a rack that swings is level wherever it has room", "[oven][unit]") {
  const OvenDesign design = with_shelf({.level = true});
  const std::vector<Stand> all = oven::stands(design, *design.vessel("black pot"), 0.003);
  const std::vector<double>& notches = design.aim.notch_tilt_rad;
  for (std::size_t i = 0; i < all.size(); ++i) {
    INFO("notch " << i);
    CHECK(all[i].tilt_rad == 0.0);
    CHECK(all[i].turned_back_rad == notches[i]);
    // 8.5 sin b + 4 cos b + 0.4 in against 9 in: 8.93 at 40 deg, 9.48 at 50 deg.
    CHECK((all[i].limit == TiltLimit::kNone) == (i <= 4));
    if (i > 4) CHECK(all[i].limit == TiltLimit::kGlass);
  }
}

TEST_CASE("a rack with settings stops short of the glass if nothing spills", "[oven][unit]") {
  OvenDesign design = oven::default_design();  // settings 10 deg apart
  const Vessel& black = *design.vessel("black pot");
  const std::vector<Stand> water = oven::stands(design, black, 0.003);
  REQUIRE(water.size() == 6U);
  for (std::size_t i = 0; i < water.size(); ++i) {
    CHECK(water[i].limit == TiltLimit::kNone);
    CHECK_THAT(water[i].tilt_rad, within_abs(i < 5 ? 0.0 : 10.0 * kDeg, kRounding));
  }
  // In a box of 8 in the rack can be turned by 20 deg: 8.5 sin b + 4 cos b + 0.4 = 7.07; at 30 deg
  // it would be 8.11.
  design.box.inner_height_m = 8.0 * kInch_m;
  const std::vector<Stand> low_water = oven::stands(design, black, 0.003);
  const std::vector<Stand> low_rice = oven::stands(design, black, 0.00118);
  for (const auto& low : {low_water, low_rice}) {
    for (std::size_t i = 2; i < 6; ++i)
      CHECK_THAT(low[i].turned_back_rad, within_abs(20.0 * kDeg, kRounding));
  }
  // Three litres bear 10 deg, the pot with rice slides from 26.6 deg.
  for (std::size_t i = 0; i < 6; ++i) {
    CHECK(low_water[i].limit == (i <= 3 ? TiltLimit::kNone : TiltLimit::kGlass));
    CHECK(low_rice[i].limit == (i <= 4 ? TiltLimit::kNone : TiltLimit::kGlass));
  }
}

TEST_CASE("a rack with coarse settings is held back by what spills", "[oven][unit]") {
  OvenDesign design = with_shelf({.level = true, .step_rad = 30.0 * kDeg});
  design.box.inner_height_m = 0.4;
  const std::vector<Stand> all = oven::stands(design, *design.vessel("black pot"), 0.0032);
  // 3.2 l spill from 7.5 deg; settings of 0, 30 and 60 deg leave up to 10 deg over.
  const std::vector<double> left_deg{0.0, 10.0, -10.0, 0.0, 10.0, -10.0};
  for (std::size_t i = 0; i < 6; ++i) {
    CHECK_THAT(all[i].tilt_rad, within_abs(left_deg[i] * kDeg, kRounding));
    CHECK(all[i].limit == (left_deg[i] == 0.0 ? TiltLimit::kNone : TiltLimit::kSpills));
  }
}

TEST_CASE("in a roomy box a rack is off level by half a step at most", "[oven][identity]") {
  base::KeyedRandom random(21);
  for (int i = 0; i < 500; ++i) {
    OvenDesign design = oven::default_design();
    design.box.inner_height_m = design.box.inner_depth_m = 3.0;
    const double step_rad = (1.0 + 30.0 * random.uniform()) * kDeg;
    design.shelf = {.level = true, .step_rad = step_rad};
    design.aim.notch_tilt_rad = {80.0 * kDeg * random.uniform()};
    const Stand stand = oven::stands(design, design.vessels[0], 0.0).front();
    const double settings = stand.turned_back_rad / step_rad;
    CHECK_THAT(settings, within_abs(std::round(settings), 1e-9));
    CHECK(std::abs(stand.tilt_rad) <= 0.5 * step_rad + 1e-9);
    CHECK_THAT(stand.turned_back_rad + stand.tilt_rad,
               within_abs(design.aim.notch_tilt_rad[0], kRounding));
  }
}
