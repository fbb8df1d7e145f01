// SPDX-License-Identifier: MIT
#include "ovendays/heat/model.h"

#include <algorithm>
#include <cmath>

#include "frozen_food.h"
#include "ovendays/base/air.h"
#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/heat/correlations.h"

namespace ovendays::heat {
namespace {

using oven::OvenDesign;

/// A wall of layers as three nodes between liner and skin, each holding the mass that lies in its
/// cell.
struct LayeredWall {
  std::array<double, 4> conductance_WK{};
  std::array<double, 4> capacity_JK{};  ///< three nodes and the skin
  double slope_1K = 0.0;
};

double resistance_m2KW(const std::vector<oven::Layer>& layers) {
  double sum = 0.0;
  for (const oven::Layer& layer : layers)
    sum += layer.thickness_m / layer.material.conductivity_WmK;
  return sum;
}

/// Heat capacity per area between two depths given as resistance from the inside [m2K/W].
double capacity_between(const std::vector<oven::Layer>& layers, double from, double to) {
  double capacity = 0.0;
  double depth = 0.0;
  for (const oven::Layer& layer : layers) {
    const double across = layer.thickness_m / layer.material.conductivity_WmK;
    const double shared = std::max(0.0, std::min(to, depth + across) - std::max(from, depth));
    capacity += shared * layer.material.conductivity_WmK * layer.material.density_kgm3 *
                layer.material.specific_heat_JkgK;
    depth += across;
  }
  return capacity;
}

LayeredWall layered_wall(const std::vector<oven::Layer>& layers,
                         double inner_m2,
                         double shape_factor) {
  OVENDAYS_CHECK(!layers.empty());
  LayeredWall wall;
  const double total = resistance_m2KW(layers);
  const double area_m2 = inner_m2 * shape_factor;
  // Cells of a third of the resistance with a node in the middle of each; the skin, at the outer
  // face, takes the last twelfth of the mass. The third node then stands a little outside the
  // middle of what is left of its cell: a settled wall holds 1.2 % too little heat, but one that
  // warms up follows the exact series more closely than with the node moved in (0.9 against 1.5 K
  // of 100).
  wall.conductance_WK = {
      6.0 * area_m2 / total, 3.0 * area_m2 / total, 3.0 * area_m2 / total, 6.0 * area_m2 / total};
  constexpr std::array<double, 5> kCut = {0.0, 1.0 / 3.0, 2.0 / 3.0, 11.0 / 12.0, 1.0};
  for (std::size_t i = 0; i < 4; ++i) {
    wall.capacity_JK[i] = area_m2 * capacity_between(layers, kCut[i] * total, kCut[i + 1] * total);
  }
  for (const oven::Layer& layer : layers) {
    wall.slope_1K += layer.material.conductivity_slope_1K * layer.thickness_m /
                     layer.material.conductivity_WmK / total;
  }
  return wall;
}

double thickness_m(const std::vector<oven::Layer>& layers) {
  double sum = 0.0;
  for (const oven::Layer& layer : layers) sum += layer.thickness_m;
  return sum;
}

void set_walls(HeatModel& model, const OvenDesign& design) {
  const oven::Box& box = design.box;
  const double back_m = box.inner_height_m + box.inner_depth_m * std::tan(box.glazing_slope_rad);
  const double mean_m = 0.5 * (box.inner_height_m + back_m);
  const double wall_m2 =
      box.inner_width_m * (box.inner_height_m + back_m) + 2.0 * box.inner_depth_m * mean_m;
  const double floor_m2 = box.inner_width_m * box.inner_depth_m;
  const double thick_m = thickness_m(box.wall);
  const double shape = box_shape_factor(box.inner_width_m, box.inner_depth_m, mean_m, thick_m);
  const LayeredWall wall = layered_wall(box.wall, wall_m2, shape);
  const LayeredWall floor = layered_wall(box.floor, floor_m2, shape);
  for (std::size_t i = 0; i < 4; ++i) {
    model.wall_WK[i] = design.as_built.loss_factor * wall.conductance_WK[i];
    model.floor_WK[i] = design.as_built.loss_factor * floor.conductance_WK[i];
  }
  model.wall_slope_1K = wall.slope_1K;
  model.floor_slope_1K = floor.slope_1K;
  for (std::size_t i = 0; i < 4; ++i) {
    model.capacity_JK[kNodeWall1 + i] = wall.capacity_JK[i];
    model.capacity_JK[kNodeFloor1 + i] = floor.capacity_JK[i];
    model.present[kNodeWall1 + i] = model.present[kNodeFloor1 + i] = true;
  }
  const double outer_w = box.inner_width_m + 2.0 * thick_m;
  const double outer_d = box.inner_depth_m + 2.0 * thick_m;
  model.wall_skin_m2 = 2.0 * (outer_w + outer_d) * (mean_m + thickness_m(box.floor));
  model.floor_skin_m2 = outer_w * outer_d;
  model.skin_emittance = box.skin_emittance;
}

void set_panes(HeatModel& model,
               const OvenDesign& design,
               const oven::OvenGeometry& geometry,
               const optics::ExchangeAreas& exchange,
               const ModelOptions& options) {
  model.panes = static_cast<int>(design.panes.size());
  OVENDAYS_CHECK(model.panes >= 1 && model.panes <= oven::kMostPanes);
  model.derive_nodes();
  model.pane_area_m2 = 4.0 * geometry.glass_half_width_m * geometry.glass_half_length_m;
  for (int p = 0; p < model.panes; ++p) {
    const oven::Pane& pane = design.panes[static_cast<std::size_t>(p)];
    const auto node = static_cast<std::size_t>(model.node_of[static_cast<std::size_t>(p)]);
    model.capacity_JK[node] =
        model.pane_area_m2 * pane.thickness_m * pane.density_kgm3 * pane.specific_heat_JkgK;
    model.present[node] = true;
  }
  for (int gap = 0; gap + 1 < model.panes; ++gap) {  // gap 0 is behind the innermost pane
    const auto outer = static_cast<std::size_t>(model.panes - 2 - gap);
    model.gap_m[static_cast<std::size_t>(gap)] = design.panes[outer].gap_m;
    model.gap_ir_m2[static_cast<std::size_t>(gap)] = exchange.between_m2[outer][outer + 1];
  }
  model.outer_pane_ir_m2 = design.panes.front().ir_emittance * model.pane_area_m2;
  model.lid_open_WK = options.lid_open_Wm2K * model.pane_area_m2;
}

void set_exchange(HeatModel& model, const optics::ExchangeAreas& exchange) {
  const bool lidded = model.present[kNodeLid];
  constexpr int kNone = -1;
  const std::array<int, HeatModel::kRadiators> surface = {model.panes - 1,
                                                          oven::kLiner,
                                                          oven::kTray,
                                                          oven::kVessel,
                                                          lidded ? oven::kVesselTop : kNone,
                                                          lidded ? kNone : oven::kVesselTop,
                                                          model.panes - 2};
  for (std::size_t i = 0; i < HeatModel::kRadiators; ++i) {
    if (surface[i] < 0) continue;
    const auto a = static_cast<std::size_t>(surface[i]);
    model.film_outside_m2[i] = exchange.outside_m2[a];
    for (std::size_t j = 0; j < HeatModel::kRadiators; ++j) {
      if (surface[j] < 0 || i == j) continue;
      const bool gap = (i == 0 && j == 6) || (i == 6 && j == 0);  // counted with the gap itself
      model.exchange_m2[i][j] =
          gap ? 0.0 : exchange.between_m2[a][static_cast<std::size_t>(surface[j])];
    }
  }
}

/// In a box that is heated below and cooled above, the air moves more than over a plate in the
/// open: 3.2 to 4.1 W/m2K have been published at the glass of rectangular boxes, where the plate
/// correlation gives 2.9. The same air passes all inner surfaces.
constexpr double kCavityFactor = 1.25;

void set_inside(HeatModel& model, const OvenDesign& design, const oven::OvenGeometry& geometry) {
  const oven::Box& box = design.box;
  const double root = std::sqrt(model.pressure_Pa / base::kStandardPressure_Pa);
  model.pressure_root = root;
  const auto plate = [root](double area_m2, double length_m, double factor) {
    return root * factor * area_m2 * std::pow(length_m, -0.25);
  };
  const auto rectangle_m = [](double w, double d) { return w * d / (2.0 * (w + d)); };
  const double glass_m =
      rectangle_m(2.0 * geometry.glass_half_width_m, 2.0 * geometry.glass_half_length_m);
  model.pane_free = plate(model.pane_area_m2, glass_m, 0.54);
  model.convection[0] = design.as_built.loss_factor * kCavityFactor * model.pane_free;
  const double liner_m2 = geometry.area_m2[oven::kLiner];
  model.convection[1] = kCavityFactor * plate(liner_m2, box.inner_height_m, 0.515);
  const std::array<double, 4> area_m2 = {
      model.pane_area_m2, liner_m2, geometry.area_m2[oven::kTray], geometry.area_m2[oven::kVessel]};
  if (design.tray) {
    model.convection[2] =
        kCavityFactor *
        plate(area_m2[2], rectangle_m(design.tray->width_m, design.tray->depth_m), 0.54);
  }
  const double back_m = box.inner_height_m + box.inner_depth_m * std::tan(box.glazing_slope_rad);
  const double volume_m3 =
      box.inner_width_m * box.inner_depth_m * 0.5 * (box.inner_height_m + back_m);
  const double air_JK =
      volume_m3 * base::air_density_kgm3(350.0, model.pressure_Pa) * base::kAirSpecificHeat_JkgK;
  model.capacity_JK[kNodeAir] = air_JK;
  model.capacity_JK[kNodeLiner] = design.liner.mass_kg * design.liner.specific_heat_JkgK;
  model.present[kNodeAir] = model.present[kNodeLiner] = true;
  if (design.tray) {
    model.capacity_JK[kNodeTray] = design.tray->mass_kg * design.tray->specific_heat_JkgK;
    model.present[kNodeTray] = true;
    model.tray_floor_WK = design.tray->floor_conductance_WK;
  }
  for (std::size_t i = 0; i < area_m2.size(); ++i)
    model.still_WK[i] = model.convection[i] > 0.0 ? 0.2 * area_m2[i] : 0.0;
  model.leak_m2 = design.as_built.loss_factor * box.leak_area_m2;
  // The frame that holds the glass crosses the insulation all round: a wooden frame with its
  // gasket, 0.05 W/mK of length; judgement.
  constexpr double kRim_WmK = 0.05;
  model.rim_WK = design.as_built.loss_factor * kRim_WmK * 4.0 *
                 (geometry.glass_half_width_m + geometry.glass_half_length_m);
  model.light_factor = design.as_built.light_factor;
  model.stack_height_m = box.inner_height_m;
}

/// Shells of equal thickness, the outermost being the food node; cores of neighbours joined by the
/// conductance between their mid radii. `power` is 0 for a slab, 1 for a cylinder, 2 for a sphere.
void set_shells(HeatModel& model, const FoodLoad& food, double contact_m2) {
  constexpr int kShells = 5;
  const int power = food.shape == FoodShape::kSlab ? 0 : food.shape == FoodShape::kCylinder ? 1 : 2;
  const double radius_m = food.half_size_m;
  const double volume_m3 = food.mass_kg / food.density_kgm3;
  const double surface_m2 = (power + 1) * volume_m3 / radius_m;
  const auto area_at = [&](double r) { return surface_m2 * std::pow(r / radius_m, power); };
  const double thick_m = radius_m / kShells;
  const double heat = food.mass_kg * food.specific_heat_JkgK;
  for (int s = 0; s < kShells; ++s) {  // s = 0 is the outermost
    const double outer = 1.0 - static_cast<double>(s) / kShells;
    const double inner = 1.0 - static_cast<double>(s + 1) / kShells;
    const double share = std::pow(outer, power + 1) - std::pow(inner, power + 1);
    const int node = s == 0 ? kNodeFood : kNodeShell1 + s - 1;
    model.capacity_JK[static_cast<std::size_t>(node)] = heat * share;
    model.present[static_cast<std::size_t>(node)] = true;
    if (s > 0) {
      model.shell_WK[static_cast<std::size_t>(s - 1)] =
          food.conductivity_WmK * area_at(outer * radius_m) / thick_m;
    }
  }
  const double film = 1.0 / (food.contact_Wm2K * contact_m2);
  const double half_shell =
      0.5 * thick_m / (food.conductivity_WmK * std::min(surface_m2, contact_m2));
  model.food_vessel_WK = 1.0 / (film + half_shell);
  model.shells = true;
}

/// Sizes of a vessel that its couplings need.
struct VesselSizes {
  double base_m2, rim_m, side_m2;
  double top_length_m;  ///< area over perimeter of its top
  double food_depth_m;
};
VesselSizes sizes_of(const oven::Vessel& vessel, const FoodLoad& food) {
  const bool pot = vessel.kind == oven::VesselKind::kPot;
  VesselSizes sizes{};
  sizes.base_m2 = pot ? 0.25 * base::kPi * vessel.diameter_m * vessel.diameter_m
                      : vessel.width_m * vessel.depth_m;
  sizes.rim_m = pot ? base::kPi * vessel.diameter_m : 2.0 * (vessel.width_m + vessel.depth_m);
  if (vessel.rim_m > 0.0) sizes.rim_m = vessel.rim_m;
  sizes.side_m2 = sizes.rim_m * vessel.height_m;
  sizes.top_length_m = sizes.base_m2 / sizes.rim_m;
  sizes.food_depth_m = std::min(food.mass_kg / food.density_kgm3 / sizes.base_m2, vessel.height_m);
  return sizes;
}

/// The foot on its plate: the tray, or the liner on the floor where there is no tray.
double foot_WK(const OvenDesign& design, const oven::Vessel& vessel, double foot_m2) {
  const double floor_m2 = design.box.inner_width_m * design.box.inner_depth_m;
  const double plate_emittance = design.tray ? design.tray->emittance : design.liner.emittance;
  return foot_conductance_WK(
      {.foot_m2 = foot_m2,
       .plate_m2 = design.tray ? design.tray->width_m * design.tray->depth_m : floor_m2,
       .sheet_WK = design.tray ? design.tray->thickness_m * design.tray->conductivity_WmK
                               : design.liner.thickness_m * design.liner.conductivity_WmK,
       .contact_Wm2K = foot_contact_Wm2K(vessel.foot_gap_m, vessel.emittance, plate_emittance)});
}

/// Still air at kFilm_K, of the headspace and under the foot.
constexpr double kFilm_K = 350.0;

/// The lid above the food: it takes up the sun and passes it on to the food through the headspace
/// (conduction and infrared), to the wall at the rim, and back as dew.
void set_lid(HeatModel& model,
             const oven::Vessel& vessel,
             const VesselSizes& sizes,
             double top_convection,
             double lid_factor) {
  constexpr double kLidShare = 0.3;  // of the vessel's mass; judgement
  constexpr double kLeastHeadspace_m = 0.005;
  const double lid_m2 = sizes.base_m2;
  model.capacity_JK[kNodeLid] = kLidShare * model.capacity_JK[kNodeVessel];
  model.capacity_JK[kNodeVessel] *= 1.0 - kLidShare;
  model.convection[4] = top_convection;
  model.still_WK[4] = 0.2 * lid_m2;
  model.lid_vessel_WK = lid_factor * vessel.lid_rim_contact_Wm2K * lid_m2;
  const double headspace_m = std::max(kLeastHeadspace_m, vessel.height_m - sizes.food_depth_m);
  model.lid_food_WK = lid_factor * lid_m2 * base::air_conductivity_WmK(kFilm_K) / headspace_m;
  model.exchange_m2[4][5] = model.exchange_m2[5][4] =
      lid_factor * lid_m2 / (1.0 / vessel.lid_inner_emittance + 1.0 / oven::kFoodEmittance - 1.0);
  model.lid_transmittance = vessel.lid_transmittance;
}

void set_load(HeatModel& model,
              const OvenDesign& design,
              const oven::Vessel& vessel,
              const FoodLoad& food,
              const ModelOptions& options) {
  model.loaded = true;
  model.capacity_JK[kNodeVessel] = vessel.mass_kg * vessel.specific_heat_JkgK;
  model.present[kNodeVessel] = model.present[kNodeFood] = true;
  const VesselSizes sizes = sizes_of(vessel, food);
  model.tray_vessel_WK = foot_WK(design, vessel, sizes.base_m2);
  // Food touches the base and, up to its own depth, the side.
  const double contact_m2 = sizes.base_m2 + sizes.rim_m * sizes.food_depth_m;
  const double root = model.pressure_root;
  const double top_convection = root * 0.54 * sizes.base_m2 * std::pow(sizes.top_length_m, -0.25);
  model.convection[3] =
      kCavityFactor * root * 0.515 * sizes.side_m2 * std::pow(vessel.height_m, -0.25);
  model.still_WK[3] = 0.2 * sizes.side_m2;
  if (vessel.lid) {
    set_lid(model, vessel, sizes, top_convection, design.as_built.lid_factor);
  } else {
    model.convection[5] = top_convection;
    model.still_WK[5] = 0.2 * sizes.base_m2;
  }
  if (food.frozen) {
    model.thaw_span_K =
        (kFusion_Jkg * food.water_share + kIceHeat_JkgK * kThawRange_K) / food.specific_heat_JkgK;
    model.frozen_slope = food.specific_heat_JkgK / kIceHeat_JkgK;
  }
  if (food.shape == FoodShape::kStirred) {
    model.capacity_JK[kNodeFood] = food.mass_kg * food.specific_heat_JkgK;
    model.food_vessel_WK = food.contact_Wm2K * contact_m2;
  } else {
    set_shells(model, food, contact_m2);
    model.moist = food.water_share > 0.0;
  }
  for (const int node :
       {kNodeVessel, kNodeLid, kNodeFood, kNodeShell1, kNodeShell2, kNodeShell3, kNodeShell4}) {
    if (model.present[static_cast<std::size_t>(node)])
      model.capacity_JK[static_cast<std::size_t>(node)] /= design.as_built.food_heat_factor;
  }
  // Lewis analogy: h_m = h / (rho cp Le^(2/3)), Le 0.86 for water vapour in air, rho cp at 350 K.
  const double air_JKm3 =
      base::air_density_kgm3(kFilm_K, model.pressure_Pa) * base::kAirSpecificHeat_JkgK;
  const double mass_ms = options.vapour_Wm2K / (air_JKm3 * std::pow(0.86, 2.0 / 3.0));
  const double per_Pa = mass_ms / (461.5 * kFilm_K);
  model.water_kg = food.water_kg;
  if (food.water_kg > 0.0) {
    const double open_kgsPa = per_Pa * sizes.base_m2;
    model.vapour_food_kgsPa = open_kgsPa * (vessel.lid ? vessel.lid_steam_share : 1.0);
    model.vapour_lid_kgsPa = vessel.lid ? design.as_built.lid_factor * open_kgsPa : 0.0;
    model.boil_WK = options.boil_WK;
    model.present[kNodeWater] = true;  // its capacity stays 1: it is no store of heat
  }
  model.vapour_pane_kgsPa = per_Pa * model.pane_area_m2;
}
}  // namespace

void NetworkLayout::derive_nodes() {
  constexpr std::array<int, oven::kMostPanes> kInward = {kNodePane, kNodePane1, kNodePane2};
  for (int pane = 0; pane < oven::kMostPanes;
       ++pane) {  // surfaces count from outside, nodes from inside
    node_of[static_cast<std::size_t>(pane)] =
        kInward[static_cast<std::size_t>(std::max(panes - 1 - pane, 0))];
  }
  outer_node = node_of[oven::kPane0];
  node_of[oven::kLiner] = kNodeLiner;
  node_of[oven::kTray] = present[kNodeTray] ? kNodeTray : kNodeLiner;
  node_of[oven::kVessel] = kNodeVessel;
  node_of[oven::kVesselTop] = present[kNodeLid] ? kNodeLid : kNodeFood;
}

template <>
double HeatModel::stored_J(const State& state, double reference_K) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < kNodes; ++i) {
    if (present[i] && i != kNodeWater) sum += capacity_JK[i] * (state[i] - reference_K);
  }
  return sum;
}

template <>
double HeatModel::food_temperature_K(double state_K) const {
  return thaw_span_K > 0.0 ? portable::food_temperature<double>(*this, state_K).value : state_K;
}

template <>
double HeatModel::food_state_K(double temperature_K) const {
  const double below_K = base::kZeroCelsius_K - temperature_K;
  if (thaw_span_K <= 0.0 || below_K <= 0.0) return temperature_K;
  const double thawed_K = std::min(below_K, kThawRange_K) * thaw_span_K / kThawRange_K;
  return base::kZeroCelsius_K - thawed_K - std::max(below_K - kThawRange_K, 0.0) / frozen_slope;
}

HeatModel make_model(const OvenDesign& design,
                     const oven::OvenGeometry& geometry,
                     const optics::ExchangeAreas& exchange,
                     const oven::Vessel* vessel,
                     const FoodLoad* food,
                     const ModelOptions& options) {
  OVENDAYS_CHECK((vessel == nullptr) == (food == nullptr));
  HeatModel model;
  model.capacity_JK.fill(1.0);
  model.pressure_Pa = options.pressure_Pa;
  model.boiling_K = base::boiling_point_K(options.pressure_Pa);
  model.latent_Jkg = base::latent_heat_Jkg(model.boiling_K - 10.0);
  set_panes(model, design, geometry, exchange, options);
  set_walls(model, design);
  set_inside(model, design, geometry);
  model.present[kNodeLid] = vessel != nullptr && vessel->lid;
  set_exchange(model, exchange);
  if (vessel != nullptr) set_load(model, design, *vessel, *food, options);
  model.derive_nodes();
  return model;
}

State uniform_state(double temperature_K) {
  State state;
  state.fill(temperature_K);
  state[kNodeWater] = 100.0;
  return state;
}
}  // namespace ovendays::heat
