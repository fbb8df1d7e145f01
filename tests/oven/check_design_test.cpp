// SPDX-License-Identifier: MIT
#include <algorithm>

#include "catch.h"
#include "ovendays/base/constants.h"
#include "ovendays/oven/design.h"

using namespace ovendays;
using oven::DesignFault;
using oven::OvenDesign;

namespace {
bool complains(const OvenDesign& design, const std::string& table, const std::string& key) {
  const std::vector<DesignFault> faults = oven::check_design(design);
  return std::any_of(faults.begin(), faults.end(), [&](const DesignFault& fault) {
    return fault.table == table && fault.key == key && !fault.got.empty();
  });
}
}  // namespace

TEST_CASE("the default design can be built", "[oven][unit]") {
  CHECK(oven::check_design(oven::default_design()).empty());
}

TEST_CASE("flaps that pass through each other are refused, touching ones are not", "[oven][unit]") {
  OvenDesign design = oven::default_design();
  const double meeting_m = 2.0 * 0.4572;  // 18 in + 2 * 18 in * cos(60 deg)
  for (oven::Flap& flap : design.flaps) flap.outer_width_m = meeting_m;
  CHECK(oven::check_design(design).empty());
  for (oven::Flap& flap : design.flaps) flap.outer_width_m = meeting_m + 0.02;
  CHECK(complains(design, "flap", "outer_width"));
  // a wide flap that leans further out clears its upright neighbours
  for (oven::Flap& flap : design.flaps) flap.outer_width_m = 0.0;
  design.flaps[0].flare_angle_rad = 20.0 * base::kRadPerDeg;
  design.flaps[0].outer_width_m = 1.2;
  CHECK(oven::check_design(design).empty());
}

TEST_CASE("flaps laid flat on top of each other are refused", "[oven][unit]") {
  OvenDesign design = oven::default_design();
  for (oven::Flap& flap : design.flaps) flap.flare_angle_rad = 0.0;
  CHECK(oven::check_design(design).empty());
  for (oven::Flap& flap : design.flaps) flap.outer_width_m = 1.5;  // beyond 45 deg
  CHECK(complains(design, "flap", "outer_width"));
  design.flaps.resize(1);
  design.flaps.push_back(design.flaps[0]);
  CHECK(complains(design, "flap", "outer_width"));
}

TEST_CASE("vessels that do not fit are refused", "[oven][unit]") {
  OvenDesign design = oven::default_design();
  design.vessels[0].height_m = 0.2286 - 0.01016 - 1e-3;
  CHECK(oven::check_design(design).empty());
  design.vessels[0].height_m = 0.2286 - 0.01016;
  CHECK(complains(design, "vessel", "height"));

  design = oven::default_design();
  design.vessels[0].diameter_m = 0.41;
  design.vessels[1].width_m = 0.41;
  design.vessels[2].depth_m = 0.41;
  CHECK(complains(design, "vessel", "diameter"));
  CHECK(complains(design, "vessel", "width"));
  CHECK(complains(design, "vessel", "depth"));
}

TEST_CASE("sloped glass is nearest to a vessel's front rim", "[oven][unit]") {
  OvenDesign design = oven::default_design();
  design.box.inner_height_m = 0.05;
  design.box.glazing_slope_rad = 30.0 * base::kRadPerDeg;
  design.vessels.resize(1);
  design.vessels[0].diameter_m = 0.2;
  // 0.05 + (0.2286 - 0.1) tan 30 deg - 0.01016 = 0.1141
  design.vessels[0].height_m = 0.1135;
  CHECK(oven::check_design(design).empty());
  design.vessels[0].height_m = 0.1145;
  CHECK(complains(design, "vessel", "height"));
}

TEST_CASE("frames, trays, panes, layers, hinges and notches are checked", "[oven][unit]") {
  OvenDesign design = oven::default_design();
  design.box.frame_m = 0.2286;
  CHECK(complains(design, "box", "frame"));
  design = oven::default_design();
  design.tray->width_m = 0.46;
  design.tray->depth_m = 0.46;
  design.tray->height_m = 0.23;
  CHECK(complains(design, "tray", "width"));
  CHECK(complains(design, "tray", "depth"));
  CHECK(complains(design, "tray", "height"));
  design = oven::default_design();
  design.panes.resize(4);
  design.box.floor.clear();
  design.flaps[1].hinge_width_m = 0.5;
  design.aim.notch_tilt_rad = {0.0, 0.3, 0.2};
  design.vessels[1].name = design.vessels[0].name;
  CHECK(complains(design, "", "pane"));
  CHECK(complains(design, "", "layer"));
  CHECK(complains(design, "flap", "hinge_width"));
  CHECK(complains(design, "aim", "notches"));
  CHECK(complains(design, "vessel", "name"));
}
