// SPDX-License-Identifier: MIT
// The heat network's equations for one instant: powers into every node, their exact partial
// derivatives, and the power that leaves. Written once for a plain double and for a pack of lanes
// (R). Private to heat; nothing allocates, everything is inlined. See pack.h on OVENDAYS_ISA.
#pragma once

#include "ovendays/base/constants.h"
#include "ovendays/heat/model.h"
#include "pack.h"

namespace ovendays::heat::OVENDAYS_ISA {

inline constexpr double kAirGas_JkgK = 287.05;
inline constexpr double kVapourGas_JkgK = 461.5;
inline constexpr double kAirHeat_JkgK = 1006.0;
inline constexpr double kSigma = base::kStefanBoltzmann_Wm2K4;
/// Below this share of its water a food dries ever more slowly, in proportion (judgement, no
/// source).
inline constexpr double kFallingRate_percent = 30.0;
/// Air, pane, liner, tray, vessel, food, pane 1, water.
inline constexpr int kCore = 8;
inline constexpr int kCoreNode[kCore] = {
    kNodeAir, kNodePane, kNodeLiner, kNodeTray, kNodeVessel, kNodeFood, kNodePane1, kNodeWater};
/// The core indices on which the chains hang.
inline constexpr int kPaneAnchor = 6, kWallAnchor = 2, kFloorAnchor = 2, kShellAnchor = 5;

/// A power that flows from a first place to a second, and its slopes: d/d first, and -d/d second.
template <class R>
struct Coupled {
  R power, first, second;
};

template <class R>
struct Fitted {
  R value, slope;
};

/// Polynomial fits in (T - 360 K)/100 K to the property functions of base/air.h at 101325 Pa.
template <class R>
OVENDAYS_INLINE Fitted<R> convection_group_fit(R film_K) {
  const R x = 0.01 * (film_K - 360.0);
  return {((-0.00459392 * x + 0.02903632) * x - 0.1987639) * x + 2.45391145,
          0.01 * ((-0.01378176 * x + 0.05807264) * x - 0.1987639)};
}
template <class R>
OVENDAYS_INLINE Fitted<R> air_conductivity_fit(R film_K) {
  const R x = 0.01 * (film_K - 360.0);
  return {(-0.00033516 * x + 0.00734594) * x + 0.03077058, 0.01 * (-0.00067032 * x + 0.00734594)};
}

/// Saturation pressure: quintic fit of p^(1/8) in (T - 330 K)/100 K; temperatures outside 235..430
/// K count as those ends.
template <class R>
OVENDAYS_INLINE Fitted<R> saturation_fit(R temperature_K) {
  const R t = greater_of(lesser_of(temperature_K, all<R>(430.0)), all<R>(235.0));
  const R x = 0.01 * (t - 330.0);
  const R eighth =
      ((((-0.005410030637670491 * x + 0.02791364626119964) * x - 0.07308495256964984) * x -
        0.10317082410100298) *
           x +
       2.001489502278913) *
          x +
      3.3843665000262875;
  const R slope =
      ((((-0.027050153188352455 * x + 0.11165458504479856) * x - 0.21925485770894952) * x -
        0.20634164820200596) *
           x +
       2.001489502278913) *
      0.01;
  const R squared = eighth * eighth;
  const R fourth = squared * squared;
  return {fourth * fourth, 8.0 * fourth * squared * eighth * slope};
}

/// Hollands et al. 1976: Nusselt number and its slope against the Rayleigh number.
/// @param sine_power 1708 sin(1.8 tilt)^1.6
template <class R>
OVENDAYS_INLINE Fitted<R> hollands_fit(R rayleigh, R cosine, R sine_power) {
  const R inclined = greater_of(rayleigh * cosine, all<R>(1e-9));
  const R first = 1.0 - 1708.0 / inclined;
  const R second = 1.0 - sine_power / inclined;
  const auto convects = first > 0.0 * first;
  R nusselt = 1.0 + select(convects, 1.44 * first * second, all<R>(0.0));
  R slope = select(
      convects, 1.44 * (1708.0 * second + sine_power * first) / (inclined * inclined), all<R>(0.0));
  const R cubic = cube_root(inclined * (1.0 / 5830.0));
  const auto fully = inclined > 5830.0 + 0.0 * inclined;
  nusselt = nusselt + select(fully, cubic - 1.0, all<R>(0.0));
  slope = slope + select(fully, cubic / (3.0 * inclined), all<R>(0.0));
  return {nusselt, slope * cosine};
}

template <class R>
OVENDAYS_INLINE R fourth_power(R x) {
  const R squared = x * x;
  return squared * squared;
}

template <class R>
OVENDAYS_INLINE Coupled<R> radiation(double area_m2, R first_K, R second_K) {
  const double scale = kSigma * area_m2;
  const R a = first_K * first_K;
  const R b = second_K * second_K;
  return {scale * (a * a - b * b), 4.0 * scale * a * first_K, 4.0 * scale * b * second_K};
}

/// Natural convection between a surface and the air, with its conduction floor.
template <class R>
OVENDAYS_INLINE Coupled<R> convection(double factor, double still_WK, R surface_K, R air_K) {
  const R difference_K = surface_K - air_K;
  const Fitted<R> group = convection_group_fit(0.5 * (surface_K + air_K));
  const R driven = factor * root(root(magnitude(difference_K)));
  const R moving_WK = driven * group.value;
  const R bend = 0.5 * driven * group.slope * difference_K;
  const R slope = 1.25 * moving_WK + still_WK;
  return {(moving_WK + still_WK) * difference_K, slope + bend, slope - bend};
}

/// Conduction with a conductivity that rises with the mean temperature of the two ends.
template <class R>
OVENDAYS_INLINE Coupled<R> conduction(double conductance_WK,
                                      double slope_1K,
                                      R first_K,
                                      R second_K) {
  const R difference_K = first_K - second_K;
  const R now = conductance_WK * (1.0 + slope_1K * (0.5 * (first_K + second_K) - 298.15));
  const R bend = 0.5 * conductance_WK * slope_1K * difference_K;
  return {now * difference_K, now + bend, now - bend};
}

/// What drives an instant; `lid` is 1 with the lid open, else 0.
template <class R>
struct Instant {
  R ambient_K, pane_env_K4, skin_env_K4, skin_gain_W, wind_ms;
  R gain_W[oven::kSurfaces];
};
template <class R>
struct Stretch {
  R tilt_cosine, tilt_sine_power, vapour_Pa, pane_wind_factor, lid;
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
  R into_W[kNodes];  ///< of kNodeWater: [%/s]
  R out_W;           ///< to the outside, by all paths
  R sun_W;
  R latent_W;  ///< part of out_W that leaves as steam
  R out_slope_WK[kNodes];
};

/// Which parts of a network a compiled engine carries; what it leaves out must be absent from the
/// model.
template <bool kLoadedPart, bool kSecondPane, bool kShellPart>
struct Shape {
  static constexpr bool kLoaded = kLoadedPart;  ///< vessel, food and the food's water
  static constexpr bool kPanes = kSecondPane;   ///< more than one pane
  static constexpr bool kShells = kShellPart;
  static constexpr int kSize = kLoaded ? (kPanes ? 8 : 7) : (kPanes ? 8 : 4);
  /// Core place of row `row` of the dense system.
  static constexpr int place(int row) { return kSize == 7 && row == 6 ? 7 : row; }
  static constexpr int row_of(int core) { return kSize == 7 && core == 7 ? 6 : core; }
};
using AnyShape = Shape<true, true, true>;

template <class R, class S, bool kWithJacobian>
class Network {
 public:
  OVENDAYS_INLINE Network(const HeatModel& model,
                          const Instant<R>& now,
                          const Stretch<R>& stretch,
                          const R* y,
                          Powers<R>& powers,
                          Jacobian<R>* jacobian)
      : m_(model), now_(now), stretch_(stretch), y_(y), p_(powers), j_(jacobian) {}

  OVENDAYS_INLINE void evaluate() {
    clear();
    sun();
    inside();
    chains();
    outside();
    leak();
    leak_heat();
    if (S::kLoaded && m_.drying()) steam();
  }

  /// How fast powers change at a fixed state because the surroundings change [W/s]. Needs leak().
  OVENDAYS_INLINE void drift(const Instant<R>& rate, R* into_Ws, R& out_Ws) {
    for (int i = 0; i < kNodes; ++i) into_Ws[i] = all<R>(0.0);
    out_Ws = all<R>(0.0);
    for (int s = 0; s < oven::kSurfaces; ++s) into_Ws[m_.node_of[s]] += rate.gain_W[s];
    into_Ws[kNodeWallSkin] += rate.skin_gain_W;
    const R still = all<R>(1.0);
    drift_surface(m_.outer_node,
                  m_.pane_area_m2,
                  m_.outer_pane_ir_m2,
                  rate.pane_env_K4,
                  stretch_.pane_wind_factor,
                  rate,
                  into_Ws,
                  out_Ws);
    drift_surface(kNodeWallSkin,
                  m_.wall_skin_m2,
                  m_.wall_skin_m2 * m_.skin_emittance,
                  rate.skin_env_K4,
                  still,
                  rate,
                  into_Ws,
                  out_Ws);
    const R cubed = now_.ambient_K * now_.ambient_K * now_.ambient_K;
    drift_surface(kNodeFloorSkin,
                  m_.floor_skin_m2,
                  m_.floor_skin_m2 * m_.skin_emittance,
                  4.0 * cubed * rate.ambient_K,
                  still,
                  rate,
                  into_Ws,
                  out_Ws);
    drift_leak(rate, into_Ws, out_Ws);
  }

  struct LeakFlow {
    R flow_m3s, by_air_m3sK, by_ambient_m3sK, by_wind_m2;
  };
  const LeakFlow& leak_flow() const { return leak_; }

 private:
  OVENDAYS_INLINE void clear() {
    for (int i = 0; i < kNodes; ++i) {
      p_.into_W[i] = all<R>(0.0);
      p_.out_slope_WK[i] = all<R>(0.0);
    }
    p_.out_W = all<R>(0.0);
    p_.latent_W = all<R>(0.0);
    if constexpr (kWithJacobian) {
      for (int a = 0; a < S::kSize; ++a) {
        for (int b = 0; b < S::kSize; ++b) j_->core[S::place(a)][S::place(b)] = all<R>(0.0);
      }
      for (int k = 0; k < 4; ++k) {
        j_->pane.diagonal[k] = j_->wall.diagonal[k] = j_->floor.diagonal[k] =
            j_->shell.diagonal[k] = all<R>(0.0);
      }
    }
  }

  OVENDAYS_INLINE void sun() {
    R sum = now_.skin_gain_W;
    for (int s = 0; s < oven::kSurfaces; ++s) {
      p_.into_W[m_.node_of[s]] += now_.gain_W[s];
      sum += now_.gain_W[s];
    }
    p_.into_W[kNodeWallSkin] += now_.skin_gain_W;
    p_.sun_W = sum;
  }

  /// Power that flows between two places of the core.
  OVENDAYS_INLINE void couple(int a, int b, const Coupled<R>& c) {
    p_.into_W[kCoreNode[a]] -= c.power;
    p_.into_W[kCoreNode[b]] += c.power;
    if constexpr (kWithJacobian) {
      j_->core[a][a] -= c.first;
      j_->core[a][b] += c.second;
      j_->core[b][a] += c.first;
      j_->core[b][b] -= c.second;
    }
  }

  /// Power along a chain: link 0 joins the anchor of the core, link k node k-1 and k.
  OVENDAYS_INLINE void couple_chain(
      int anchor, int first_node, int link, const Coupled<R>& c, Chain<R> Jacobian<R>::*chain) {
    p_.into_W[link == 0 ? kCoreNode[anchor] : first_node + link - 1] -= c.power;
    p_.into_W[first_node + link] += c.power;
    if constexpr (kWithJacobian) {
      Chain<R>& links = j_->*chain;
      links.to_outer[link] = c.first;
      links.to_inner[link] = c.second;
      links.diagonal[link] -= c.second;
      if (link == 0) {
        j_->core[anchor][anchor] -= c.first;
      } else {
        links.diagonal[link - 1] -= c.first;
      }
    }
  }

  OVENDAYS_INLINE void inside() {
    const int surfaces = S::kLoaded && m_.loaded ? 5 : 3;
    for (int s = 0; s < surfaces; ++s) {
      if (m_.convection[static_cast<std::size_t>(s)] <= 0.0) continue;
      couple(s + 1,
             0,
             convection(m_.convection[static_cast<std::size_t>(s)],
                        m_.still_WK[static_cast<std::size_t>(s)],
                        y_[kCoreNode[s + 1]],
                        y_[kNodeAir]));
    }
    constexpr int kRadiators = S::kPanes ? 6 : S::kLoaded ? 5 : 3;
    for (int i = 0; i < kRadiators; ++i) {
      for (int j = i + 1; j < kRadiators; ++j) {
        const double area_m2 =
            m_.exchange_m2[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)];
        if (area_m2 > 0.0)
          couple(i + 1, j + 1, radiation(area_m2, y_[kCoreNode[i + 1]], y_[kCoreNode[j + 1]]));
      }
    }
    contact(3, 2, m_.tray_floor_WK);
    if constexpr (S::kLoaded) {
      contact(m_.present[kNodeTray] ? 3 : 2, 4, m_.tray_vessel_WK);
      contact(4, 5, m_.food_vessel_WK);
    }
  }

  OVENDAYS_INLINE void contact(int a, int b, double conductance_WK) {
    if (conductance_WK <= 0.0) return;
    const R slope = all<R>(conductance_WK);
    couple(a, b, {slope * (y_[kCoreNode[a]] - y_[kCoreNode[b]]), slope, slope});
  }

  OVENDAYS_INLINE void insulation(int first_node,
                                  const double* links,
                                  double slope_1K,
                                  int anchor,
                                  Chain<R> Jacobian<R>::*chain) {
    for (int k = 0; k < 4; ++k) {
      const R inner_K = y_[k == 0 ? kCoreNode[anchor] : first_node + k - 1];
      couple_chain(anchor,
                   first_node,
                   k,
                   conduction(links[k], slope_1K, inner_K, y_[first_node + k]),
                   chain);
    }
  }

  OVENDAYS_INLINE void chains() {
    insulation(kNodeWall1, m_.wall_WK.data(), m_.wall_slope_1K, kWallAnchor, &Jacobian<R>::wall);
    insulation(
        kNodeFloor1, m_.floor_WK.data(), m_.floor_slope_1K, kFloorAnchor, &Jacobian<R>::floor);
    if (S::kShells && m_.shells)
      insulation(kNodeShell1, m_.shell_WK.data(), 0.0, kShellAnchor, &Jacobian<R>::shell);
    if (S::kPanes && m_.panes >= 2) couple(1, 6, gap(0, y_[kNodePane], y_[kNodePane1]));
    if (S::kPanes && m_.panes >= 3)
      couple_chain(
          kPaneAnchor, kNodePane2, 0, gap(1, y_[kNodePane1], y_[kNodePane2]), &Jacobian<R>::pane);
  }

  OVENDAYS_INLINE Coupled<R> gap(int which, R lower_K, R upper_K) const {
    const R film_K = 0.5 * (lower_K + upper_K);
    const Fitted<R> k = air_conductivity_fit(film_K);
    const Fitted<R> group = convection_group_fit(film_K);
    const R ratio = group.value / k.value;
    const double gap_m = m_.gap_m[static_cast<std::size_t>(which)];
    const R per_kelvin =
        (m_.pressure_root * m_.pressure_root * gap_m * gap_m * gap_m) * fourth_power(ratio);
    const R difference_K = lower_K - upper_K;
    const R warm_K = greater_of(difference_K, all<R>(0.0));
    const Fitted<R> nu =
        hollands_fit(per_kelvin * warm_K, stretch_.tilt_cosine, stretch_.tilt_sine_power);
    const R conductance_WK = k.value * (m_.pane_area_m2 / gap_m);
    const R slope = conductance_WK * (nu.value + nu.slope * per_kelvin * warm_K);
    const R k_bend = k.slope / k.value;
    const R rayleigh_bend = 4.0 * (group.slope / group.value - k_bend) * per_kelvin * warm_K;
    const R bend =
        0.5 * conductance_WK * difference_K * (nu.value * k_bend + nu.slope * rayleigh_bend);
    const Coupled<R> ir =
        radiation(m_.gap_ir_m2[static_cast<std::size_t>(which)], lower_K, upper_K);
    return {conductance_WK * nu.value * difference_K + ir.power,
            slope + bend + ir.first,
            slope - bend + ir.second};
  }

  /// Power that leaves a node for the outside.
  OVENDAYS_INLINE void lose(int node, R power, R slope) {
    p_.into_W[node] -= power;
    p_.out_W += power;
    p_.out_slope_WK[node] += slope;
    if constexpr (kWithJacobian) {
      switch (node) {
        case kNodePane2:
          j_->pane.diagonal[0] -= slope;
          break;
        case kNodeWallSkin:
          j_->wall.diagonal[3] -= slope;
          break;
        case kNodeFloorSkin:
          j_->floor.diagonal[3] -= slope;
          break;
        default:
          for (int c = 0; c < kCore; ++c) {
            if (kCoreNode[c] == node) j_->core[c][c] -= slope;
          }
      }
    }
  }

  /// An outer surface: area, emittance times area, and the wind it stands in.
  struct Outer {
    int node;
    double area_m2, ir_m2;
    R env_K4, wind_ms;
  };
  OVENDAYS_INLINE void lose_from(const Outer& o) {
    const R t = y_[o.node];
    const R wind_WK = o.area_m2 * (2.8 + 3.0 * o.wind_ms);
    const double ir = kSigma * o.ir_m2;
    const R cubed = t * t * t;
    lose(o.node,
         wind_WK * (t - now_.ambient_K) + ir * (cubed * t - o.env_K4),
         wind_WK + 4.0 * ir * cubed);
  }

  OVENDAYS_INLINE void outside() {
    lose_from({m_.outer_node,
               m_.pane_area_m2,
               m_.outer_pane_ir_m2,
               now_.pane_env_K4,
               now_.wind_ms * stretch_.pane_wind_factor});
    lose_from({kNodeWallSkin,
               m_.wall_skin_m2,
               m_.wall_skin_m2 * m_.skin_emittance,
               now_.skin_env_K4,
               now_.wind_ms});
    lose_from({kNodeFloorSkin,
               m_.floor_skin_m2,
               m_.floor_skin_m2 * m_.skin_emittance,
               fourth_power(now_.ambient_K),
               now_.wind_ms});
    for (int r = 0; r < HeatModel::kRadiators; ++r) {
      const double area_m2 = m_.film_outside_m2[static_cast<std::size_t>(r)];
      if (area_m2 <= 0.0) continue;
      const int node = kCoreNode[r + 1];
      const R cubed = y_[node] * y_[node] * y_[node];
      lose(node,
           kSigma * area_m2 * (cubed * y_[node] - now_.pane_env_K4),
           4.0 * kSigma * area_m2 * cubed);
    }
  }

  /// Volume flow through the gaps and its slopes. Half of the area lets air in, half out: orifice
  /// flow (C_d 0.6) under half the stack pressure and a wind pressure of 0.3 of the dynamic head
  /// (ASHRAE Fundamentals, infiltration, from memory). The kink at no difference is softened over 1
  /// K.
  OVENDAYS_INLINE void leak() {
    const R difference_K = y_[kNodeAir] - now_.ambient_K;
    const R per_mean = 2.0 / (y_[kNodeAir] + now_.ambient_K);
    const R softened_K = root(difference_K * difference_K + 1.0);
    const R lift = base::kGravity_ms2 * m_.stack_height_m * per_mean;
    const R head = lift * softened_K + 0.3 * now_.wind_ms * now_.wind_ms + 1e-4;
    const R flow = 0.3 * m_.leak_m2 * root(head);
    const R per_head = 0.5 * flow / head;
    const R by_mean = -0.5 * softened_K * per_mean;
    const R share = difference_K / softened_K;
    leak_ = {flow,
             per_head * lift * (share + by_mean),
             per_head * lift * (by_mean - share),
             per_head * 0.6 * now_.wind_ms};
  }

  /// Heat capacity of a cubic metre of outside air [J/m3K].
  OVENDAYS_INLINE R air_heat() const {
    return (kAirHeat_JkgK * base::kStandardPressure_Pa * m_.pressure_root * m_.pressure_root /
            kAirGas_JkgK) /
           now_.ambient_K;
  }

  OVENDAYS_INLINE void leak_heat() {
    const R heat = air_heat();
    const R conductance_WK = heat * leak_.flow_m3s + stretch_.lid * m_.lid_open_WK;
    const R difference_K = y_[kNodeAir] - now_.ambient_K;
    lose(kNodeAir,
         conductance_WK * difference_K,
         conductance_WK + heat * leak_.by_air_m3sK * difference_K);
  }

  /// Steam: from the food by evaporation and boiling, to the outside with the leaks, to the pane as
  /// dew. The vapour in the oven is taken as settled: what enters leaves at once. Its pressure
  /// solves a balance that is linear on either side of the dew point.
  struct Steam {
    R wetness, wetness_slope;          ///< share of the surface that is wet, and its slope [1/%]
    R evaporation, carry, dew, total;  ///< mass flow over pressure [kg/sPa]
    R vapour_Pa;
    Fitted<R> food, pane;
    R boil_kgs, boil_slope_WK;
    R per_air;  ///< 1 / (R_v T_air)
  };
  OVENDAYS_INLINE Steam settle() const {
    Steam s;
    const R zero = all<R>(0.0);
    const R left = greater_of(y_[kNodeWater], zero) * (1.0 / kFallingRate_percent);
    s.wetness = lesser_of(left, all<R>(1.0));
    s.wetness_slope =
        select(left < all<R>(1.0),
               select(y_[kNodeWater] > zero, all<R>(1.0 / kFallingRate_percent), zero),
               zero);
    s.evaporation = m_.vapour_food_kgsPa * s.wetness;
    const R over_K = y_[kNodeFood] - m_.boiling_K;
    const R strength = m_.boil_WK * s.wetness;
    s.boil_slope_WK = select(over_K >= zero, strength, zero);
    s.boil_kgs = s.boil_slope_WK * over_K * (1.0 / m_.latent_Jkg);
    s.food = saturation_fit(y_[kNodeFood]);
    s.pane = saturation_fit(y_[kNodePane]);
    s.per_air = 1.0 / (kVapourGas_JkgK * y_[kNodeAir]);
    s.carry = leak_.flow_m3s * s.per_air + stretch_.lid * m_.vapour_pane_kgsPa + 1e-12;
    const R dry_total = s.evaporation + s.carry;
    const R supply = s.evaporation * s.food.value + s.carry * stretch_.vapour_Pa + s.boil_kgs;
    const auto falls = supply > s.pane.value * dry_total;
    s.dew = select(falls, all<R>(m_.vapour_pane_kgsPa), zero);
    s.total = dry_total + s.dew;
    s.vapour_Pa = (supply + s.dew * s.pane.value) / s.total;
    return s;
  }

  OVENDAYS_INLINE void steam() {
    const Steam s = settle();
    const double latent = m_.latent_Jkg;
    const double percent_per_kg = 100.0 / m_.water_kg;
    const R pressure_drop = s.food.value - s.vapour_Pa;
    const R steam_kgs = s.evaporation * pressure_drop + s.boil_kgs;
    p_.into_W[kNodeFood] -= latent * steam_kgs;
    p_.into_W[kNodeWater] -= percent_per_kg * steam_kgs;
    p_.into_W[kNodePane] += latent * s.dew * (s.vapour_Pa - s.pane.value);
    const R over_outside = s.vapour_Pa - stretch_.vapour_Pa;
    p_.latent_W = latent * s.carry * over_outside;
    p_.out_W += p_.latent_W;
    // Slopes of the vapour pressure and of the steam against food, pane, air and water left.
    const R per_total = 1.0 / s.total;
    const R carry_by_air = (leak_.by_air_m3sK - leak_.flow_m3s / y_[kNodeAir]) * s.per_air;
    const R over_K = greater_of(y_[kNodeFood] - m_.boiling_K, all<R>(0.0));
    const R per_wet_kgs = m_.vapour_food_kgsPa * pressure_drop + (m_.boil_WK / latent) * over_K;
    const R wet_slope = s.wetness_slope * per_wet_kgs;
    const R vapour_by[4] = {
        (s.evaporation * s.food.slope + s.boil_slope_WK * (1.0 / latent)) * per_total,
        s.dew * s.pane.slope * per_total,
        -over_outside * per_total * carry_by_air,
        wet_slope * per_total};
    p_.out_slope_WK[kNodeFood] += latent * s.carry * vapour_by[0];
    p_.out_slope_WK[kNodePane] += latent * s.carry * vapour_by[1];
    p_.out_slope_WK[kNodeAir] += latent * (s.carry * vapour_by[2] + carry_by_air * over_outside);
    p_.out_slope_WK[kNodeWater] += latent * s.carry * vapour_by[3];
    if constexpr (kWithJacobian) {
      const R steam_by[4] = {
          s.evaporation * (s.food.slope - vapour_by[0]) + s.boil_slope_WK * (1.0 / latent),
          -s.evaporation * vapour_by[1],
          -s.evaporation * vapour_by[2],
          wet_slope - s.evaporation * vapour_by[3]};
      constexpr int kColumn[4] = {5, 1, 0, 7};
      for (int i = 0; i < 4; ++i) {
        j_->core[5][kColumn[i]] -= latent * steam_by[i];
        j_->core[7][kColumn[i]] -= percent_per_kg * steam_by[i];
        j_->core[1][kColumn[i]] += latent * s.dew * vapour_by[i];
      }
      j_->core[1][1] -= latent * s.dew * s.pane.slope;
    }
  }

  OVENDAYS_INLINE void drift_surface(int node,
                                     double area_m2,
                                     double ir_m2,
                                     R env_rate,
                                     R wind_factor,
                                     const Instant<R>& rate,
                                     R* into_Ws,
                                     R& out_Ws) const {
    const R change = area_m2 * ((2.8 + 3.0 * now_.wind_ms * wind_factor) * rate.ambient_K -
                                3.0 * wind_factor * rate.wind_ms * (y_[node] - now_.ambient_K)) +
                     (kSigma * ir_m2) * env_rate;
    into_Ws[node] += change;
    out_Ws -= change;
  }

  /// Drift of what the leaks carry off, as air and as steam.
  OVENDAYS_INLINE void drift_leak(const Instant<R>& rate, R* into_Ws, R& out_Ws) const {
    const R heat = air_heat();
    const R flow_rate = leak_.by_ambient_m3sK * rate.ambient_K + leak_.by_wind_m2 * rate.wind_ms;
    const R conductance_WK = heat * leak_.flow_m3s + stretch_.lid * m_.lid_open_WK;
    const R conductance_rate =
        heat * (flow_rate - leak_.flow_m3s * rate.ambient_K / now_.ambient_K);
    const R change =
        conductance_WK * rate.ambient_K - conductance_rate * (y_[kNodeAir] - now_.ambient_K);
    into_Ws[kNodeAir] += change;
    out_Ws -= change;
    if (!S::kLoaded || !m_.drying()) return;
    const Steam s = settle();
    const R over_outside = s.vapour_Pa - stretch_.vapour_Pa;
    const R carry_rate = flow_rate * s.per_air;
    const R vapour_rate = -over_outside / s.total * carry_rate;
    into_Ws[kNodeFood] += m_.latent_Jkg * s.evaporation * vapour_rate;
    into_Ws[kNodeWater] += (100.0 / m_.water_kg) * s.evaporation * vapour_rate;
    into_Ws[kNodePane] += m_.latent_Jkg * s.dew * vapour_rate;
    out_Ws += m_.latent_Jkg * (carry_rate * over_outside + s.carry * vapour_rate);
  }

  const HeatModel& m_;
  const Instant<R>& now_;
  const Stretch<R>& stretch_;
  const R* y_;
  Powers<R>& p_;
  Jacobian<R>* j_;
  LeakFlow leak_{};
};
}  // namespace ovendays::heat::OVENDAYS_ISA
