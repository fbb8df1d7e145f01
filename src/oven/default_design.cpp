// SPDX-License-Identifier: MIT
#include <array>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/oven/design.h"
#include "ovendays/oven/materials.h"

namespace ovendays::oven {
namespace {
constexpr double kInch_m = 0.0254;

Layer layer(const char* material, double inches) {
  const auto found = find_material(material);
  OVENDAYS_CHECK(found.has_value());
  return {*found, inches * kInch_m};
}

Vessel pot() {
  Vessel vessel;
  vessel.name = "black pot";
  vessel.kind = VesselKind::kPot;
  vessel.diameter_m = 8.5 * kInch_m;
  vessel.height_m = 4.0 * kInch_m;
  vessel.mass_kg = 0.9;
  vessel.lid_inner_emittance = 0.9;
  vessel.lid = true;
  return vessel;
}

Vessel loaf_pan() {
  Vessel vessel;
  vessel.name = "loaf pan";
  vessel.kind = VesselKind::kPan;
  vessel.width_m = 9.0 * kInch_m;
  vessel.depth_m = 5.0 * kInch_m;
  vessel.height_m = 2.75 * kInch_m;
  vessel.mass_kg = 0.4;
  vessel.absorptance = 0.85;
  vessel.lid = false;
  return vessel;
}

Vessel cookie_sheet() {
  Vessel vessel;
  vessel.name = "cookie sheet";
  vessel.kind = VesselKind::kPan;
  vessel.width_m = 13.0 * kInch_m;
  vessel.depth_m = 9.0 * kInch_m;
  vessel.height_m = 0.5 * kInch_m;
  vessel.mass_kg = 0.45;
  vessel.lid = false;
  return vessel;
}
}  // namespace

OvenDesign default_design() {
  OvenDesign design;
  design.name = "box oven, four foil flaps";
  design.box.wall = {layer("corrugated cardboard with foil", 2.0), layer("plywood", 0.25)};
  design.box.floor = design.box.wall;
  constexpr std::array<Edge, 4> edges{Edge::kFront, Edge::kRight, Edge::kBack, Edge::kLeft};
  constexpr std::array<const char*, 4> names{"front", "right", "back", "left"};
  for (std::size_t i = 0; i < edges.size(); ++i) {
    Flap flap;
    flap.name = names[i];
    flap.edge = edges[i];
    design.flaps.push_back(flap);
  }
  design.tray->height_m = 0.4 * kInch_m;  // the pot on its rack just clears the glass
  design.vessels = {pot(), loaf_pan(), cookie_sheet()};
  design.aim.notch_tilt_rad.clear();
  for (const double tilt_deg : {0.0, 10.0, 20.0, 30.0, 40.0, 50.0}) {
    design.aim.notch_tilt_rad.push_back(tilt_deg * base::kRadPerDeg);
  }
  design.shelf = {.level = true, .step_rad = 10.0 * base::kRadPerDeg};
  return design;
}
}  // namespace ovendays::oven
