// SPDX-License-Identifier: MIT
// One step of every lane of a pack, each of its own length: its start, its stages, its error, what
// is taken of it. Arithmetic for all lanes at once; whose runs the lanes are the engine knows,
// which sets and reads the members lane by lane. Clocks and energy sums are double in packs of
// singles too. Private to heat; see pack.h on OVENDAYS_ISA.
#pragma once

#include "lane_forcing.h"
#include "lanes.h"
#include "solver.h"
#include "step_control.h"

namespace ovendays::heat::OVENDAYS_ISA {

/// What the lanes of a pack hold between steps; the engine sets and reads it lane by lane.
template <class Pack>
struct PackState {
  static constexpr int kWidth = Lanes<Pack>::kCount;
  // The widest first, so that they lie close.
  alignas(kPackBytes) double time_s[kWidth], origin_s[kWidth], cut_s[kWidth];
  alignas(kPackBytes) double begun_s[kWidth], quiet_until_s[kWidth], settled_s[kWidth];
  alignas(kPackBytes) double in_J[kWidth], out_J[kWidth], latent_J[kWidth];
  Pack busy, watched, steps;  ///< 1 or 0; steps taken
  Pack taken, shown;          ///< 1 or 0: the last step, and to its watcher
  /// A bit for each: where a watcher is to see the last step; where it was not taken or ends at a
  /// cut.
  std::uint32_t shown_lanes = 0, turning_lanes = 0;
  Pack step_s, error;  ///< the next step's length; in multiples of what is allowed
  Pack quiet_core[2], quiet_food[2], quiet_air[2], passed_peak_K;
  StepControl<Pack> control;
  LaneForcing<Pack> forcing;
  Pack y[kNodes], y1[kNodes], rise0[kNodes], rise1[kNodes];
};

template <class Pack>
class PackStep {
  using Plain = PlainOf<Pack>;
  using Model = ModelOf<Pack>;

 public:
  using State = PackState<Pack>;

  PackStep(const HeatModel& model, const Model& numbers, const IntegratorOptions& options)
      : m_(numbers),
        worked_(numbers),
        core_node_(model.core_node()),
        longest_step_s_(static_cast<Plain>(options.longest_step_s)),
        matrix_(numbers) {
    for (int n = 0; n < kNodes; ++n) {
      heat_JK_[n] = numbers.capacity_JK[static_cast<std::size_t>(n)];
      per_heat_[n] = 1 / heat_JK_[n];
      const double weight = !model.present[static_cast<std::size_t>(n)] ? 0.0
                            : n == kNodeAir                             ? options.air_weight
                            : thin(n)                                   ? options.thin_weight
                                                                        : 1.0;
      const bool food = n == kNodeFood || (n >= kNodeShell1 && n <= kNodeShell4);
      error_weight_[n] = static_cast<Plain>(weight / options.tolerance_K);
      bend_weight_[n] = static_cast<Plain>(weight * (food ? 1.0 : 0.1) / options.bend_K);
    }
  }

  /// Tries one step in every lane and takes it where its error allows. The state stays at the
  /// step's start until settle().
  void make(State& p) {
    start_corner(p);
    choose_lengths(p);
    attempt(p);
    take(p);
  }

  /// The end of the step taken is the start of the next.
  static void settle(State& p) {
    const auto which = p.taken > all<Pack>(0.0);
    for (int n = 0; n < kNodes; ++n) p.y[n] = select(which, p.y1[n], p.y[n]);
  }

 private:
  /// Powers, Jacobian and drift at the start of every lane's step.
  void start_corner(const State& p) {
    const Instant<Pack> now = p.forcing.at(between(p.origin_s, p.time_s));
    Network<Pack, true> network(m_, worked_, now, p.forcing.stretch, p.y, start_, &jacobian_);
    network.evaluate();
    sun_W_ = now.sun_W();
    network.drift(p.forcing.rate, drift_Ws_, out_drift_Ws_);
  }

  void choose_lengths(const State& p) {
    left_s_ = between(p.time_s, p.cut_s);
    quiet_left_s_ = between(p.time_s, p.quiet_until_s);
    unsettled_s_ = between(p.time_s, p.settled_s);
    thin_weight_ = select(
        unsettled_s_ > all<Pack>(0.0), all<Pack>(num<Pack>(kUnsettledWeight)), all<Pack>(1.0));
    const Pack wanted_s = lesser_of(p.step_s, all<Pack>(longest_step_s_));
    h_s_ = StepControl<Pack>::first_of(wanted_s, left_s_);
    if (m_.drying()) {
      // To just past the boiling point at the present slope, so that a step ends there.
      const Pack below_K = m_.boiling_K - p.y[kNodeFood];
      const Pack slope = start_.into_W[kNodeFood] * per_heat_[kNodeFood];
      const Pack rise_K = slope * h_s_;
      const Pack until_s = (below_K + num<Pack>(1e-3)) / slope;
      const Pack capped_s = lesser_of(h_s_, greater_of(until_s, all<Pack>(1.0)));
      h_s_ = select(below_K > 0.0, select(rise_K > below_K, capped_s, h_s_), h_s_);
      // Food that is short of water dries in steps of a quarter of what is left: its steam, and the
      // dew on the pane, end abruptly.
      const Pack water = p.y[kNodeWater];
      const Pack quarter = num<Pack>(0.25) * water;
      const Pack boiled = -start_.into_W[kNodeWater] * h_s_;
      const Pack dry_s = greater_of(h_s_ * quarter / boiled, all<Pack>(1.0));
      const Pack shorter_s = select(boiled > quarter, lesser_of(h_s_, dry_s), h_s_);
      const Pack short_below = all<Pack>(num<Pack>(kFallingRate_percent));
      h_s_ = select(water < short_below, select(water > num<Pack>(0.1) + 0.0 * water, shorter_s, h_s_), h_s_);
    }
  }

  /// One step of RODAS3 in every lane: gamma = 1/2, stages 1 and 2 at the start, 3 and 4 at the end
  /// of the step, y1 = y + 2 k1 + k3 + k4, error estimate k4. What leaves is carried along as one
  /// more node.
  void attempt(State& p) {
    const Pack per_step = 1.0 / h_s_;
    const Pack half_step = 0.5 * h_s_;
    const Pack third_stage = num<Pack>(8.0 / 3.0) * per_step;
    matrix_.factor(jacobian_, 2.0 * per_step, food_dries(p));
    const Instant<Pack> end = p.forcing.at(between(p.origin_s, p.time_s) + h_s_);
    auto& [k1, k2, k3, k4, drop, at_K] = stages_;
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) k1[n] = drifts(n, start_.into_W[n], half_step);
    matrix_.solve(k1);
    const Pack drift1 = half_step * out_drift_Ws_;
    const Pack out1 = half_step * out_slope(start_.out_W + drift1, k1);
    const Pack four_per_step = 4.0 * per_step;
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n)
      k2[n] = plus_product(
          drifts(n, start_.into_W[n], 3.0 * half_step), heat_JK_[n] * four_per_step, k1[n]);
    matrix_.solve(k2);
    const Pack drift2 = plus_product(3.0 * drift1, four_per_step, out1);
    const Pack out2 = half_step * out_slope(start_.out_W + drift2, k2);
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) at_K[n] = plus_product(p.y[n], Plain{2}, k1[n]);
    stage_powers(p, end, at_K, third_);
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) {
      drop[n] = k1[n] - k2[n];
      k3[n] = plus_product(third_.into_W[n], heat_JK_[n] * per_step, drop[n]);
    }
    matrix_.solve(k3);
    const Pack fallen = per_step * (out1 - out2);
    const Pack out3 = half_step * out_slope(third_.out_W + fallen, k3);
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) at_K[n] += k3[n];
    stage_powers(p, end, at_K, fourth_);
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) {
      drop[n] = minus_product(drop[n], num<Pack>(8.0 / 3.0), k3[n]);
      k4[n] = plus_product(fourth_.into_W[n], heat_JK_[n] * per_step, drop[n]);
    }
    matrix_.solve(k4);
    const Pack out4 =
        half_step * out_slope(minus_product(fourth_.out_W + fallen, third_stage, out3), k4);
    out_J_ = 2.0 * out1 + out3 + out4;
    judge(p);
  }

  /// The end of the step tried, the slopes at both ends, and the error.
  OVENDAYS_INLINE void judge(State& p) {
    const auto& [k1, k2, k3, k4, drop, at_K] = stages_;
    Pack worst = all<Pack>(0.0);
    Pack poison = all<Pack>(0.0);  // stays 0 unless something is infinite or not a number
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) {
      p.y1[n] = at_K[n] + k4[n];
      poison += p.y1[n];
      p.rise0[n] = start_.into_W[n] * (per_heat_[n] * h_s_);
      p.rise1[n] = plus_product(-drop[n], Plain{2}, k4[n]);
      // How far the cubic through both ends is from a parabola: a decay that the step jumps over
      // shows here.
      const Pack bend = minus_product(p.rise0[n] + p.rise1[n], Plain{2}, p.y1[n] - p.y[n]);
      Pack off_K = magnitude(k4[n]);
      if (n == kNodeFood && m_.drying()) off_K = greater_of(off_K, boiled_on_K(p, k4[n]));
      const Pack off = error_weight_[n] * off_K;
      const Pack worse =
          greater_of(thin(n) ? thin_weight_ * off : off, bend_weight_[n] * magnitude(bend));
      worst = greater_of(worse, worst);
    }
    p.error = worst + 0.0 * poison;
  }

  /// Takes the step where its error allows it: says so in `taken`, sets the next steps' lengths and
  /// moves the clocks.
  void take(State& p) {
    const Pack none = all<Pack>(0.0), one = all<Pack>(1.0);
    p.taken = select(p.error <= all<Pack>(num<Pack>(kTaken)), p.busy, none);
    const Pack factor =
        p.control.growth({h_s_, p.error, p.taken, unsettled_s_ + num<Pack>(kDiesOut_s)});
    const Pack at_cut = select(h_s_ >= left_s_, one, none);
    const Pack grown_s = h_s_ * factor;
    const Pack shrunk_s =
        select(p.error < all<Pack>(num<Pack>(kHuge)), grown_s, num<Pack>(0.2) * h_s_);
    Pack next_s = select(at_cut > none, greater_of(p.step_s, grown_s), grown_s);
    if (m_.drying()) {
      const Pack boils = all<Pack>(m_.boiling_K);
      const Pack onset =
          select(p.y[kNodeFood] < boils, select(p.y1[kNodeFood] >= boils, one, none), none);
      next_s = select(onset > none, all<Pack>(static_cast<Plain>(kOnsetStep_s)), next_s);
    }
    p.step_s = select(p.taken > none, next_s, select(p.busy > none, shrunk_s, one));
    show(p);
    add_audit(p);
    for (int l = 0; l < State::kWidth; ++l) {
      p.begun_s[l] = p.time_s[l];
      const double end_s = at_cut[l] > 0 ? p.cut_s[l] : p.time_s[l] + h_s_[l];
      p.time_s[l] = p.taken[l] > 0 ? end_s : p.time_s[l];
    }
    p.shown_lanes = p.turning_lanes = 0;
    for (int l = 0; l < State::kWidth; ++l) {
      const auto turns =
          static_cast<unsigned>(p.taken[l] <= 0) | static_cast<unsigned>(p.time_s[l] >= p.cut_s[l]);
      p.shown_lanes |= static_cast<unsigned>(p.shown[l] > 0) << l;
      p.turning_lanes |= (turns & static_cast<unsigned>(p.busy[l] > 0)) << l;
    }
  }

  static constexpr bool thin(int n) { return n >= kNodeLiner && n <= kNodeVessel; }

  /// Differences of two clocks of every lane, as precise as the packs.
  OVENDAYS_INLINE static Pack between(const double* from_s, const double* to_s) {
    Pack apart_s{};
    for (int l = 0; l < State::kWidth; ++l) apart_s[l] = static_cast<Plain>(to_s[l] - from_s[l]);
    return apart_s;
  }

  /// Not inlined, as StepMatrix::solve: code that is run more than once a step is fetched once.
  [[gnu::noinline]] void stage_powers(const State& p,
                                      const Instant<Pack>& now,
                                      const Pack* at_K,
                                      Powers<Pack>& powers) const {
    Network<Pack, false>(m_, worked_, now, p.forcing.stretch, at_K, powers, nullptr).evaluate();
  }

  /// What the food of a step that leaves the boil is too warm by, at most: it takes the boil's
  /// steep slope all the way, and so condenses steam that never was. Divided by that slope, k4 is
  /// blind to it.
  OVENDAYS_INLINE Pack boiled_on_K(const State& p, Pack k4) const {
    const Pack none = all<Pack>(0.0);
    const Pack over_K = p.y1[kNodeFood] - m_.boiling_K;
    const Pack stage_over_K = over_K - k4;
    const Pack unboiled_W =
        plus_product(fourth_.into_W[kNodeFood], m_.boil_WK, greater_of(stage_over_K, none));
    const Pack missed_K = minus_product(over_K, unboiled_W, per_heat_[kNodeFood] * h_s_);
    const Pack leaves = select(lesser_of(over_K, stage_over_K) < none, missed_K, none);
    return select(p.y[kNodeFood] >= all<Pack>(m_.boiling_K), leaves, none);
  }

  /// Is some lane's food short of water?
  OVENDAYS_INLINE bool food_dries(const State& p) const {
    if (!m_.drying()) return false;
    const Pack low = select(p.y[kNodeWater] < all<Pack>(num<Pack>(kFallingRate_percent)),
                            all<Pack>(1.0),
                            all<Pack>(0.0));
    return any(low);
  }

  /// What flows out at a stage of which the temperatures' share is still to be added.
  OVENDAYS_INLINE Pack out_slope(Pack sum, const Pack* k) const {
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) {
      if (inside_solid(n) || behind_panes(n)) continue;
      sum = plus_product(sum, start_.out_slope_WK[n], k[n]);
    }
    if (!worked_.films) return sum;
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) {
      if (behind_panes(n)) sum = plus_product(sum, start_.out_slope_WK[n], k[n]);
    }
    return sum;
  }

  /// A node's power with what its drift adds.
  OVENDAYS_INLINE Pack drifts(int n, Pack power, Pack after_s) const {
    return inside_solid(n) ? power : plus_product(power, after_s, drift_Ws_[n]);
  }

  /// Whose watcher is to see the step just taken; the others' peak is kept for it.
  OVENDAYS_INLINE void show(State& p) const {
    const Pack none = all<Pack>(0.0);
    Pack seen = select(h_s_ >= quiet_left_s_, p.taken, none);
    const auto band = [&](const Pack& level, const Pack& low, const Pack& high) {
      seen = select(level > low, select(high > level, seen, p.taken), p.taken);
    };
    // Half-way too: a short swing may begin and end within a band and leave it in between.
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
    p.shown = seen * p.watched;
    const Pack passed = select(p.shown > none, p.passed_peak_K, greater_of(p.passed_peak_K, core));
    p.passed_peak_K = select(p.taken > none, passed, p.passed_peak_K);
  }

  OVENDAYS_INLINE void add_audit(State& p) const {
    const Pack none = all<Pack>(0.0);
    const auto which = p.taken > none;
    const Pack sun_rate_Ws = p.forcing.rate.sun_W();
    const Pack came_J = select(which, h_s_ * (sun_W_ + 0.5 * h_s_ * sun_rate_Ws), none);
    const Pack left_J = select(which, out_J_, none);
    const Pack steam_J = select(which, 0.5 * h_s_ * (start_.latent_W + fourth_.latent_W), none);
    for (int l = 0; l < State::kWidth; ++l) p.in_J[l] += came_J[l];
    for (int l = 0; l < State::kWidth; ++l) p.out_J[l] += left_J[l];
    for (int l = 0; l < State::kWidth; ++l) p.latent_J[l] += steam_J[l];
    p.steps += p.taken;
  }

  const Model& m_;
  const Products<Plain> worked_;
  int core_node_;
  Plain longest_step_s_;
  Plain heat_JK_[kNodes], per_heat_[kNodes];
  Plain error_weight_[kNodes], bend_weight_[kNodes];  ///< [1/K]
  Pack h_s_, left_s_, quiet_left_s_, unsettled_s_, thin_weight_;
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
