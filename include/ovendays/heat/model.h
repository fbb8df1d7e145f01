// SPDX-License-Identifier: MIT
// The oven as a network of heat nodes: capacities and couplings made from a design, its traced
// exchange areas and a load. Temperatures in kelvin, powers in watts, positive into a node.
//
//   C dT/dt = sun + convection + infrared + conduction + steam        for every node
//
// Inside, the oven's air exchanges heat with inner pane, liner, tray, vessel and open food by
// natural convection, and these surfaces exchange infrared with one another: sigma G (T^4 - T^4).
// Wall and floor are three nodes and an outer skin each. Between panes there are convection
// (Hollands) and infrared. Outside, the pane loses by wind (2.8 + 3 V) or by free convection,
// whichever is more, and by infrared to sky and surroundings; the skins stay within some kelvin of
// the air, so only the wind counts there. Air leaks by stack effect and wind. Food evaporates;
// steam that does not leave with the leaking air condenses on a pane colder than the oven's dew
// point. At the boiling point all surplus power becomes steam. A moist solid is at most at the
// boiling point below its crust, because it holds more water than it may lose (a loaf a third of
// its weight, of which a tenth leaves). What a dry crust conducts inwards beyond that comes back to
// it as steam, where in truth the steam would leave.
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
  kNodeLid,   ///< of the vessel, where it has one
  kNodeFood,  // the core
  kNodePane1,
  kNodePane2,  // the panes further out
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
  kNodeShell4,  // shells of solid food, inwards; the last is the core
  kNodeWater,   ///< not a temperature: what is left of FoodLoad::water_kg [%]
};
inline constexpr int kNodes = 22;
/// [K], but for kNodeWater [%], and for food below 0 degC (see HeatModel::food_temperature_K).
using State = std::array<double, kNodes>;

/// Food thaws between this much below 0 degC and 0 degC, because its water holds salts and sugar.
inline constexpr double kThawRange_K = 2.0;
inline constexpr double kFusion_Jkg = 334e3;  ///< heat of fusion of ice (handbooks)
inline constexpr double kIceHeat_JkgK =
    2100.0;  ///< specific heat of ice, taken for all frozen food

enum class FoodShape { kStirred, kSlab, kCylinder, kSphere };

/// What is in the vessel.
struct FoodLoad {
  double mass_kg = 1.0;
  double specific_heat_JkgK = 3900.0;
  FoodShape shape = FoodShape::kStirred;
  double conductivity_WmK = 0.5;  ///< solids
  double density_kgm3 = 1000.0;
  double half_size_m = 0.03;    ///< slab: half thickness; cylinder, sphere: radius of one piece
  double contact_Wm2K = 250.0;  ///< food to vessel, over the wetted or touching area
  double water_kg = 0.0;        ///< water that can leave as steam
  double water_share = 0.0;     ///< of its mass that is water, whether it can leave or not
  bool frozen = false;          ///< it starts below 0 degC: its water is ice and has to melt
};

struct ModelOptions {
  double pressure_Pa = 101325.0;
  /// Heat exchange of the oven's air with the outside through the open lid, per area of the
  /// opening; judgement, no source.
  double lid_open_Wm2K = 30.0;
  /// Convection coefficient from which mass transfer follows (Lewis analogy); still air 3 to 8.
  double vapour_Wm2K = 5.0;
  /// Power per kelvin above the boiling point; holds boiling food within 0.1 K of it.
  double boil_WK = 5000.0;
};

/// Which nodes a network has, and which node takes up the sun of each surface.
struct NetworkLayout {
  std::array<bool, kNodes> present{};
  int panes = 1;
  bool loaded = false;
  bool shells = false;
  bool moist = false;  ///< a solid that steam holds at the boiling point below its crust

  // Derived by derive_nodes() from `panes` and `present`:
  std::array<int, oven::kSurfaces> node_of{};  ///< node of each oven::SurfaceId
  int outer_node = kNodePane;                  ///< of the outermost pane
  /// Fills the derived members. Call it after setting the others by hand.
  void derive_nodes();

  /// The node whose temperature decides whether the food is done.
  [[nodiscard]] int core_node() const { return shells ? kNodeShell4 : kNodeFood; }
};

/// Capacities, conductances and exchange areas of a network, in double or single precision. Every
/// member is a Real or an array of Real, so that a conversion between precisions can treat the
/// whole as one array (see heat/single_precision.h) and a new member needs no further care.
template <class Real>
struct NetworkNumbers {
  std::array<Real, kNodes> capacity_JK{};
  /// The surfaces that exchange infrared, in this order: pane, liner, tray, vessel, lid, food, and
  /// the next pane out. Food under a lid exchanges with the lid alone.
  static constexpr int kRadiators = 7;
  static constexpr std::array<int, kRadiators> kRadiatorNode = {
      kNodePane, kNodeLiner, kNodeTray, kNodeVessel, kNodeLid, kNodeFood, kNodePane1};
  std::array<std::array<Real, kRadiators>, kRadiators> exchange_m2{};
  /// Inner surfaces straight to the surroundings, through films that let infrared pass.
  std::array<Real, kRadiators> film_outside_m2{};
  /// Factor on convection_group x |dT|^(1/4) [m^(7/4)] of pane, liner, tray, vessel, lid and
  /// food. Where the air lies stably layered at a plate (a tray, a lid or food cooler than the air,
  /// a pane warmer than it) half of it counts: Nu = 0.27 Ra^(1/4) in place of 0.54 (McAdams 1954,
  /// Incropera eq. 9.30 and 9.32).
  std::array<Real, 6> convection{};
  std::array<Real, 6> still_WK{};  ///< conduction through still air, a lower bound for the same
  Real pressure_Pa = 101325;
  Real pressure_root = 1;  ///< (pressure / standard)^(1/2)
  Real tray_floor_WK = 0, tray_vessel_WK = 0, food_vessel_WK = 0;
  Real light_factor = 1;           ///< on the sun that the surfaces absorb, the outer skin excepted
  Real rim_WK = 0;                 ///< thermal bridge of the lid's frame, oven air to outside air
  Real lid_vessel_WK = 0;          ///< at the rim
  Real lid_food_WK = 0;            ///< through the still air of the headspace
  Real lid_transmittance = 1;      ///< share of the sun on the vessel's top that the food takes up
  std::array<Real, 4> shell_WK{};  ///< food node to shell 1, 1 to 2, 2 to 3, 3 to 4
  Real thaw_span_K = 0;   ///< change of a food node's state as it thaws; 0: it is never frozen
  Real frozen_slope = 1;  ///< specific heat of the thawed food over that of the frozen
  std::array<Real, 4> wall_WK{};  ///< liner to 1, 1 to 2, 2 to 3, 3 to skin, at 25 degC
  std::array<Real, 4> floor_WK{};
  Real wall_slope_1K = 0, floor_slope_1K = 0;
  Real wall_skin_m2 = 0, floor_skin_m2 = 0;
  Real skin_emittance = Real(0.9);
  std::array<Real, 2> gap_m{};      ///< inner pane to pane 1, pane 1 to pane 2
  std::array<Real, 2> gap_ir_m2{};  ///< infrared exchange of the same
  Real pane_area_m2 = Real(0.16);
  Real outer_pane_ir_m2 = Real(0.13);  ///< emittance x area of the outermost pane's outer face
  Real pane_free = 0;  ///< factor of free convection at that face, as of `convection` above
  Real leak_m2 = 0;
  Real stack_height_m = Real(0.2);
  Real lid_open_WK = 0;
  /// Mass transfer over the difference of vapour pressure.
  Real vapour_food_kgsPa = 0, vapour_pane_kgsPa = 0;
  Real vapour_lid_kgsPa =
      0;  ///< from the food to the underside of a cooler lid, whence it runs back
  Real latent_Jkg = Real(2.3e6);
  Real boil_WK = 0;
  Real boiling_K = Real(373.15);
  Real water_kg = 0;
  [[nodiscard]] bool drying() const { return water_kg > 0; }  ///< kNodeWater is followed
};

/// Everything the right-hand side needs. Plain data, so that a test can state any network it likes.
template <class Real>
struct BasicHeatModel : NetworkLayout, NetworkNumbers<Real> {
  /// Energy over a reference temperature [J].
  [[nodiscard]] double stored_J(const State& state, double reference_K) const;

  /// The integrator needs capacities that do not change. The state of a food node is therefore its
  /// enthalpy over the heat capacity of the thawed food, counted from 0 degC: above that it is the
  /// temperature; below, it falls by (L w + 2 K c_ice) / c while the water freezes, from 0 to -2
  /// degC, and then by c_ice / c a kelvin. w is FoodLoad::water_share, c the specific heat of the
  /// thawed food, L and c_ice are kFusion_Jkg and kIceHeat_JkgK. The heat that the food takes is
  /// exact; frozen food conducts heat in the model as thawed food does, a quarter of what ice does.
  [[nodiscard]] double food_temperature_K(double state_K) const;
  [[nodiscard]] double food_state_K(double temperature_K) const;  ///< the inverse
};
using HeatModel = BasicHeatModel<double>;
template <>
double HeatModel::stored_J(const State& state, double reference_K) const;
template <>
double HeatModel::food_temperature_K(double state_K) const;
template <>
double HeatModel::food_state_K(double temperature_K) const;

/// Builds the network. @param vessel and @param food are both given or both null.
HeatModel make_model(const oven::OvenDesign& design,
                     const oven::OvenGeometry& geometry,
                     const optics::ExchangeAreas& exchange,
                     const oven::Vessel* vessel,
                     const FoodLoad* food,
                     const ModelOptions& options);

/// The state with every node at one temperature and all water still in the food.
State uniform_state(double temperature_K);
}  // namespace ovendays::heat
