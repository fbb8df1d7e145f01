// SPDX-License-Identifier: MIT
#include <algorithm>
#include <limits>

#include "ovendays/base/constants.h"
#include "ovendays/oven/design.h"
#include "ovendays/oven/materials.h"

namespace ovendays::oven {
namespace {
using base::CaseNode;
using base::Dimension;
using base::Range;

constexpr Range kShare{0.0, 1.0};
constexpr Range kSize{0.01, 5.0};
constexpr Range kThickness{1e-5, 1.0};
// Judgement: 10 g is a piece of kitchen foil half a metre square. Below a gram the node follows its
// surroundings within milliseconds, and the integration fails.
constexpr Range kSheetMass{0.01, 200.0};
constexpr Range kHeatCapacity{100.0, 10000.0};
constexpr Range kDensity{0.5, 25000.0};
constexpr Range kConductivity{0.005, 500.0};
constexpr Range kQuarterTurn{0.0, 90.0 * base::kRadPerDeg};
constexpr Range kScatter{0.0, 45.0 * base::kRadPerDeg};
constexpr Range kServiceLimit{273.15, std::numeric_limits<double>::infinity()};

// Keys of one table, each falling back on what the struct already holds.
class Fields {
 public:
  explicit Fields(const CaseNode& node) : node_(node) {}
  const Fields& length(const char* key, double& value, Range range = kSize) const {
    return read(key, Dimension::kLength, range, value);
  }
  const Fields& share(const char* key, double& value) const {
    return read(key, Dimension::kNumber, kShare, value);
  }
  const Fields& read(const char* key, Dimension dimension, Range range, double& value) const {
    value = node_.quantity(key, dimension, range, value);
    return *this;
  }

 private:
  const CaseNode& node_;
};

Box read_box(const CaseNode& node) {
  Box box;
  Fields(node)
      .length("inner_width", box.inner_width_m)
      .length("inner_depth", box.inner_depth_m)
      .length("inner_height", box.inner_height_m)
      .read(
          "glazing_slope", Dimension::kAngle, {0.0, 60.0 * base::kRadPerDeg}, box.glazing_slope_rad)
      .length("frame", box.frame_m, {0.0, 1.0})
      .read("leak_area", Dimension::kArea, {0.0, 0.1}, box.leak_area_m2)
      .share("skin_absorptance", box.skin_absorptance)
      .share("skin_emittance", box.skin_emittance);
  return box;
}

Liner read_liner(const CaseNode& node) {
  Liner liner;
  Fields(node)
      .share("absorptance", liner.absorptance)
      .share("emittance", liner.emittance)
      .share("specular_share", liner.specular_share)
      .read("mass", Dimension::kMass, kSheetMass, liner.mass_kg)
      .read("specific_heat", Dimension::kSpecificHeat, kHeatCapacity, liner.specific_heat_JkgK)
      .length("thickness", liner.thickness_m, kThickness)
      .read("conductivity", Dimension::kConductivity, kConductivity, liner.conductivity_WmK);
  return liner;
}

std::optional<Tray> read_tray(const CaseNode& node) {
  Tray tray;
  Fields(node)
      .length("width", tray.width_m)
      .length("depth", tray.depth_m)
      .length("height", tray.height_m, {0.001, 5.0})
      .read("mass", Dimension::kMass, kSheetMass, tray.mass_kg)
      .read("specific_heat", Dimension::kSpecificHeat, kHeatCapacity, tray.specific_heat_JkgK)
      .share("absorptance", tray.absorptance)
      .share("emittance", tray.emittance)
      // W/K written as a number: a conductance of the whole contact, not per area
      .read("floor_conductance", Dimension::kNumber, {0.0, 1000.0}, tray.floor_conductance_WK)
      .length("thickness", tray.thickness_m, kThickness)
      .read("conductivity", Dimension::kConductivity, kConductivity, tray.conductivity_WmK);
  if (!node.flag("present", true)) return std::nullopt;
  return tray;
}

Pane read_pane(const CaseNode& node) {
  Pane pane;
  Fields(node)
      .length("thickness", pane.thickness_m, {1e-6, 0.05})
      .read("index", Dimension::kNumber, {1.0001, 3.0}, pane.index)
      .read("extinction", Dimension::kInverseLength, {0.0, 5000.0}, pane.extinction_1m)
      .share("ir_emittance", pane.ir_emittance)
      .share("ir_transmittance", pane.ir_transmittance)
      .length("gap", pane.gap_m, {0.001, 0.3})
      .read("density", Dimension::kDensity, kDensity, pane.density_kgm3)
      .read("specific_heat", Dimension::kSpecificHeat, kHeatCapacity, pane.specific_heat_JkgK);
  if (pane.ir_emittance + pane.ir_transmittance > 1.0) {
    node.fault("ir_transmittance", "ir_emittance and ir_transmittance exceed 1", "a sum up to 1");
    pane.ir_transmittance = 0.0;
  }
  return pane;
}

// A flap table gives one flap, or with edge = "all" four alike.
std::vector<Flap> read_flaps(const CaseNode& node) {
  const std::vector<std::string> words{"front", "right", "back", "left", "all"};
  const std::size_t edge = node.choice("edge", words, 2);
  Flap flap;
  Fields(node)
      .length("length", flap.length_m)
      .length("hinge_width", flap.hinge_width_m, {0.0, 5.0})
      .length("outer_width", flap.outer_width_m, {0.0, 5.0})
      .read("flare_angle", Dimension::kAngle, kQuarterTurn, flap.flare_angle_rad)
      .share("reflectance", flap.reflectance)
      .read("scatter", Dimension::kAngle, kScatter, flap.scatter_rad)
      .share("emittance", flap.emittance);
  const std::string name = node.text("name", "");
  std::vector<Flap> flaps;
  for (std::size_t i = 0; i < 4; ++i) {
    if (edge != 4 && edge != i) continue;
    flap.edge = static_cast<Edge>(i);
    flap.name = name.empty() ? words[i] : (edge == 4 ? name + " " + words[i] : name);
    flaps.push_back(flap);
  }
  return flaps;
}

CornerPanels read_corners(const CaseNode& node) {
  CornerPanels corners;
  corners.present = node.flag("present", node.present());
  Fields(node)
      .share("reflectance", corners.reflectance)
      .read("scatter", Dimension::kAngle, kScatter, corners.scatter_rad)
      .share("emittance", corners.emittance);
  return corners;
}

Vessel read_vessel(const CaseNode& node) {
  Vessel vessel;
  vessel.name = node.required_text("name");
  vessel.kind = static_cast<VesselKind>(node.choice("kind", {"pot", "pan"}, 0));
  if (vessel.kind == VesselKind::kPot) {
    Fields(node).length("diameter", vessel.diameter_m);
  } else {
    Fields(node).length("width", vessel.width_m).length("depth", vessel.depth_m);
  }
  Fields(node)
      .length("height", vessel.height_m, {0.002, 2.0})
      .read("mass", Dimension::kMass, {0.01, 50.0}, vessel.mass_kg)
      .read("specific_heat", Dimension::kSpecificHeat, kHeatCapacity, vessel.specific_heat_JkgK)
      .share("absorptance", vessel.absorptance)
      .share("emittance", vessel.emittance)
      .length("foot_gap", vessel.foot_gap_m, {1e-5, 0.05})
      .share("lid_transmittance", vessel.lid_transmittance)
      .read("lid_inner_emittance", Dimension::kNumber, {0.02, 1.0}, vessel.lid_inner_emittance)
      .read("lid_rim_contact", Dimension::kConductance, {0.0, 200.0}, vessel.lid_rim_contact_Wm2K)
      .read("lid_steam", Dimension::kNumber, {0.0, 1.0}, vessel.lid_steam_share);
  if (node.has("tray_conductance")) {
    node.fault("tray_conductance",
               "no longer a key",
               "foot_gap, the mean air gap under the foot (\"1 mm\" where nothing is known)");
  }
  vessel.lid = node.flag("lid", vessel.lid);
  return vessel;
}

AimDesign read_aim(const CaseNode& node) {
  AimDesign aim;
  aim.turns = node.flag("turns", aim.turns);
  if (node.has("notches")) {
    aim.notch_tilt_rad = node.quantities("notches", Dimension::kAngle, kQuarterTurn, 0);
  }
  return aim;
}

Shelf read_shelf(const CaseNode& node) {
  Shelf shelf;
  shelf.level = node.flag("level", shelf.level);
  Fields(node)
      .read("step", Dimension::kAngle, {0.0, 45.0 * base::kRadPerDeg}, shelf.step_rad)
      .read("friction", Dimension::kNumber, {0.01, 10.0}, shelf.friction);
  constexpr double kLeastStep_rad = 0.5 * base::kRadPerDeg;
  if (shelf.step_rad > 0.0 && shelf.step_rad < kLeastStep_rad) {
    node.fault("step",
               base::quantity_text(shelf.step_rad, Dimension::kAngle),
               "0.5 deg to 45 deg, or 0 deg for a rack that swings freely");
    shelf.step_rad = 0.0;
  }
  return shelf;
}

AsBuilt read_as_built(const CaseNode& node) {
  constexpr Range kFactor{0.2, 5.0};
  AsBuilt built;
  Fields(node)
      .read("cleanliness", Dimension::kNumber, {0.3, 1.0}, built.cleanliness)
      .read("flap_set", Dimension::kNumber, {0.3, 1.0}, built.flap_set)
      .read("light_factor", Dimension::kNumber, kFactor, built.light_factor)
      .read("loss_factor", Dimension::kNumber, kFactor, built.loss_factor)
      .read("lid_factor", Dimension::kNumber, kFactor, built.lid_factor)
      .read("food_heat_factor", Dimension::kNumber, kFactor, built.food_heat_factor);
  return built;
}

void read_material_numbers(const CaseNode& node, Material& material) {
  Fields(node)
      .read("conductivity", Dimension::kConductivity, kConductivity, material.conductivity_WmK)
      .read("conductivity_slope", Dimension::kNumber, {-0.01, 0.05}, material.conductivity_slope_1K)
      .read("density", Dimension::kDensity, kDensity, material.density_kgm3)
      .read("specific_heat", Dimension::kSpecificHeat, kHeatCapacity, material.specific_heat_JkgK)
      .read("service_limit", Dimension::kTemperature, kServiceLimit, material.service_limit_K);
}

std::vector<Material> read_own_materials(const CaseNode& oven) {
  std::vector<Material> own;
  for (const CaseNode& node : oven.tables("material")) {
    Material material;
    material.name = node.required_text("name");
    for (const char* needed : {"conductivity", "density", "specific_heat"}) {
      if (!node.has(needed)) node.fault(needed, "missing", "a value");
    }
    read_material_numbers(node, material);
    material.source = node.text("source", "case file");
    own.push_back(material);
  }
  return own;
}

Material read_layer_material(const CaseNode& node, const std::vector<Material>& own) {
  const std::string name = node.required_text("material");
  const auto mine = std::find_if(
      own.begin(), own.end(), [&](const Material& material) { return material.name == name; });
  std::optional<Material> found = mine != own.end() ? *mine : find_material(name);
  if (!found && !name.empty()) {
    std::string known;
    for (const Material& material : materials()) {
      known += (known.empty() ? "" : ", ") + material.name;
    }
    node.fault("material", "'" + name + "' is not known", known + ", or one of [[oven.material]]");
  }
  Material material = found.value_or(Material{});
  const double listed_WmK = material.conductivity_WmK;
  read_material_numbers(node, material);
  if (material.conductivity_WmK != listed_WmK) material.source = "case file";
  return material;
}

void read_layers(const CaseNode& oven, Box& box) {
  const std::vector<Material> own = read_own_materials(oven);
  for (const CaseNode& node : oven.tables("layer")) {
    const std::size_t side = node.choice("side", {"both", "wall", "floor"}, 0);
    Layer layer;
    layer.thickness_m = node.required_quantity("thickness", Dimension::kLength, kThickness);
    layer.material = read_layer_material(node, own);
    if (side != 2) box.wall.push_back(layer);
    if (side != 1) box.floor.push_back(layer);
  }
}

// Cross-checks speak of tables by place; this finds the node that stands there.
class FaultPlaces {
 public:
  void remember(const char* table, const CaseNode& node) { places_.push_back({table, node}); }
  void record(const CaseNode& oven, const DesignFault& fault) const {
    std::size_t seen = 0;
    for (const Place& place : places_) {
      if (place.table != fault.table || seen++ != fault.index) continue;
      place.node.fault(fault.key, fault.got, fault.allowed);
      return;
    }
    oven.fault(fault.key, fault.got, fault.allowed);
  }

 private:
  struct Place {
    std::string table;
    CaseNode node;
  };
  std::vector<Place> places_;
};
}  // namespace

OvenDesign read_oven(const base::CaseNode& node) {
  FaultPlaces places;
  OvenDesign design;
  design.name = node.text("name", "oven");
  const auto single = [&](const char* key) {
    CaseNode table = node.table(key);
    places.remember(key, table);
    return table;
  };
  design.box = read_box(single("box"));
  read_layers(node, design.box);
  design.liner = read_liner(single("liner"));
  design.tray = read_tray(single("tray"));
  const std::vector<CaseNode> panes = node.tables("pane");
  if (!panes.empty()) design.panes.clear();
  for (const CaseNode& pane : panes) design.panes.push_back(read_pane(pane));
  for (const CaseNode& table : node.tables("flap")) {
    for (const Flap& flap : read_flaps(table)) {
      design.flaps.push_back(flap);
      places.remember("flap", table);
    }
  }
  design.corners = read_corners(single("corners"));
  for (const CaseNode& table : node.tables("vessel")) {
    design.vessels.push_back(read_vessel(table));
    places.remember("vessel", table);
  }
  design.aim = read_aim(single("aim"));
  design.shelf = read_shelf(single("shelf"));
  design.as_built = read_as_built(single("as_built"));
  for (const DesignFault& fault : check_design(design)) places.record(node, fault);
  return design;
}
}  // namespace ovendays::oven
