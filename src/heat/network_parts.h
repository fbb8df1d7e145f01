// SPDX-License-Identifier: MIT
// The pieces that the network's equations read and fill: what drives an instant, powers, the
// Jacobian and which of its places a network uses. Private to heat; see pack.h on OVENDAYS_ISA.
#pragma once

#include "couplings.h"
#include "single_precision.h"

namespace ovendays::heat::OVENDAYS_ISA {

/// The network's numbers, as precise as the packs they meet.
template <class R>
using ModelOf = BasicHeatModel<PlainOf<R>>;

inline constexpr double kAirGas_JkgK = 287.05;
inline constexpr double kVapourGas_JkgK = 461.5;
inline constexpr double kAirHeat_JkgK = 1006.0;

/// Products of a model's numbers that every evaluation needs, worked out once.
template <class Plain>
struct Products {
  explicit Products(const BasicHeatModel<Plain>& m)
      : pane(m.pane_area_m2, m.outer_pane_ir_m2),
        wall(m.wall_skin_m2, m.wall_skin_m2 * m.skin_emittance),
        floor(m.floor_skin_m2, m.floor_skin_m2 * m.skin_emittance),
        lift_m2s2(static_cast<Plain>(base::kGravity_ms2) * m.stack_height_m),
        leak_m2(static_cast<Plain>(0.3) * m.leak_m2),
        air_heat_Jm3(static_cast<Plain>(kAirHeat_JkgK * base::kStandardPressure_Pa) *
                     m.pressure_root * m.pressure_root / static_cast<Plain>(kAirGas_JkgK)),
        per_latent_kgJ(1 / m.latent_Jkg),
        boil_kgsK(m.boil_WK / m.latent_Jkg),
        percent_per_kg(m.drying() ? 100 / m.water_kg : 0) {
    for (std::size_t i = 0; i < exchange_WK4.size(); ++i) {
      for (std::size_t j = 0; j < exchange_WK4.size(); ++j)
        exchange_WK4[i][j] = static_cast<Plain>(kSigma) * m.exchange_m2[i][j];
      films = films || m.film_outside_m2[i] > 0;
    }
    for (std::size_t k = 0; k < wall_rise_WK2.size(); ++k) {
      wall_rise_WK2[k] = m.wall_WK[k] * m.wall_slope_1K;
      floor_rise_WK2[k] = m.floor_WK[k] * m.floor_slope_1K;
    }
  }

  /// Of an outer surface: wind's part of what it loses, at no wind and per m/s, and infrared's.
  struct Outer {
    Outer(Plain area_m2, Plain ir_m2)
        : still_WK(static_cast<Plain>(2.8) * area_m2),
          by_wind_JKm(3 * area_m2),
          ir_WK4(static_cast<Plain>(kSigma) * ir_m2),
          ir_slope_WK4(4 * ir_WK4) {}
    Plain still_WK, by_wind_JKm, ir_WK4, ir_slope_WK4;
  } pane, wall, floor;
  std::array<std::array<Plain, HeatModel::kRadiators>, HeatModel::kRadiators> exchange_WK4;
  std::array<Plain, 4> wall_rise_WK2;  ///< of the links, with their mean temperature
  std::array<Plain, 4> floor_rise_WK2;
  Plain lift_m2s2;     ///< gravity times the stack's height
  Plain leak_m2;       ///< half the gaps, times the orifices' coefficient
  Plain air_heat_Jm3;  ///< times the air's temperature: heat capacity of a cubic metre, per kelvin
  Plain per_latent_kgJ, boil_kgsK, percent_per_kg;
  bool films = false;  ///< some inner surface sees the surroundings
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
/// The core indices on which the chains hang.
inline constexpr int kPaneAnchor = kCorePane1, kWallAnchor = kCoreLiner, kFloorAnchor = kCoreLiner,
                     kShellAnchor = kCoreFood;

/// Inside insulation or food, where no change of the surroundings is felt at once.
OVENDAYS_INLINE constexpr bool inside_solid(int node) {
  return (node >= kNodeWall1 && node < kNodeWallSkin) ||
         (node >= kNodeFloor1 && node < kNodeFloorSkin) ||
         (node >= kNodeShell1 && node <= kNodeShell4);
}

/// Inside the oven, where nothing is lost to the surroundings but through films.
OVENDAYS_INLINE constexpr bool behind_panes(int node) {
  return node == kNodeLiner || node == kNodeTray || node == kNodeVessel ||
         node == kNodeLid;
}

/// What drives an instant; `lid` is 1 with the lid open, else 0.
template <class R>
struct Instant {
  R ambient_K, pane_env_K4, skin_env_K4, skin_gain_W, wind_ms;
  R gain_W[oven::kSurfaces];
  /// Sun absorbed by all surfaces together, or how fast it changes.
  OVENDAYS_INLINE R sun_W() const {
    R sum = skin_gain_W;
#pragma GCC unroll 32
    for (int s = 0; s < oven::kSurfaces; ++s) sum += gain_W[s];
    return sum;
  }
};
template <class R>
struct Stretch {
  R tilt_cosine, tilt_sine_power, tilt_free, vapour_Pa, pane_wind_factor, lid;
};

/// The Jacobian of the powers: a dense core and chains that hang on it. For link k between node k-1
/// (the anchor for k = 0) and node k of a chain: to_outer[k] = d power(outer) / d T(inner),
/// to_inner[k] the other way round, and the node's own diagonal.
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
  R out_slope_WK[kNodes];  ///< only with the Jacobian
};
}  // namespace ovendays::heat::OVENDAYS_ISA
