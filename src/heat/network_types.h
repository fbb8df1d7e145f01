// SPDX-License-Identifier: MIT
// The data that the network's equations read and fill: boundary values, powers, the Jacobian, and
// numbers derived from the model. Private to heat; see pack.h on OVENDAYS_ISA.
//
// Structure of the Jacobian. Nine nodes that may all exchange heat with one another form a dense
// "core". The nodes inside wall, floor and food, and the outermost of three panes, form chains:
// each exchanges heat with its two neighbours only, and the first with one node of the core, its
// anchor. To add a node: give it a place in enum Node (model.h); then either give it a place in
// CorePlace and kCoreNode (row order: step_matrix.h), or let it be a chain; then couple it in
// network.h. The tests in tests/heat/jacobian_test.cpp compare every derivative with a difference
// quotient.
#pragma once

#include "couplings.h"
#include "single_precision.h"

namespace ovendays::heat::OVENDAYS_ISA {

/// The model in the precision of R.
template <class R>
using ModelOf = BasicHeatModel<ScalarOf<R>>;

inline constexpr double kAirGas_JkgK = 287.05;
inline constexpr double kVapourGas_JkgK = 461.5;
inline constexpr double kAirHeat_JkgK = 1006.0;

/// Numbers derived from a model that every evaluation needs, worked out once.
template <class Scalar>
struct DerivedNumbers {
  explicit DerivedNumbers(const BasicHeatModel<Scalar>& m)
      : pane(m.pane_area_m2, m.outer_pane_ir_m2),
        wall(m.wall_skin_m2, m.wall_skin_m2 * m.skin_emittance),
        floor(m.floor_skin_m2, m.floor_skin_m2 * m.skin_emittance),
        lift_m2s2(static_cast<Scalar>(base::kGravity_ms2) * m.stack_height_m),
        leak_m2(static_cast<Scalar>(0.3) * m.leak_m2),
        air_heat_Jm3(static_cast<Scalar>(kAirHeat_JkgK * base::kStandardPressure_Pa) *
                     m.pressure_root * m.pressure_root / static_cast<Scalar>(kAirGas_JkgK)),
        per_latent_kgJ(1 / m.latent_Jkg),
        boil_kgsK(m.boil_WK / m.latent_Jkg),
        percent_per_kg(m.drying() ? 100 / m.water_kg : 0) {
    for (std::size_t i = 0; i < exchange_WK4.size(); ++i) {
      for (std::size_t j = 0; j < exchange_WK4.size(); ++j)
        exchange_WK4[i][j] = static_cast<Scalar>(kSigma) * m.exchange_m2[i][j];
      films = films || m.film_outside_m2[i] > 0;
    }
    for (std::size_t k = 0; k < wall_rise_WK2.size(); ++k) {
      wall_rise_WK2[k] = m.wall_WK[k] * m.wall_slope_1K;
      floor_rise_WK2[k] = m.floor_WK[k] * m.floor_slope_1K;
    }
  }

  /// Of an outer surface: the wind coefficient 2.8 + 3 V times its area, and its infrared loss.
  struct Outer {
    Outer(Scalar area_m2, Scalar ir_m2)
        : still_WK(static_cast<Scalar>(2.8) * area_m2),
          by_wind_JKm(3 * area_m2),
          ir_WK4(static_cast<Scalar>(kSigma) * ir_m2),
          ir_slope_WK4(4 * ir_WK4) {}
    Scalar still_WK, by_wind_JKm, ir_WK4, ir_slope_WK4;
  } pane, wall, floor;
  std::array<std::array<Scalar, HeatModel::kRadiators>, HeatModel::kRadiators> exchange_WK4;
  std::array<Scalar, 4> wall_rise_WK2;  ///< d conductance / d mean temperature of each link
  std::array<Scalar, 4> floor_rise_WK2;
  Scalar lift_m2s2;     ///< gravity x height of the stack
  Scalar leak_m2;       ///< half the leak area x orifice coefficient
  Scalar air_heat_Jm3;  ///< heat capacity of a cubic metre of air x its temperature
  Scalar per_latent_kgJ, boil_kgsK, percent_per_kg;
  bool films = false;  ///< whether some inner surface radiates to the surroundings (through a film)
};

/// Places of the core: the nodes that form the dense part of the system.
enum CorePlace : int {
  kCoreAir,
  kCorePane,  // from here to kCorePane1 in the order of HeatModel::kRadiatorNode
  kCoreLiner,
  kCoreTray,
  kCoreVessel,
  kCoreLid,
  kCoreFood,
  kCorePane1,
  kCoreWater,
  kCore  ///< their number
};
inline constexpr int kCoreNode[kCore] = {kNodeAir,
                                         kNodePane,
                                         kNodeLiner,
                                         kNodeTray,
                                         kNodeVessel,
                                         kNodeLid,
                                         kNodeFood,
                                         kNodePane1,
                                         kNodeWater};
/// The core places to which the chains are joined.
inline constexpr int kPaneAnchor = kCorePane1, kWallAnchor = kCoreLiner, kFloorAnchor = kCoreLiner,
                     kShellAnchor = kCoreFood;

/// Is the node inside insulation or food? Changes of sun, wind and air do not act on it directly.
OVENDAYS_INLINE constexpr bool inside_solid(int node) {
  return (node >= kNodeWall1 && node < kNodeWallSkin) ||
         (node >= kNodeFloor1 && node < kNodeFloorSkin) ||
         (node >= kNodeShell1 && node <= kNodeShell4);
}

/// Is it inside the oven, with no loss of its own to the surroundings but through a film?
OVENDAYS_INLINE constexpr bool behind_panes(int node) {
  return node == kNodeLiner || node == kNodeTray || node == kNodeVessel || node == kNodeLid;
}

/// What acts on the network from outside at one instant, or the rates of change of the same.
template <class R>
struct BoundaryValues {
  R ambient_K, pane_env_K4, skin_env_K4, skin_gain_W, wind_ms;
  R gain_W[oven::kSurfaces];
  /// Sun absorbed by all surfaces together [W], or its rate of change.
  OVENDAYS_INLINE R sun_W() const {
    R sum = skin_gain_W;
#pragma GCC unroll 32
    for (int s = 0; s < oven::kSurfaces; ++s) sum += gain_W[s];
    return sum;
  }
};
/// What is constant within a segment; `lid` is 1 while the lid is open, else 0.
template <class R>
struct SegmentConstants {
  R tilt_cosine, tilt_sine_power, tilt_free, vapour_Pa, pane_wind_factor, lid;
};

/// A chain's part of the Jacobian. Link k joins node k-1 (the anchor for k = 0) and node k:
/// to_outer[k] = d power(outer) / d T(inner), to_inner[k] the reverse; diagonal[k] is node k's own.
template <class R>
struct Chain {
  R to_outer[4], to_inner[4], diagonal[4];
};
template <class R>
struct Jacobian {
  R core[kCore][kCore];
  Chain<R> pane, wall, floor, shell;
};

template <class R>
struct Powers {
  R into_W[kNodes];        ///< of kNodeWater: [%/s]
  R out_W;                 ///< to the outside, by all paths
  R latent_W;              ///< part of out_W that leaves as steam
  R out_slope_WK[kNodes];  ///< d out_W / d T; filled with the Jacobian only
};
}  // namespace ovendays::heat::OVENDAYS_ISA
