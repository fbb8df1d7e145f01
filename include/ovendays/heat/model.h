// SPDX-License-Identifier: MIT
// The oven as a network of heat nodes: capacities and couplings made from a design, its traced
// exchange areas and a load. Temperatures in kelvin, powers in watts, positive into a node.
//
//   C dT/dt = sun + convection + infrared + conduction + steam        for every node
//
// Inside: oven air exchanges with inner pane, liner, tray, vessel and open food by natural
// convection; the surfaces among each other by sigma G (T^4 - T^4). Through wall and floor: three
// nodes and an outer skin. Between panes: Hollands gap and infrared. Outside: wind (2.8 + 3 V, at
// the pane free convection where that is more), sky and surroundings. The skins stay within some
// kelvin of the air and count wind alone. Leaks by stack and wind. Steam: food evaporates, what the
// leaks do not carry off condenses on a pane that is colder than the oven's dew point; boiling
// takes all surplus power at the boiling point.
#pragma once

#include <array>
#include <optional>
#include <span>

#include "ovendays/optics/exchange.h"
#include "ovendays/oven/geometry.h"

namespace ovendays::heat {

enum Node : int {
  kNodeAir = 0,
  kNodePane,
  kNodeLiner,
  kNodeTray,
  kNodeVessel,
  kNodeFood,  // the core
  kNodePane1,
  kNodePane2,  // panes further out
  kNodeWall1,
  kNodeWall2,
  kNodeWall3,
  kNodeWallSkin,
  kNodeFloor1,
  kNodeFloor2,
  kNodeFloor3,
  kNodeFloorSkin,
  kNodeShell1,
  kNodeShell2,
  kNodeShell3,
  kNodeShell4,  // into the food; the last is the core
  kNodeWater,   ///< no temperature: what is left of FoodLoad::water_kg [%], where it can run dry
};
inline constexpr int kNodes = 21;
using State = std::array<double, kNodes>;  ///< [K], but for kNodeWater [%]

enum class FoodShape { kStirred, kSlab, kCylinder, kSphere };

/// What stands in the vessel.
struct FoodLoad {
  double mass_kg = 1.0;
  double specific_heat_JkgK = 3900.0;
  FoodShape shape = FoodShape::kStirred;
  double conductivity_WmK = 0.5;  ///< solids
  double density_kgm3 = 1000.0;
  double half_size_m = 0.03;    ///< slab: half thickness; cylinder, sphere: radius of one piece
  double contact_Wm2K = 250.0;  ///< food to vessel, over the wetted or touching area
  double water_kg = 0.0;        ///< that can leave as steam; 0: none
};

struct ModelOptions {
  double pressure_Pa = 101325.0;
  double lid_open_Wm2K =
      30.0;  ///< air to outside through an open lid, per opening area; judgement, no source
  double vapour_Wm2K =
      5.0;  ///< convection coefficient behind mass transfer (Lewis analogy); still air 3-8
  double lid_vapour_share =
      0.03;  ///< steam through a lidded pot's rim over that of an open pot; judgement
  double boil_WK = 5000.0;  ///< power per kelvin above the boiling point: holds it within 0.1 K
};

/// All numbers the right-hand side needs. Plain data, so that a test can state any network it
/// likes.
struct HeatModel {
  State capacity_JK{};
  std::array<bool, kNodes> present{};
  int panes = 1;
  bool loaded = false;
  bool shells = false;
  // Inner surfaces: pane, liner, tray, vessel, food, next pane out: indices 0..5 map to these
  // nodes.
  static constexpr int kRadiators = 6;
  static constexpr std::array<int, kRadiators> kRadiatorNode = {
      kNodePane, kNodeLiner, kNodeTray, kNodeVessel, kNodeFood, kNodePane1};
  std::array<std::array<double, kRadiators>, kRadiators> exchange_m2{};
  std::array<double, kRadiators>
      film_outside_m2{};               ///< inner surfaces straight to the surroundings (films)
  std::array<double, 5> convection{};  ///< factor on convection_group x |dT|^(1/4) [m^(7/4)]: pane,
                                       ///< liner, tray, vessel, food
  std::array<double, 5> still_WK{};    ///< conduction floor of the same
  double pressure_Pa = 101325.0;
  double pressure_root = 1.0;  ///< (pressure / standard)^(1/2)
  double tray_floor_WK = 0, tray_vessel_WK = 0, food_vessel_WK = 0;
  std::array<double, 4> shell_WK{};  ///< food node to shell 1, 1 to 2, 2 to 3, 3 to 4
  std::array<double, 4> wall_WK{};   ///< liner to 1, 1 to 2, 2 to 3, 3 to skin, at 25 degC
  std::array<double, 4> floor_WK{};
  double wall_slope_1K = 0, floor_slope_1K = 0;
  double wall_skin_m2 = 0, floor_skin_m2 = 0, skin_emittance = 0.9;
  std::array<double, 2> gap_m{};      ///< inner pane to pane 1, pane 1 to pane 2
  std::array<double, 2> gap_ir_m2{};  ///< infrared exchange of the same
  double pane_area_m2 = 0.16;
  double outer_pane_ir_m2 = 0.13;  ///< emittance x area of the outermost pane's outer face
  double pane_free = 0.0;  ///< factor of free convection at that face, as of `convection` above
  double leak_m2 = 0, stack_height_m = 0.2;
  double lid_open_WK = 0;
  double vapour_food_kgsPa = 0,
         vapour_pane_kgsPa = 0;  ///< mass transfer over vapour pressure difference
  double latent_Jkg = 2.3e6;
  double boil_WK = 0, boiling_K = 373.15;
  double water_kg = 0;
  [[nodiscard]] bool drying() const { return water_kg > 0.0; }  ///< kNodeWater is followed

  // Derived by settle() from panes and present:
  std::array<int, oven::kSurfaces> node_of{};  ///< node of each oven::SurfaceId
  int outer_node = kNodePane;                  ///< of the outermost pane
  /// Fills the derived members; call it after setting the others by hand.
  void settle();

  /// The node whose temperature decides whether the food is done.
  [[nodiscard]] int core_node() const { return shells ? kNodeShell4 : kNodeFood; }
  /// Energy over a reference temperature [J].
  [[nodiscard]] double stored_J(const State& state, double reference_K) const;
};

/// Builds the network. @param vessel and @param food together or not at all.
HeatModel make_model(const oven::OvenDesign& design,
                     const oven::OvenGeometry& geometry,
                     const optics::ExchangeAreas& exchange,
                     const oven::Vessel* vessel,
                     const FoodLoad* food,
                     const ModelOptions& options);

/// Every node at one temperature, and all water still there.
State uniform_state(double temperature_K);
}  // namespace ovendays::heat
