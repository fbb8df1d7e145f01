// SPDX-License-Identifier: MIT
// One step of every lane of a pack, each of its own length: the stages of RODAS3, the error
// estimate, and whether the step is accepted. All lanes are computed at once; batch_integrator.h
// reads and writes the members lane by lane. Clocks and energy sums are in double precision in both
// kinds of packs. Private to heat; see pack.h on OVENDAYS_ISA.
#pragma once

#include "frozen_food.h"
#include "instruction_sets.h"
#include "pack_forcing.h"
#include "step_control.h"
#include "step_matrix.h"

namespace ovendays::heat::OVENDAYS_ISA {

/// What the lanes of a pack hold between steps.
template <class Pack>
struct PackState {
  static constexpr int kWidth = PackTraits<Pack>::kCount;
  // Members with the strictest alignment first, so that no padding is needed.
  alignas(kPackBytes) double time_s[kWidth], origin_s[kWidth], cut_s[kWidth];
  alignas(kPackBytes) double begun_s[kWidth], quiet_until_s[kWidth], transient_end_s[kWidth];
  alignas(kPackBytes) double in_J[kWidth], out_J[kWidth], latent_J[kWidth];
  Pack busy, watched;     ///< 1 or 0: has a run; has a watcher
  Pack steps;             ///< number of steps accepted
  Pack accepted, notify;  ///< 1 or 0: was the last step accepted; must its watcher see it
  /// Bit masks of the lanes whose watcher must see the last step, and of those that need attention
  /// because the step was rejected or ends at a cut.
  std::uint32_t notify_lanes = 0, event_lanes = 0;
  Pack step_s, error;  ///< length of the next step; error in multiples of the allowed one
  Pack quiet_core[2], quiet_food[2], quiet_air[2], passed_peak_K;
  StepControl<Pack> control;
  PackForcing<Pack> forcing;
  Pack y[kNodes], y1[kNodes], rise0[kNodes], rise1[kNodes];
};

template <class Pack>
class PackStep {
  using Scalar = ScalarOf<Pack>;
  using Model = ModelOf<Pack>;

 public:
  using State = PackState<Pack>;

  PackStep(const HeatModel& model, const Model& numbers, const IntegratorOptions& options)
      : m_(numbers),
        derived_(numbers),
        core_node_(model.core_node()),
        longest_step_s_(static_cast<Scalar>(options.longest_step_s)),
        matrix_(numbers) {
    for (int n = 0; n < kNodes; ++n) {
      heat_JK_[n] = numbers.capacity_JK[static_cast<std::size_t>(n)];
      per_heat_[n] = 1 / heat_JK_[n];
      const double weight = !model.present[static_cast<std::size_t>(n)] ? 0.0
                            : n == kNodeAir                             ? options.air_weight
                            : thin(n)                                   ? options.thin_weight
                            : n == kNodeLid                             ? kLidWeight
                                                                        : 1.0;
      const bool food = n == kNodeFood || (n >= kNodeShell1 && n <= kNodeShell4);
      error_weight_[n] = static_cast<Scalar>(weight / options.tolerance_K);
      bend_weight_[n] = static_cast<Scalar>(weight * (food ? 1.0 : 0.1) / options.bend_K);
    }
  }

  /// Tries one step in every lane and accepts it where its error is small enough. `y` stays at the
  /// start of the step until advance(), so that watchers can see both ends.
  void try_step(State& p) {
    evaluate_start(p);
    choose_step_lengths(p);
    evaluate_stages(p);
    accept(p);
  }

  /// Moves `y` to the end of the step where it was accepted.
  static void advance(State& p) {
    const auto which = p.accepted > broadcast<Pack>(0.0);
    for (int n = 0; n < kNodes; ++n) p.y[n] = select(which, p.y1[n], p.y[n]);
  }

 private:
  /// Powers, Jacobian and drift at the start of every lane's step.
  void evaluate_start(const State& p) {
    const BoundaryValues<Pack> now = p.forcing.at(elapsed(p.origin_s, p.time_s));
    sun_W_ = now.sun_W();
    if (!(m_.thaw_span_K > 0)) return evaluate_at(p, now, p.y);
    const FoodStates<Pack> food(m_, p.y);
    evaluate_at(p, now, food.at_K);
    food.scale(jacobian_, start_);
  }
  /// Not inlined, because it is called from two places.
  [[gnu::noinline]] void evaluate_at(const State& p,
                                     const BoundaryValues<Pack>& now,
                                     const Pack* at_K) {
    Network<Pack, true> network(m_, derived_, now, p.forcing.constants, at_K, start_, &jacobian_);
    network.evaluate();
    network.drift(p.forcing.rate, drift_Ws_, out_drift_Ws_);
  }

  void choose_step_lengths(const State& p) {
    left_s_ = elapsed(p.time_s, p.cut_s);
    quiet_left_s_ = elapsed(p.time_s, p.quiet_until_s);
    transient_left_s_ = elapsed(p.time_s, p.transient_end_s);
    thin_weight_ = select(transient_left_s_ > broadcast<Pack>(0.0),
                          broadcast<Pack>(scalar<Pack>(kTransientWeight)),
                          broadcast<Pack>(1.0));
    const Pack wanted_s = min_of(p.step_s, broadcast<Pack>(longest_step_s_));
    h_s_ = StepControl<Pack>::first_of(wanted_s, left_s_);
    if (m_.drying()) {
      // Aim just past the boiling point at the present slope, so that a step ends at the onset.
      const Pack below_K = m_.boiling_K - p.y[kNodeFood];
      const Pack slope = start_.into_W[kNodeFood] * per_heat_[kNodeFood];
      const Pack rise_K = slope * h_s_;
      const Pack until_s = (below_K + scalar<Pack>(1e-3)) / slope;
      const Pack capped_s = min_of(h_s_, max_of(until_s, broadcast<Pack>(1.0)));
      h_s_ = select(below_K > 0.0, select(rise_K > below_K, capped_s, h_s_), h_s_);
      // Food that is short of water dries in steps of a quarter of what is left: its steam, and the
      // dew on the pane, end abruptly.
      const Pack water = p.y[kNodeWater];
      const Pack quarter = scalar<Pack>(0.25) * water;
      const Pack boiled = -start_.into_W[kNodeWater] * h_s_;
      const Pack dry_s = max_of(h_s_ * quarter / boiled, broadcast<Pack>(1.0));
      const Pack shorter_s = select(boiled > quarter, min_of(h_s_, dry_s), h_s_);
      const Pack short_below = broadcast<Pack>(scalar<Pack>(kFallingRate_percent));
      h_s_ = select(water < short_below,
                    select(water > scalar<Pack>(0.1) + 0.0 * water, shorter_s, h_s_),
                    h_s_);
    }
  }

  /// The stages of RODAS3 (see integrator.h for the source): gamma = 1/2, stages 1 and 2 at the
  /// start, 3 and 4 at the end of the step, y1 = y + 2 k1 + k3 + k4, error estimate k4. The energy
  /// that leaves is integrated with the same stages, as if it were one more node, so that the audit
  /// closes.
  void evaluate_stages(State& p) {
    const Pack per_step = 1.0 / h_s_;
    const Pack half_step = 0.5 * h_s_;
    const Pack third_stage = scalar<Pack>(8.0 / 3.0) * per_step;
    matrix_.factor(jacobian_, 2.0 * per_step, food_dries(p));
    const BoundaryValues<Pack> end = p.forcing.at(elapsed(p.origin_s, p.time_s) + h_s_);
    auto& [k1, k2, k3, k4, drop, at_K] = stages_;
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) k1[n] = power_with_drift(n, start_.into_W[n], half_step);
    matrix_.solve(k1);
    const Pack drift1 = half_step * out_drift_Ws_;
    const Pack out1 = half_step * out_slope(start_.out_W + drift1, k1);
    const Pack four_per_step = 4.0 * per_step;
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n)
      k2[n] = add_product(power_with_drift(n, start_.into_W[n], 3.0 * half_step),
                          heat_JK_[n] * four_per_step,
                          k1[n]);
    matrix_.solve(k2);
    const Pack drift2 = add_product(3.0 * drift1, four_per_step, out1);
    const Pack out2 = half_step * out_slope(start_.out_W + drift2, k2);
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) at_K[n] = add_product(p.y[n], Scalar{2}, k1[n]);
    stage_powers(p, end, at_K, third_);
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) {
      drop[n] = k1[n] - k2[n];
      k3[n] = add_product(third_.into_W[n], heat_JK_[n] * per_step, drop[n]);
    }
    matrix_.solve(k3);
    const Pack fallen = per_step * (out1 - out2);
    const Pack out3 = half_step * out_slope(third_.out_W + fallen, k3);
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) at_K[n] += k3[n];
    stage_powers(p, end, at_K, fourth_);
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) {
      drop[n] = subtract_product(drop[n], scalar<Pack>(8.0 / 3.0), k3[n]);
      k4[n] = add_product(fourth_.into_W[n], heat_JK_[n] * per_step, drop[n]);
    }
    matrix_.solve(k4);
    const Pack out4 =
        half_step * out_slope(subtract_product(fourth_.out_W + fallen, third_stage, out3), k4);
    out_J_ = 2.0 * out1 + out3 + out4;
    estimate_error(p);
  }

  /// Sets the state and the slopes at the end of the step, and estimates the error.
  OVENDAYS_INLINE void estimate_error(State& p) {
    const auto& [k1, k2, k3, k4, drop, at_K] = stages_;
    Pack worst = broadcast<Pack>(0.0);
    Pack poison = broadcast<Pack>(0.0);  // 0 x poison is 0 unless some node is infinite or NaN
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) {
      p.y1[n] = at_K[n] + k4[n];
      poison += p.y1[n];
      p.rise0[n] = start_.into_W[n] * (per_heat_[n] * h_s_);
      p.rise1[n] = add_product(-drop[n], Scalar{2}, k4[n]);
      // How far the cubic through both ends is from a parabola. An L-stable step may jump over a
      // fast decay and have a small error estimate; the decay shows here.
      const Pack bend = subtract_product(p.rise0[n] + p.rise1[n], Scalar{2}, p.y1[n] - p.y[n]);
      Pack off_K = absolute(k4[n]);
      if (n == kNodeFood && m_.drying()) off_K = max_of(off_K, overboil_K(p, k4[n]));
      const Pack off = error_weight_[n] * off_K;
      const Pack worse =
          max_of(thin(n) ? thin_weight_ * off : off, bend_weight_[n] * absolute(bend));
      worst = max_of(worse, worst);
    }
    p.error = worst + 0.0 * poison;
  }

  /// Accepts the step where its error allows it, chooses the length of the next, and moves the
  /// clocks.
  void accept(State& p) {
    const Pack none = broadcast<Pack>(0.0), one = broadcast<Pack>(1.0);
    p.accepted = select(p.error <= broadcast<Pack>(scalar<Pack>(kAcceptedError)), p.busy, none);
    const Pack factor =
        p.control.growth({h_s_, p.error, p.accepted, transient_left_s_ + scalar<Pack>(kDiesOut_s)});
    const Pack at_cut = select(h_s_ >= left_s_, one, none);
    const Pack grown_s = h_s_ * factor;
    const Pack shrunk_s =
        select(p.error < broadcast<Pack>(scalar<Pack>(kHuge)), grown_s, scalar<Pack>(0.2) * h_s_);
    Pack next_s = select(at_cut > none, max_of(p.step_s, grown_s), grown_s);
    if (m_.drying()) {
      const Pack boils = broadcast<Pack>(m_.boiling_K);
      const Pack onset =
          select(p.y[kNodeFood] < boils, select(p.y1[kNodeFood] >= boils, one, none), none);
      next_s = select(onset > none, broadcast<Pack>(static_cast<Scalar>(kOnsetStep_s)), next_s);
    }
    p.step_s = select(p.accepted > none, next_s, select(p.busy > none, shrunk_s, one));
    mark_notifications(p);
    add_audit(p);
    for (int l = 0; l < State::kWidth; ++l) {
      p.begun_s[l] = p.time_s[l];
      const double end_s = at_cut[l] > 0 ? p.cut_s[l] : p.time_s[l] + h_s_[l];
      p.time_s[l] = p.accepted[l] > 0 ? end_s : p.time_s[l];
    }
    p.notify_lanes = p.event_lanes = 0;
    for (int l = 0; l < State::kWidth; ++l) {
      const auto turns = static_cast<unsigned>(p.accepted[l] <= 0) |
                         static_cast<unsigned>(p.time_s[l] >= p.cut_s[l]);
      p.notify_lanes |= static_cast<unsigned>(p.notify[l] > 0) << l;
      p.event_lanes |= (turns & static_cast<unsigned>(p.busy[l] > 0)) << l;
    }
  }

  static constexpr bool thin(int n) { return n >= kNodeLiner && n <= kNodeVessel; }

  /// Difference of two clocks in every lane, in the precision of the packs.
  OVENDAYS_INLINE static Pack elapsed(const double* from_s, const double* to_s) {
    Pack apart_s{};
    for (int l = 0; l < State::kWidth; ++l) apart_s[l] = static_cast<Scalar>(to_s[l] - from_s[l]);
    return apart_s;
  }

  OVENDAYS_INLINE void stage_powers(const State& p,
                                    const BoundaryValues<Pack>& now,
                                    const Pack* at_K,
                                    Powers<Pack>& powers) const {
    if (m_.thaw_span_K > 0) {
      const FoodStates<Pack> food(m_, at_K);
      return temperature_powers(p, now, food.at_K, powers);
    }
    temperature_powers(p, now, at_K, powers);
  }
  /// Not inlined, for the same reason as StepMatrix::solve.
  [[gnu::noinline]] void temperature_powers(const State& p,
                                            const BoundaryValues<Pack>& now,
                                            const Pack* at_K,
                                            Powers<Pack>& powers) const {
    Network<Pack, false>(m_, derived_, now, p.forcing.constants, at_K, powers, nullptr).evaluate();
  }

  /// Bound of the food's error in a step that begins at the boil and ends below it. The step uses
  /// the steep slope of boiling throughout, and so may condense steam that never left. k4 is
  /// divided by that slope and does not show it.
  OVENDAYS_INLINE Pack overboil_K(const State& p, Pack k4) const {
    const Pack none = broadcast<Pack>(0.0);
    const Pack over_K = p.y1[kNodeFood] - m_.boiling_K;
    const Pack stage_over_K = over_K - k4;
    const Pack unboiled_W =
        add_product(fourth_.into_W[kNodeFood], m_.boil_WK, max_of(stage_over_K, none));
    const Pack missed_K = subtract_product(over_K, unboiled_W, per_heat_[kNodeFood] * h_s_);
    const Pack leaves = select(min_of(over_K, stage_over_K) < none, missed_K, none);
    return select(p.y[kNodeFood] >= broadcast<Pack>(m_.boiling_K), leaves, none);
  }

  /// Does some lane's food fall short of water, so that it dries more slowly?
  OVENDAYS_INLINE bool food_dries(const State& p) const {
    if (!m_.drying()) return false;
    const Pack low = select(p.y[kNodeWater] < broadcast<Pack>(scalar<Pack>(kFallingRate_percent)),
                            broadcast<Pack>(1.0),
                            broadcast<Pack>(0.0));
    return any_nonzero(low);
  }

  /// Adds to the outflow of a stage what the stage's temperatures change of it.
  OVENDAYS_INLINE Pack out_slope(Pack sum, const Pack* k) const {
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) {
      if (inside_solid(n) || behind_panes(n)) continue;
      sum = add_product(sum, start_.out_slope_WK[n], k[n]);
    }
    if (!derived_.films) return sum;
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) {
      if (behind_panes(n)) sum = add_product(sum, start_.out_slope_WK[n], k[n]);
    }
    return sum;
  }

  /// A node's power, and what the drift of the boundary values adds to it.
  OVENDAYS_INLINE Pack power_with_drift(int n, Pack power, Pack after_s) const {
    return inside_solid(n) ? power : add_product(power, after_s, drift_Ws_[n]);
  }

  /// Marks the lanes whose watcher must see this step; for the others it keeps the core's peak.
  OVENDAYS_INLINE void mark_notifications(State& p) const {
    const Pack none = broadcast<Pack>(0.0);
    Pack seen = select(h_s_ >= quiet_left_s_, p.accepted, none);
    const auto band = [&](const Pack& level, const Pack& low, const Pack& high) {
      seen = select(level > low, select(high > level, seen, p.accepted), p.accepted);
    };
    // Half-way too, because a short swing may begin and end within a band and leave it in between.
    const auto middle = [&p](int node) {
      return 0.5 * (p.y[node] + p.y1[node]) + 0.125 * (p.rise0[node] - p.rise1[node]);
    };
    const int core_node = core_node_;
    const Pack core = p.y1[core_node];
    band(core, p.quiet_core[0], p.quiet_core[1]);
    band(middle(core_node), p.quiet_core[0], p.quiet_core[1]);
    band(p.y1[kNodeFood], p.quiet_food[0], p.quiet_food[1]);
    band(p.y1[kNodeAir], p.quiet_air[0], p.quiet_air[1]);
    band(middle(kNodeAir), p.quiet_air[0], p.quiet_air[1]);
    p.notify = seen * p.watched;
    const Pack passed = select(p.notify > none, p.passed_peak_K, max_of(p.passed_peak_K, core));
    p.passed_peak_K = select(p.accepted > none, passed, p.passed_peak_K);
  }

  OVENDAYS_INLINE void add_audit(State& p) const {
    const Pack none = broadcast<Pack>(0.0);
    const auto which = p.accepted > none;
    const Pack sun_rate_Ws = p.forcing.rate.sun_W();
    const Pack came_J = select(which, h_s_ * (sun_W_ + 0.5 * h_s_ * sun_rate_Ws), none);
    const Pack left_J = select(which, out_J_, none);
    const Pack steam_J = select(which, 0.5 * h_s_ * (start_.latent_W + fourth_.latent_W), none);
    for (int l = 0; l < State::kWidth; ++l) p.in_J[l] += came_J[l];
    for (int l = 0; l < State::kWidth; ++l) p.out_J[l] += left_J[l];
    for (int l = 0; l < State::kWidth; ++l) p.latent_J[l] += steam_J[l];
    p.steps += p.accepted;
  }

  const Model& m_;
  const DerivedNumbers<Scalar> derived_;
  int core_node_;
  Scalar longest_step_s_;
  Scalar heat_JK_[kNodes], per_heat_[kNodes];
  Scalar error_weight_[kNodes], bend_weight_[kNodes];  ///< [1/K]
  Pack h_s_, left_s_, quiet_left_s_, transient_left_s_, thin_weight_;
  Pack sun_W_;  ///< at the start
  Pack out_J_;  ///< of the step tried
  Pack drift_Ws_[kNodes], out_drift_Ws_;
  Powers<Pack> start_, third_, fourth_;
  struct {
    Pack k1[kNodes], k2[kNodes], k3[kNodes], k4[kNodes], drop[kNodes], at_K[kNodes];
  } stages_;
  Jacobian<Pack> jacobian_;
  StepMatrix<Pack> matrix_;
};
}  // namespace ovendays::heat::OVENDAYS_ISA
