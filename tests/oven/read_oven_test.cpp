// SPDX-License-Identifier: MIT
#include <cmath>
#include <string>

#include "catch.h"
#include "ovendays/base/case_node.h"
#include "ovendays/base/constants.h"
#include "ovendays/oven/design.h"

using namespace ovendays;
using oven::OvenDesign;
using test::contains;
using test::within_abs;
using test::within_rel;

namespace {
constexpr double kUnitRounding = 1e-9;  // unit conversion, relative

OvenDesign read(const std::string& text) {
  base::CaseFile file(text, "case.toml");
  OvenDesign design = oven::read_oven(file.root().table("oven"));
  file.finish();
  return design;
}

std::string complaint(const std::string& text) {
  try {
    read(text);
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}

std::string edited(const std::string& from, const std::string& to) {
  std::string text = oven::example_oven_toml();
  const std::size_t place = text.find(from);
  REQUIRE(place != std::string::npos);
  return text.replace(place, from.size(), to);
}
}  // namespace

TEST_CASE("the example parses without faults into the default design", "[oven][unit]") {
  const OvenDesign read_in = read(oven::example_oven_toml());
  const OvenDesign built = oven::default_design();
  CHECK(read_in.name == built.name);
  REQUIRE_THAT(read_in.box.inner_width_m, within_rel(built.box.inner_width_m, kUnitRounding));
  REQUIRE_THAT(read_in.box.inner_height_m, within_rel(built.box.inner_height_m, kUnitRounding));
  REQUIRE_THAT(read_in.box.leak_area_m2, within_rel(built.box.leak_area_m2, kUnitRounding));
  REQUIRE(read_in.box.wall.size() == built.box.wall.size());
  REQUIRE(read_in.box.floor.size() == built.box.floor.size());
  for (std::size_t i = 0; i < built.box.wall.size(); ++i) {
    CHECK(read_in.box.wall[i].material.name == built.box.wall[i].material.name);
    REQUIRE_THAT(read_in.box.wall[i].thickness_m,
                 within_rel(built.box.wall[i].thickness_m, kUnitRounding));
  }
  REQUIRE(read_in.tray.has_value());
  REQUIRE_THAT(read_in.tray->width_m, within_rel(built.tray->width_m, kUnitRounding));
  REQUIRE_THAT(read_in.tray->height_m, within_rel(built.tray->height_m, kUnitRounding));
  REQUIRE(read_in.panes.size() == 1U);
  REQUIRE_THAT(read_in.panes[0].extinction_1m, within_rel(26.0, kUnitRounding));
  REQUIRE(read_in.aim.notch_tilt_rad.size() == built.aim.notch_tilt_rad.size());
  REQUIRE_THAT(read_in.aim.notch_tilt_rad.back(),
               within_rel(50.0 * base::kRadPerDeg, kUnitRounding));
}

TEST_CASE("the example's flaps and vessels are those of the default design", "[oven][unit]") {
  const OvenDesign read_in = read(oven::example_oven_toml());
  const OvenDesign built = oven::default_design();
  REQUIRE(read_in.flaps.size() == 4U);
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(read_in.flaps[i].edge == built.flaps[i].edge);
    CHECK(read_in.flaps[i].name == built.flaps[i].name);
    REQUIRE_THAT(read_in.flaps[i].length_m, within_rel(built.flaps[i].length_m, kUnitRounding));
    REQUIRE_THAT(read_in.flaps[i].flare_angle_rad,
                 within_rel(built.flaps[i].flare_angle_rad, kUnitRounding));
    REQUIRE_THAT(read_in.flaps[i].scatter_rad, within_abs(built.flaps[i].scatter_rad, 1e-4));
  }
  REQUIRE(read_in.vessels.size() == built.vessels.size());
  for (std::size_t i = 0; i < built.vessels.size(); ++i) {
    CHECK(read_in.vessels[i].name == built.vessels[i].name);
    CHECK(read_in.vessels[i].kind == built.vessels[i].kind);
    CHECK(read_in.vessels[i].lid == built.vessels[i].lid);
    REQUIRE_THAT(read_in.vessels[i].height_m, within_rel(built.vessels[i].height_m, kUnitRounding));
    REQUIRE_THAT(read_in.vessels[i].mass_kg, within_rel(built.vessels[i].mass_kg, kUnitRounding));
    REQUIRE_THAT(read_in.vessels[i].absorptance, within_abs(built.vessels[i].absorptance, 1e-12));
    REQUIRE_THAT(read_in.vessels[i].foot_gap_m, within_abs(built.vessels[i].foot_gap_m, 1e-12));
  }
}

TEST_CASE("numbers out of range name the key, the value and the range", "[oven][unit]") {
  const std::string flare =
      complaint(edited("flare_angle = \"60 deg\"", "flare_angle = \"190 deg\""));
  CAPTURE(flare);
  CHECK(contains(flare, "oven.flap.flare_angle: 190 deg, allowed 0 to 90 deg"));
  CHECK(contains(flare, "case.toml:"));
  CHECK(contains(complaint(edited("reflectance = 0.78", "reflectance = 1.2")),
                 "oven.flap.reflectance"));
  CHECK(contains(complaint(edited("thickness = \"2 in\"", "thickness = \"-2 in\"")),
                 "oven.layer.thickness"));
  CHECK(contains(complaint(edited("inner_width = \"18 in\"", "inner_width = \"3 kg\"")),
                 "oven.box.inner_width"));
}

TEST_CASE("a liner or tray without mass is refused, with the least that is allowed",
          "[oven][unit]") {
  for (const char* mass : {"0", "1e-6", "\"9.9 g\""}) {
    INFO(mass);
    const std::string value = std::string("mass = ") + mass;
    const std::string liner = complaint(edited("mass = \"0.3 kg\"", value));
    CHECK(contains(liner, "oven.liner.mass: "));
    CHECK(contains(liner, "allowed 0.01 to 200 kg"));
    CHECK(contains(complaint(edited("mass = \"0.4 kg\"", value)), "oven.tray.mass: "));
  }
  CHECK(complaint(edited("mass = \"0.3 kg\"", "mass = \"10 g\"")).empty());
}

TEST_CASE("a large box needs a liner, and a large tray a mass, of 10 g/m2", "[oven][unit]") {
  oven::OvenDesign design = oven::default_design();
  design.box.inner_width_m = 4.0;
  design.box.inner_depth_m = 4.0;
  design.liner.mass_kg = 0.161;  // 16 m2 of floor
  CHECK(oven::check_design(design).empty());
  design.liner.mass_kg = 0.159;
  const std::vector<oven::DesignFault> faults = oven::check_design(design);
  REQUIRE(faults.size() == 1);
  CHECK(faults[0].table == "liner");
  CHECK(faults[0].key == "mass");
  CHECK(faults[0].got == "0.159 kg on a floor of the box of 16 m2");
  CHECK(faults[0].allowed == "at least 0.16 kg (10 g/m2)");
  design.liner.mass_kg = 1.0;
  design.tray->width_m = 2.0;
  design.tray->depth_m = 2.0;
  design.tray->mass_kg = 0.039;
  REQUIRE(oven::check_design(design).size() == 1);
  CHECK(oven::check_design(design)[0].table == "tray");
}

TEST_CASE("designs that cannot be built are refused at the table's line", "[oven][unit]") {
  const std::string crossing =
      complaint(edited("outer_width = \"0 in\"", "outer_width = \"50 in\""));
  CHECK(contains(crossing, "oven.flap.outer_width"));
  CHECK(contains(crossing, "passes through flap"));
  CHECK(
      contains(complaint(edited("height = \"4 in\"", "height = \"9 in\"")), "oven.vessel.height"));
  CHECK(contains(complaint(edited("\"40 deg\", \"50 deg\"]", "\"50 deg\", \"40 deg\"]")),
                 "oven.aim.notches"));
}

TEST_CASE("a key nobody knows is a fault", "[oven][unit]") {
  CHECK(contains(complaint(edited("reflectance = 0.78", "reflectivity = 0.78")), "reflectivity"));
  CHECK(contains(complaint(edited("material = \"plywood\"", "material = \"plywod\"")), "plywod"));
}

TEST_CASE("own materials and own numbers in a layer are taken", "[oven][unit]") {
  const std::string text = R"toml(
[oven]
[[oven.material]]
name = "sheep and hay"
conductivity = 0.045
density = "40 kg/m3"
specific_heat = 1700
[[oven.layer]]
material = "sheep and hay"
thickness = "40 mm"
[[oven.layer]]
side = "floor"
material = "cork"
conductivity = 0.042
thickness = "10 mm"
[oven.tray]
present = false
[[oven.pane]]
thickness = "4 mm"
[[oven.pane]]
thickness = "0.1 mm"
ir_emittance = 0.6
ir_transmittance = 0.2
[[oven.flap]]
edge = "back"
name = "lid mirror"
)toml";
  const OvenDesign design = read(text);
  REQUIRE(design.box.wall.size() == 1U);
  REQUIRE(design.box.floor.size() == 2U);
  CHECK(design.box.wall[0].material.source == "case file");
  REQUIRE_THAT(design.box.floor[1].material.conductivity_WmK, within_abs(0.042, 1e-12));
  CHECK_FALSE(design.tray.has_value());
  REQUIRE(design.panes.size() == 2U);
  REQUIRE_THAT(design.panes[1].ir_transmittance, within_abs(0.2, 1e-12));
  REQUIRE(design.flaps.size() == 1U);
  CHECK(design.flaps[0].name == "lid mirror");
  CHECK(contains(complaint(text + "[[oven.pane]]\nir_transmittance = 0.5\n"),
                 "oven.pane.ir_transmittance"));
}

TEST_CASE("the shelf is read, and fixed where nothing is said", "[oven][unit]") {
  const OvenDesign example = read(oven::example_oven_toml());
  CHECK(example.shelf.level);
  REQUIRE_THAT(example.shelf.step_rad, within_rel(10.0 * base::kRadPerDeg, kUnitRounding));
  CHECK(example.shelf.friction == 0.5);
  std::string text = oven::example_oven_toml();
  const OvenDesign silent = read(text.erase(text.find("[oven.shelf]")));
  CHECK_FALSE(silent.shelf.level);
  CHECK(silent.shelf.friction == 0.5);
}

TEST_CASE("a shelf out of range is refused at its line", "[oven][unit]") {
  const std::string fine = complaint(edited("step = \"10 deg\"", "step = \"0.2 deg\""));
  INFO(fine);
  CHECK(contains(fine, "case.toml:"));
  CHECK(contains(fine, "oven.shelf.step"));
  CHECK(contains(fine, "0.5 deg to 45 deg"));
  CHECK(contains(complaint(edited("step = \"10 deg\"", "step = \"50 deg\"")), "oven.shelf.step"));
  CHECK(contains(complaint(edited("friction = 0.5 ", "friction = 0 ")), "oven.shelf.friction"));
  CHECK(contains(complaint(edited("level = true ", "level = \"yes\" ")), "oven.shelf.level"));
}
