// SPDX-License-Identifier: MIT
// The equations of the heat network at one instant: power into every node, the exact Jacobian, and
// the power that leaves the oven. Written once, for a double and for a pack of lanes (R). Nothing
// allocates, and everything is inlined into the two callers of pack_step.h. Private to heat; see
// pack.h on OVENDAYS_ISA.
#pragma once

#include "network_types.h"

namespace ovendays::heat::OVENDAYS_ISA {

/// Below this share of its water a food dries more slowly, in proportion to what is left
/// (judgement, no source).
inline constexpr double kFallingRate_percent = 30.0;
template <class R, bool kWithJacobian>
class Network {
  using Scalar = ScalarOf<R>;
  using Model = ModelOf<R>;

 public:
  using Derived = DerivedNumbers<Scalar>;

  /// @param worked of the model
  OVENDAYS_INLINE Network(const Model& model,
                          const Derived& derived,
                          const BoundaryValues<R>& now,
                          const SegmentConstants<R>& constants,
                          const R* y,
                          Powers<R>& powers,
                          Jacobian<R>* jacobian)
      : m_(model), d_(derived), now_(now), constants_(constants), y_(y), p_(powers), j_(jacobian) {}

  OVENDAYS_INLINE void evaluate() {
    // The vapour pressure is one long chain of dependent operations. It comes first, so that the
    // processor can work on the rest beside it.
    leak();
    const bool steams = m_.drying();
    if (steams) steam_ = steam_balance();
    clear();
    sun();
    inside();
    chains();
    outside();
    leak_heat();
    if (steams) steam(steam_);
    if (steams && m_.vapour_lid_kgsPa > 0) drip(steam_);
  }

  /// Partial derivative of the powers by time at a fixed state [W/s], because the boundary values
  /// change. Call it after evaluate().
  OVENDAYS_INLINE void drift(const BoundaryValues<R>& rate, R* into_Ws, R& out_Ws) {
    static_assert(kWithJacobian);
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) into_Ws[n] = broadcast<R>(0.0);
    out_Ws = broadcast<R>(0.0);
    add_gains(rate, into_Ws);
    into_Ws[kNodeWallSkin] += rate.skin_gain_W;
    drift_surface(outer_pane(), from_pane_, rate.pane_env_K4, rate, into_Ws, out_Ws);
    drift_surface(wall_skin(), from_wall_, rate.skin_env_K4, rate, into_Ws, out_Ws);
    const R cubed = now_.ambient_K * now_.ambient_K * now_.ambient_K;
    drift_surface(floor_skin(), from_floor_, 4.0 * cubed * rate.ambient_K, rate, into_Ws, out_Ws);
    drift_leak(rate, into_Ws, out_Ws);
  }

  struct LeakFlow {
    R flow_m3s, by_air_m3sK, by_ambient_m3sK, by_wind_m2;
  };
  const LeakFlow& leak_flow() const { return leak_; }

 private:
  OVENDAYS_INLINE void clear() {
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) {
      p_.into_W[n] = broadcast<R>(0.0);
      if constexpr (kWithJacobian) p_.out_slope_WK[n] = broadcast<R>(0.0);
    }
    p_.out_W = broadcast<R>(0.0);
    p_.latent_W = broadcast<R>(0.0);
    if constexpr (kWithJacobian) {
#pragma GCC unroll 32
      for (int a = 0; a < kCore; ++a) {
#pragma GCC unroll 32
        for (int b = 0; b < kCore; ++b) j_->core[a][b] = broadcast<R>(0.0);
      }
#pragma GCC unroll 32
      for (int k = 0; k < 4; ++k) {
        j_->pane.diagonal[k] = j_->wall.diagonal[k] = j_->floor.diagonal[k] =
            j_->shell.diagonal[k] = broadcast<R>(0.0);
      }
    }
  }

  OVENDAYS_INLINE void sun() {
    add_gains(now_, p_.into_W);
    p_.into_W[kNodeWallSkin] += now_.skin_gain_W;
  }

  /// Adds what every surface absorbs to its node.
  OVENDAYS_INLINE void add_gains(const BoundaryValues<R>& of, R* into) const {
#pragma GCC unroll 3
    for (int s = oven::kPane0; s <= oven::kPane2; ++s)
      into[m_.node_of[static_cast<std::size_t>(s)]] += of.gain_W[s];
    into[kNodeLiner] += of.gain_W[oven::kLiner];
    if (m_.present[kNodeTray]) {
      into[kNodeTray] += of.gain_W[oven::kTray];
    } else {
      into[kNodeLiner] += of.gain_W[oven::kTray];
    }
    into[kNodeVessel] += of.gain_W[oven::kVessel];
    into[kNodeLid] += (1 - m_.lid_transmittance) * of.gain_W[oven::kVesselTop];
    into[kNodeFood] += m_.lid_transmittance * of.gain_W[oven::kVesselTop];
  }

  OVENDAYS_INLINE static void exchange(R& from_W, R& to_W, const Coupling<R>& c) {
    from_W = subtract_product(from_W, c.strength, c.drive);
    to_W = add_product(to_W, c.strength, c.drive);
  }

  /// Adds a heat flow between two nodes of the core, given by their core indices.
  OVENDAYS_INLINE void couple(int a, int b, const Coupling<R>& c) {
    exchange(p_.into_W[kCoreNode[a]], p_.into_W[kCoreNode[b]], c);
    if constexpr (kWithJacobian) {
      j_->core[a][a] -= c.first;
      j_->core[a][b] += c.second;
      j_->core[b][a] += c.first;
      j_->core[b][b] -= c.second;
    }
  }

  /// Adds the heat flow of one link of a chain (see Chain for the numbering).
  OVENDAYS_INLINE void couple_chain(
      int anchor, int first_node, int link, const Coupling<R>& c, Chain<R> Jacobian<R>::*chain) {
    exchange(p_.into_W[link == 0 ? kCoreNode[anchor] : first_node + link - 1],
             p_.into_W[first_node + link],
             c);
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

  /// Factor of natural convection between the oven's air and an inner surface, in the order of
  /// HeatModel::convection: half of it where the air at a level plate is stably layered.
  OVENDAYS_INLINE R plate_factor(int surface) const {
    const R full = broadcast<R>(m_.convection[static_cast<std::size_t>(surface)]);
    const int core = surface + 1;
    const bool upright = core == kCoreLiner || core == kCoreVessel;
    if (upright) return full;
    const R above_K =
        core == kCorePane ? y_[kNodeAir] - y_[kNodePane] : y_[kCoreNode[core]] - y_[kNodeAir];
    return select(above_K < 0.0 * above_K, scalar<R>(0.5) * full, full);
  }

  OVENDAYS_INLINE void inside() {
    const int surfaces = m_.loaded ? 6 : 3;
#pragma GCC unroll 32
    for (int s = 0; s < surfaces; ++s) {
      couple(s + 1,
             0,
             convection(plate_factor(s),
                        m_.still_WK[static_cast<std::size_t>(s)],
                        y_[kCoreNode[s + 1]],
                        y_[kNodeAir]));
    }
    constexpr int kRadiators = HeatModel::kRadiators;
    R emitted_K4[kRadiators], slope_K3[kRadiators];
#pragma GCC unroll 32
    for (int i = 0; i < kRadiators; ++i) {
      const R t = y_[kCoreNode[i + 1]];
      const R squared = t * t;
      emitted_K4[i] = squared * squared;
      if constexpr (kWithJacobian) slope_K3[i] = 4.0 * squared * t;
    }
#pragma GCC unroll 32
    for (int i = 0; i < kRadiators; ++i) {
#pragma GCC unroll 32
      for (int j = i + 1; j < kRadiators; ++j) {
        const Scalar scale =
            d_.exchange_WK4[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)];
        Coupling<R> c{broadcast<R>(scale), emitted_K4[i] - emitted_K4[j], {}, {}};
        if constexpr (kWithJacobian) {
          c.first = scale * slope_K3[i];
          c.second = scale * slope_K3[j];
        }
        couple(i + 1, j + 1, c);
      }
    }
    contact(kCoreTray, kCoreLiner, m_.tray_floor_WK);
    contact(m_.present[kNodeTray] ? kCoreTray : kCoreLiner, kCoreVessel, m_.tray_vessel_WK);
    contact(kCoreVessel, kCoreFood, m_.food_vessel_WK);
    contact(kCoreLid, kCoreVessel, m_.lid_vessel_WK);
    contact(kCoreLid, kCoreFood, m_.lid_food_WK);
  }

  OVENDAYS_INLINE void contact(int a, int b, Scalar conductance_WK) {
    if (conductance_WK <= 0.0) return;
    const R slope = broadcast<R>(conductance_WK);
    couple(a, b, {slope, y_[kCoreNode[a]] - y_[kCoreNode[b]], slope, slope});
  }

  OVENDAYS_INLINE void insulation(int first_node,
                                  const std::array<Scalar, 4>& links_WK,
                                  const std::array<Scalar, 4>& rises_WK2,
                                  int anchor,
                                  Chain<R> Jacobian<R>::*chain) {
#pragma GCC unroll 32
    for (int k = 0; k < 4; ++k) {
      const auto at = static_cast<std::size_t>(k);
      const R inner_K = y_[k == 0 ? kCoreNode[anchor] : first_node + k - 1];
      couple_chain(anchor,
                   first_node,
                   k,
                   conduction(links_WK[at], rises_WK2[at], inner_K, y_[first_node + k]),
                   chain);
    }
  }

  OVENDAYS_INLINE void chains() {
    insulation(kNodeWall1, m_.wall_WK, d_.wall_rise_WK2, kWallAnchor, &Jacobian<R>::wall);
    insulation(kNodeFloor1, m_.floor_WK, d_.floor_rise_WK2, kFloorAnchor, &Jacobian<R>::floor);
    if (m_.shells) shells();
    if (m_.panes >= 2) couple(kCorePane, kCorePane1, gap(0, y_[kNodePane], y_[kNodePane1]));
    if (m_.panes >= 3)
      couple_chain(
          kPaneAnchor, kNodePane2, 0, gap(1, y_[kNodePane1], y_[kNodePane2]), &Jacobian<R>::pane);
  }

  /// The shells of a solid. A moist one is at most at the boiling point below its crust: what a
  /// hotter crust conducts inwards beyond that comes back to it as steam.
  OVENDAYS_INLINE void shells() {
#pragma GCC unroll 32
    for (int k = 0; k < 4; ++k) {
      const R outer_K = y_[k == 0 ? kNodeFood : kNodeShell1 + k - 1];
      const R link_WK = broadcast<R>(m_.shell_WK[static_cast<std::size_t>(k)]);
      Coupling<R> link{link_WK, outer_K - y_[kNodeShell1 + k], link_WK, link_WK};
      if (k == 0 && m_.moist) {
        const R boiling_K = broadcast<R>(m_.boiling_K);
        link.drive = min_of(outer_K, boiling_K) - y_[kNodeShell1];
        link.first = select(outer_K < boiling_K, link_WK, broadcast<R>(0.0));
      }
      couple_chain(kShellAnchor, kNodeShell1, k, link, &Jacobian<R>::shell);
    }
  }

  OVENDAYS_INLINE Coupling<R> gap(int which, R lower_K, R upper_K) const {
    const auto i = static_cast<std::size_t>(which);
    const Gap<Scalar> gap{m_.gap_m[i], m_.gap_ir_m2[i], m_.pane_area_m2, m_.pressure_root};
    return across<R>(gap, constants_.tilt_cosine, constants_.tilt_sine_power, lower_K, upper_K);
  }

  /// Adds a heat flow from a node to the outside.
  OVENDAYS_INLINE void lose(int node, R power, R slope) {
    p_.into_W[node] -= power;
    p_.out_W += power;
    if constexpr (kWithJacobian) {
      p_.out_slope_WK[node] += slope;
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

  /// An outer surface: factor of free convection (0: wind alone counts), mean T^4 of what it
  /// radiates to, and the wind at it over the wind at the oven.
  struct Outer {
    int node;
    const typename Derived::Outer& by;
    R free, env_K4, wind_factor;
  };
  OVENDAYS_INLINE Outer outer_pane() const {
    return {m_.outer_node,
            d_.pane,
            m_.pane_free * constants_.tilt_free,
            now_.pane_env_K4,
            constants_.pane_wind_factor};
  }
  OVENDAYS_INLINE Outer wall_skin() const {
    return {kNodeWallSkin, d_.wall, broadcast<R>(0.0), now_.skin_env_K4, broadcast<R>(1.0)};
  }
  OVENDAYS_INLINE Outer floor_skin() const {
    return {kNodeFloorSkin,
            d_.floor,
            broadcast<R>(0.0),
            fourth_power(now_.ambient_K),
            broadcast<R>(1.0)};
  }

  /// Heat flow from an outer surface to the air by wind or by free convection, whichever is larger
  /// (McAdams 1954, Duffie and Beckman sec. 3.15).
  struct ToAir {
    Coupling<R> flow;
    R by_wind_Wsm;  ///< d power / d wind at the oven [W s/m]
  };
  OVENDAYS_INLINE ToAir to_air(const Outer& o) const {
    const R difference_K = y_[o.node] - now_.ambient_K;
    const R by_wind_JKm = o.by.by_wind_JKm * o.wind_factor;
    const R wind_WK = add_product(broadcast<R>(o.by.still_WK), by_wind_JKm, now_.wind_ms);
    ToAir air{{wind_WK, difference_K, wind_WK, wind_WK}, by_wind_JKm * difference_K};
    if (o.node == kNodeWallSkin || o.node == kNodeFloorSkin) return air;
    const Coupling<R> free = convection(o.free, Scalar{0}, y_[o.node], now_.ambient_K);
    const auto calm = free.power() > absolute(air.flow.power());
    air.flow = {select(calm, free.strength, wind_WK),
                difference_K,
                select(calm, free.first, wind_WK),
                select(calm, free.second, wind_WK)};
    air.by_wind_Wsm = select(calm, broadcast<R>(0.0), air.by_wind_Wsm);
    return air;
  }

  /// @param air out: kept for drift()
  OVENDAYS_INLINE void lose_from(const Outer& o, ToAir& air) {
    const R t = y_[o.node];
    const R cubed = t * t * t;
    air = to_air(o);
    const R above_K4 = add_product(-o.env_K4, cubed, t);
    lose(o.node,
         add_product(air.flow.power(), o.by.ir_WK4, above_K4),
         add_product(air.flow.first, o.by.ir_slope_WK4, cubed));
  }

  OVENDAYS_INLINE void outside() {
    lose_from(outer_pane(), from_pane_);
    lose_from(wall_skin(), from_wall_);
    lose_from(floor_skin(), from_floor_);
    if (!d_.films) return;
#pragma GCC unroll 32
    for (int r = 0; r < HeatModel::kRadiators; ++r) {
      const Scalar area_m2 = m_.film_outside_m2[static_cast<std::size_t>(r)];
      if (area_m2 <= 0.0) continue;
      const int node = kCoreNode[r + 1];
      const R cubed = y_[node] * y_[node] * y_[node];
      lose(node,
           scalar<R>(kSigma) * area_m2 * (cubed * y_[node] - now_.pane_env_K4),
           scalar<R>(4.0 * kSigma) * area_m2 * cubed);
    }
  }

  /// Volume flow of air through the leaks, and its derivatives. Air enters through half of the area
  /// and leaves through the other half: orifice flow (C_d 0.6) under half of the stack pressure and
  /// a wind pressure of 0.3 of the dynamic head (ASHRAE Fundamentals, infiltration, from memory).
  /// The kink at equal temperatures is smoothed over 1 K, because the integrator needs derivatives.
  OVENDAYS_INLINE void leak() {
    const R difference_K = y_[kNodeAir] - now_.ambient_K;
    const R per_mean = 2.0 / (y_[kNodeAir] + now_.ambient_K);
    const R softened_K = square_root(add_product(broadcast<R>(1.0), difference_K, difference_K));
    const R lift = d_.lift_m2s2 * per_mean;
    const R by_wind =
        add_product(broadcast<R>(scalar<R>(1e-4)), scalar<R>(0.3) * now_.wind_ms, now_.wind_ms);
    const R head = add_product(by_wind, lift, softened_K);
    const R flow = d_.leak_m2 * square_root(head);
    const R per_head = 0.5 * flow / head;
    const R by_mean = -0.5 * softened_K * per_mean;
    const R share = difference_K / softened_K;
    leak_ = {flow,
             per_head * lift * (share + by_mean),
             per_head * lift * (by_mean - share),
             per_head * scalar<R>(0.6) * now_.wind_ms};
  }

  /// Heat capacity of a cubic metre of outside air [J/m3K].
  OVENDAYS_INLINE R air_heat() const { return d_.air_heat_Jm3 / now_.ambient_K; }

  OVENDAYS_INLINE void leak_heat() {
    const R heat = air_heat();
    const R conductance_WK =
        add_product(m_.rim_WK + m_.lid_open_WK * constants_.lid, heat, leak_.flow_m3s);
    const R difference_K = y_[kNodeAir] - now_.ambient_K;
    lose(kNodeAir,
         conductance_WK * difference_K,
         add_product(conductance_WK, heat * leak_.by_air_m3sK, difference_K));
  }

  /// Steam comes from the food by evaporation and boiling, and leaves with the leaking air or
  /// condenses on the pane. The oven holds so little vapour that its pressure is taken as
  /// quasi-steady: what enters leaves at once. The balance is linear in the pressure on either side
  /// of the dew point.
  struct Steam {
    R wetness, wetness_slope;  ///< share of the surface that is wet, and its derivative [1/%]
    R evaporation, carry, dew, total;  ///< mass flow over pressure [kg/sPa]
    R vapour_Pa;
    Fitted<R> food, pane;
    R boil_kgs, boil_slope_WK;
    R per_air;  ///< 1 / (R_v T_air)
  };
  OVENDAYS_INLINE Steam steam_balance() const {
    Steam s;
    const R zero = broadcast<R>(0.0);
    const R left = max_of(y_[kNodeWater], zero) * scalar<R>(1.0 / kFallingRate_percent);
    s.wetness = min_of(left, broadcast<R>(1.0));
    s.wetness_slope = select(
        left < broadcast<R>(1.0),
        select(y_[kNodeWater] > zero, broadcast<R>(scalar<R>(1.0 / kFallingRate_percent)), zero),
        zero);
    s.evaporation = m_.vapour_food_kgsPa * s.wetness;
    const R over_K = y_[kNodeFood] - m_.boiling_K;
    const R strength = m_.boil_WK * s.wetness;
    s.boil_slope_WK = select(over_K >= zero, strength, zero);
    s.boil_kgs = s.boil_slope_WK * over_K * d_.per_latent_kgJ;
    s.food = saturation_fit(y_[kNodeFood]);
    s.pane = saturation_fit(y_[kNodePane]);
    s.per_air = 1.0 / (scalar<R>(kVapourGas_JkgK) * y_[kNodeAir]);
    s.carry = add_product(
        add_product(broadcast<R>(scalar<R>(1e-12)), m_.vapour_pane_kgsPa, constants_.lid),
        leak_.flow_m3s,
        s.per_air);
    const R dry_total = s.evaporation + s.carry;
    const R supply = add_product(
        add_product(s.boil_kgs, s.carry, constants_.vapour_Pa), s.evaporation, s.food.value);
    const auto falls = supply > s.pane.value * dry_total;
    s.dew = select(falls, broadcast<R>(m_.vapour_pane_kgsPa), zero);
    s.total = dry_total + s.dew;
    s.vapour_Pa = add_product(supply, s.dew, s.pane.value) / s.total;
    return s;
  }

  /// Steam that condenses under a lid cooler than the food and runs back: latent heat goes from the
  /// food to the lid, no water is lost.
  OVENDAYS_INLINE void drip(const Steam& s) {
    const Fitted<R> lid = saturation_fit(y_[kNodeLid]);
    const R over_Pa = s.food.value - lid.value;
    const R none = broadcast<R>(0.0);
    const Scalar latent_WPa = m_.latent_Jkg * m_.vapour_lid_kgsPa;
    const R full = select(over_Pa > none, broadcast<R>(latent_WPa), none);
    const R strength = full * s.wetness;
    couple(kCoreFood, kCoreLid, {strength, over_Pa, strength * s.food.slope, strength * lid.slope});
    if constexpr (kWithJacobian) {
      const R by_water = full * s.wetness_slope * over_Pa;
      j_->core[kCoreFood][kCoreWater] -= by_water;
      j_->core[kCoreLid][kCoreWater] += by_water;
    }
  }

  OVENDAYS_INLINE void steam(const Steam& s) {
    const Scalar latent = m_.latent_Jkg;
    const Scalar percent_per_kg = d_.percent_per_kg;
    const R pressure_drop = s.food.value - s.vapour_Pa;
    const R steam_kgs = add_product(s.boil_kgs, s.evaporation, pressure_drop);
    p_.into_W[kNodeFood] = subtract_product(p_.into_W[kNodeFood], latent, steam_kgs);
    p_.into_W[kNodeWater] = subtract_product(p_.into_W[kNodeWater], percent_per_kg, steam_kgs);
    p_.into_W[kNodePane] =
        add_product(p_.into_W[kNodePane], latent * s.dew, s.vapour_Pa - s.pane.value);
    const R over_outside = s.vapour_Pa - constants_.vapour_Pa;
    p_.latent_W = latent * s.carry * over_outside;
    p_.out_W += p_.latent_W;
    if constexpr (kWithJacobian) steam_slopes(s, pressure_drop, over_outside);
  }

  /// Derivatives of the steam flow by the temperatures of food, pane and air and by the water left.
  OVENDAYS_INLINE void steam_slopes(const Steam& s, R pressure_drop, R over_outside) {
    const Scalar latent = m_.latent_Jkg;
    const Scalar percent_per_kg = d_.percent_per_kg;
    const R per_total = 1.0 / s.total;
    const R carry_by_air = (leak_.by_air_m3sK - leak_.flow_m3s / y_[kNodeAir]) * s.per_air;
    const R over_K = max_of(y_[kNodeFood] - m_.boiling_K, broadcast<R>(0.0));
    const R per_wet_kgs = m_.vapour_food_kgsPa * pressure_drop + d_.boil_kgsK * over_K;
    const R wet_slope = s.wetness_slope * per_wet_kgs;
    const R vapour_by[4] = {
        (s.evaporation * s.food.slope + s.boil_slope_WK * d_.per_latent_kgJ) * per_total,
        s.dew * s.pane.slope * per_total,
        -over_outside * per_total * carry_by_air,
        wet_slope * per_total};
    p_.out_slope_WK[kNodeFood] += latent * s.carry * vapour_by[0];
    p_.out_slope_WK[kNodePane] += latent * s.carry * vapour_by[1];
    p_.out_slope_WK[kNodeAir] += latent * (s.carry * vapour_by[2] + carry_by_air * over_outside);
    p_.out_slope_WK[kNodeWater] += latent * s.carry * vapour_by[3];
    const R steam_by[4] = {
        s.evaporation * (s.food.slope - vapour_by[0]) + s.boil_slope_WK * d_.per_latent_kgJ,
        -s.evaporation * vapour_by[1],
        -s.evaporation * vapour_by[2],
        wet_slope - s.evaporation * vapour_by[3]};
    constexpr int kColumn[4] = {kCoreFood, kCorePane, kCoreAir, kCoreWater};
#pragma GCC unroll 32
    for (int i = 0; i < 4; ++i) {
      j_->core[kCoreFood][kColumn[i]] -= latent * steam_by[i];
      j_->core[kCoreWater][kColumn[i]] -= percent_per_kg * steam_by[i];
      j_->core[kCorePane][kColumn[i]] += latent * s.dew * vapour_by[i];
    }
    j_->core[kCorePane][kCorePane] -= latent * s.dew * s.pane.slope;
  }

  OVENDAYS_INLINE void drift_surface(const Outer& o,
                                     const ToAir& air,
                                     R env_rate,
                                     const BoundaryValues<R>& rate,
                                     R* into_Ws,
                                     R& out_Ws) const {
    const R change =
        air.flow.second * rate.ambient_K - air.by_wind_Wsm * rate.wind_ms + o.by.ir_WK4 * env_rate;
    into_Ws[o.node] += change;
    out_Ws -= change;
  }

  /// Drift of what the leaks carry off, as warm air and as steam.
  OVENDAYS_INLINE void drift_leak(const BoundaryValues<R>& rate, R* into_Ws, R& out_Ws) const {
    const R heat = air_heat();
    const R flow_rate = leak_.by_ambient_m3sK * rate.ambient_K + leak_.by_wind_m2 * rate.wind_ms;
    const R conductance_WK = m_.rim_WK + heat * leak_.flow_m3s + constants_.lid * m_.lid_open_WK;
    const R conductance_rate =
        heat * (flow_rate - leak_.flow_m3s * rate.ambient_K / now_.ambient_K);
    const R change =
        conductance_WK * rate.ambient_K - conductance_rate * (y_[kNodeAir] - now_.ambient_K);
    into_Ws[kNodeAir] += change;
    out_Ws -= change;
    if (!m_.drying()) return;
    const Steam& s = steam_;
    const R over_outside = s.vapour_Pa - constants_.vapour_Pa;
    const R carry_rate = flow_rate * s.per_air;
    const R vapour_rate = -over_outside / s.total * carry_rate;
    into_Ws[kNodeFood] += m_.latent_Jkg * s.evaporation * vapour_rate;
    into_Ws[kNodeWater] += d_.percent_per_kg * s.evaporation * vapour_rate;
    into_Ws[kNodePane] += m_.latent_Jkg * s.dew * vapour_rate;
    out_Ws += m_.latent_Jkg * (carry_rate * over_outside + s.carry * vapour_rate);
  }

  const Model& m_;
  const Derived& d_;
  const BoundaryValues<R>& now_;
  const SegmentConstants<R>& constants_;
  const R* y_;
  Powers<R>& p_;
  Jacobian<R>* j_;
  LeakFlow leak_{};
  Steam steam_{};
  ToAir from_pane_{}, from_wall_{}, from_floor_{};
};
}  // namespace ovendays::heat::OVENDAYS_ISA
