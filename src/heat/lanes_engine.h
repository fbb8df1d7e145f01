// SPDX-License-Identifier: MIT
// The lane engine: runs of one oven in lock step, a pack of them at a time. Each turn every busy
// lane tries one step of its own length; arithmetic is done for all lanes at once, decisions lane
// by lane. A lane that is done takes the next run. Clocks and energy sums are double in packs of
// singles too. Private to heat; see pack.h on OVENDAYS_ISA.
#pragma once

#include "lane_forcing.h"
#include "lanes.h"
#include "solver.h"
#include "step_control.h"

namespace ovendays::heat::OVENDAYS_ISA {

template <class Pack, class S>
class LaneEngineImpl {
  static constexpr auto kCarried = S::carried();
  static constexpr int kLanes = Lanes<Pack>::kCount;
  using Plain = PlainOf<Pack>;
  using Model = ModelOf<Pack>;

 public:
  /// @param numbers those of `model`, as precise as the packs
  LaneEngineImpl(const HeatModel& model,
                 const Model& numbers,
                 const ReadyForcings<Plain>& ready,
                 Run* runs,
                 RunSummary* summaries,
                 std::size_t count,
                 const IntegratorOptions& options)
      : matrix_(numbers),
        whole_(model),
        m_(numbers),
        ready_(ready),
        runs_(runs),
        summaries_(summaries),
        count_(count),
        options_(options) {
    for (int n = 0; n < kNodes; ++n) {
      heat_[n] = numbers.capacity_JK[static_cast<std::size_t>(n)];
      per_heat_[n] = 1 / heat_[n];
      const double weight = !model.present[static_cast<std::size_t>(n)] ? 0.0
                            : n == kNodeAir                             ? options.air_weight
                            : thin(n)                                   ? options.thin_weight
                                                                        : 1.0;
      const bool food = n == kNodeFood || (n >= kNodeShell1 && n <= kNodeShell4);
      error_weight_[n] = static_cast<Plain>(weight / options.tolerance_K);
      bend_weight_[n] = static_cast<Plain>(weight * (food ? 1.0 : 0.1) / options.bend_K);
    }
  }

  void go() {
    for (int l = 0; l < kLanes; ++l) idle(l);
    for (int l = 0; l < kLanes; ++l) take_next(l);
    while (lanes_busy_ > 0) {
      start_corner();
      choose_steps();
      attempt();
      decide();
    }
  }

 private:
  /// An empty lane computes along on harmless numbers.
  void idle(int l) {
    run_[l] = nullptr;
    busy_[l] = watched_[l] = 0.0;
    control_.forget(l);
    set_quiet(l, {});
    time_s_[l] = origin_s_[l] = 0.0;
    cut_s_[l] = 1.0;
    settled_s_[l] = 0.0;
    step_s_[l] = h_[l] = left_s_[l] = 1.0;
    in_J_[l] = all_out_J_[l] = latent_J_[l] = 0.0;
    for (int n = 0; n < kNodes; ++n) y_[n][l] = 300.0;
    drive(l, kHarmless<Plain>);
    forcing_.stretch.lid[l] = 0.0;
  }

  OVENDAYS_INLINE static Plain plain(double x) { return static_cast<Plain>(x); }
  /// Differences of two clocks of every lane, as precise as the packs.
  OVENDAYS_INLINE static Pack between(const double* from_s, const double* to_s) {
    Pack apart_s{};
    for (int l = 0; l < kLanes; ++l) apart_s[l] = plain(to_s[l] - from_s[l]);
    return apart_s;
  }

  void take_next(int l) {
    while (next_ < count_) {
      Run& run = runs_[next_];
      RunSummary& summary = summaries_[next_];
      ++next_;
      summary = RunSummary{};
      summary.end_s = run.start_s;
      summary.next_step_s = run.first_step_s > 0.0 ? run.first_step_s : options_.first_step_s;
      const ReadySegment<Plain>* segment = ready_.first(next_ - 1);
      const ReadySegment<Plain>* past = segment + run.forcing.air.size();
      while (segment != past && segment->end_s <= run.start_s) ++segment;
      if (segment == past || run.end_s <= run.start_s) continue;  // nothing to do
      if (run_[l] == nullptr) ++lanes_busy_;
      run_[l] = &run;
      control_.forget(l);
      busy_[l] = 1.0;
      watched_[l] = run.watcher != nullptr ? 1 : 0;
      steps_[l] = 0.0;
      rejected_[l] = 0;
      last_s_[l] = std::min(run.end_s, past[-1].end_s);
      set_quiet(l, {});
      summary_[l] = &summary;
      segment_[l] = segment;
      past_[l] = past;
      lid_[l] = 0;
      time_s_[l] = run.start_s;
      settled_s_[l] = run.start_s + kUnsettled_s;
      step_s_[l] = plain(summary.next_step_s);
      std::array<Plain, kNodes> kept;
      narrow(run.state, kept);
      widen(kept, run.state);
      for (int n = 0; n < kNodes; ++n) y_[n][l] = y1_[n][l] = kept[static_cast<std::size_t>(n)];
      stored_J_[l] = whole_.stored_J(run.state, base::kZeroCelsius_K);
      in_J_[l] = all_out_J_[l] = latent_J_[l] = 0.0;
      drive(l, *segment);
      set_cut(l);
      return;
    }
    if (run_[l] != nullptr) --lanes_busy_;
    idle(l);
  }

  void drive(int l, const ReadySegment<Plain>& now) {
    forcing_.turn(l, now);
    origin_s_[l] = now.start_s;
  }

  /// Where the next step must end at the latest, and whether the lid is open until then.
  void set_cut(int l) {
    const Run& run = *run_[l];
    const ReadySegment<Plain>& segment = *segment_[l];
    double cut_s = segment.end_s < run.end_s ? segment.end_s : run.end_s;
    bool open = segment.lid_open;
    while (lid_[l] < run.lid_open.size() && run.lid_open[lid_[l]].to_s <= time_s_[l]) ++lid_[l];
    if (lid_[l] < run.lid_open.size()) {
      const LidOpening& lid = run.lid_open[lid_[l]];
      const bool now = lid.from_s <= time_s_[l];
      const double edge_s = now ? lid.to_s : lid.from_s;
      if (edge_s < cut_s) cut_s = edge_s;
      open = open || now;
    }
    cut_s_[l] = cut_s;
    forcing_.stretch.lid[l] = open ? 1 : 0;
  }

  /// Powers, Jacobian and drift at the start of every lane's step.
  void start_corner() {
    const Instant<Pack> now = forcing_.at(between(origin_s_, time_s_));
    Network<Pack, S, true> network(m_, now, forcing_.stretch, y_, start_, &jacobian_);
    network.evaluate();
    network.drift(forcing_.rate, drift_Ws_, out_drift_Ws_);
  }

  void choose_steps() {
    left_s_ = between(time_s_, cut_s_);
    quiet_left_s_ = between(time_s_, quiet_until_s_);
    unsettled_s_ = between(time_s_, settled_s_);
    thin_weight_ = select(
        unsettled_s_ > all<Pack>(0.0), all<Pack>(num<Pack>(kUnsettledWeight)), all<Pack>(1.0));
    Pack h = lesser_of(step_s_, all<Pack>(plain(options_.longest_step_s)));
    h = StepControl<Pack>::first_of(h, left_s_);
    if (S::kLoaded && m_.drying()) {
      // To just past the boiling point at the present slope, so that a step ends there.
      const Pack below_K = m_.boiling_K - y_[kNodeFood];
      const Pack slope = start_.into_W[kNodeFood] * per_heat_[kNodeFood];
      const Pack rise_K = slope * h;
      const Pack until_s = (below_K + num<Pack>(1e-3)) / slope;
      const Pack capped = lesser_of(h, greater_of(until_s, all<Pack>(1.0)));
      h = select(below_K > 0.0, select(rise_K > below_K, capped, h), h);
    }
    h_ = h;
  }

  /// One step of RODAS3 in every lane: gamma = 1/2, stages 1 and 2 at the start, 3 and 4 at the end
  /// of the step, y1 = y + 2 k1 + k3 + k4, error estimate k4. What leaves is carried along as one
  /// more node.
  void attempt() {
    const Pack per_step = 1.0 / h_;
    const Pack half_step = 0.5 * h_;
    const Pack third_stage = num<Pack>(8.0 / 3.0) * per_step;
    matrix_.factor(jacobian_, 2.0 * per_step, food_dries());
    const Instant<Pack> end = forcing_.at(between(origin_s_, time_s_) + h_);
    Pack k1[kNodes], k2[kNodes], k3[kNodes], k4[kNodes], drop[kNodes];
    for (const int n : kCarried) k1[n] = drifts(n, start_.into_W[n], half_step);
    matrix_.solve(k1);
    const Pack drift1 = half_step * out_drift_Ws_;
    const Pack out1 = half_step * out_slope(start_.out_W + drift1, k1);
    const Pack four_per_step = 4.0 * per_step;
    for (const int n : kCarried)
      k2[n] = plus_product(
          drifts(n, start_.into_W[n], 3.0 * half_step), heat_[n] * four_per_step, k1[n]);
    matrix_.solve(k2);
    const Pack drift2 = plus_product(3.0 * drift1, four_per_step, out1);
    const Pack out2 = half_step * out_slope(start_.out_W + drift2, k2);
    for (const int n : kCarried) y1_[n] = plus_product(y_[n], Plain{2}, k1[n]);
    Network<Pack, S, false>(m_, end, forcing_.stretch, y1_, stage_, nullptr).evaluate();
    for (const int n : kCarried) {
      drop[n] = k1[n] - k2[n];
      k3[n] = plus_product(stage_.into_W[n], heat_[n] * per_step, drop[n]);
    }
    matrix_.solve(k3);
    const Pack fallen = per_step * (out1 - out2);
    const Pack out3 = half_step * out_slope(stage_.out_W + fallen, k3);
    for (const int n : kCarried) y1_[n] += k3[n];
    Network<Pack, S, false>(m_, end, forcing_.stretch, y1_, stage_, nullptr).evaluate();
    for (const int n : kCarried) {
      drop[n] = minus_product(drop[n], num<Pack>(8.0 / 3.0), k3[n]);
      k4[n] = plus_product(stage_.into_W[n], heat_[n] * per_step, drop[n]);
    }
    matrix_.solve(k4);
    const Pack out4 =
        half_step * out_slope(minus_product(stage_.out_W + fallen, third_stage, out3), k4);
    out_J_ = 2.0 * out1 + out3 + out4;
    Pack error = all<Pack>(0.0);
    Pack poison = all<Pack>(0.0);  // stays 0 unless something is infinite or not a number
    for (const int n : kCarried) {
      const Pack y1 = y1_[n] + k4[n];
      y1_[n] = y1;
      poison += y1;
      const Pack rise0 = start_.into_W[n] * (per_heat_[n] * h_);
      const Pack rise1 = plus_product(-drop[n], Plain{2}, k4[n]);
      rise0_[n] = rise0;
      rise1_[n] = rise1;
      // How far the cubic through both ends is from a parabola: a decay that the step jumps over
      // shows here.
      const Pack bend = minus_product(rise0 + rise1, Plain{2}, y1 - y_[n]);
      Pack off_K = magnitude(k4[n]);
      if (S::kLoaded && n == kNodeFood && m_.drying())
        off_K = greater_of(off_K, boiled_on_K(k4[n]));
      const Pack off = error_weight_[n] * off_K;
      const Pack worse =
          greater_of(thin(n) ? thin_weight_ * off : off, bend_weight_[n] * magnitude(bend));
      error = greater_of(worse, error);
    }
    error_ = error + 0.0 * poison;
  }

  static constexpr bool thin(int n) { return n >= kNodeLiner && n <= kNodeVessel; }

  /// What the food of a step that leaves the boil is too warm by, at most: it takes the boil's
  /// steep slope all the way, and so condenses steam that never was. Divided by that slope, k4 is
  /// blind to it.
  OVENDAYS_INLINE Pack boiled_on_K(Pack k4) const {
    const Pack none = all<Pack>(0.0);
    const Pack over_K = y1_[kNodeFood] - m_.boiling_K;
    const Pack stage_over_K = over_K - k4;
    const Pack unboiled_W =
        plus_product(stage_.into_W[kNodeFood], m_.boil_WK, greater_of(stage_over_K, none));
    const Pack missed_K = minus_product(over_K, unboiled_W, per_heat_[kNodeFood] * h_);
    const Pack leaves = select(lesser_of(over_K, stage_over_K) < none, missed_K, none);
    return select(y_[kNodeFood] >= all<Pack>(m_.boiling_K), leaves, none);
  }

  /// Is some lane's food short of water?
  OVENDAYS_INLINE bool food_dries() const {
    if (!S::kLoaded || !m_.drying()) return false;
    const Pack low = select(y_[kNodeWater] < all<Pack>(num<Pack>(kFallingRate_percent)),
                            all<Pack>(1.0),
                            all<Pack>(0.0));
    return any(low);
  }

  /// What flows out at a stage of which the temperatures' share is still to be added.
  OVENDAYS_INLINE Pack out_slope(Pack sum, const Pack* k) const {
    for (const int n : kCarried) sum = plus_product(sum, start_.out_slope_WK[n], k[n]);
    return sum;
  }

  /// A node's power with what its drift adds.
  OVENDAYS_INLINE Pack drifts(int n, Pack power, Pack time_s) const {
    return inside_solid(n) ? power : plus_product(power, time_s, drift_Ws_[n]);
  }

  /// Takes the step of every lane whose error allows it, sets the next steps' lengths, and turns to
  /// the lanes of which one by one something must be asked or told.
  void decide() {
    const Pack none = all<Pack>(0.0), one = all<Pack>(1.0);
    const Pack taken = select(error_ <= all<Pack>(num<Pack>(kTaken)), busy_, none);
    const Pack factor = control_.growth(error_, h_, unsettled_s_ + num<Pack>(kDiesOut_s), taken);
    const Pack at_cut = select(h_ >= left_s_, one, none);
    const Pack grown_s = h_ * factor;
    const Pack shrunk_s =
        select(error_ < all<Pack>(num<Pack>(kHuge)), grown_s, num<Pack>(0.2) * h_);
    Pack next_s = select(at_cut > none, greater_of(step_s_, grown_s), grown_s);
    if (S::kLoaded && m_.drying()) {
      const Pack boils = all<Pack>(m_.boiling_K);
      const Pack onset =
          select(y_[kNodeFood] < boils, select(y1_[kNodeFood] >= boils, one, none), none);
      next_s = select(onset > none, all<Pack>(plain(kOnsetStep_s)), next_s);
    }
    step_s_ = select(taken > none, next_s, select(busy_ > none, shrunk_s, one));
    const Pack shown = show(taken);
    add_audit(taken);
    Plain flags[3][kLanes];
    for (int l = 0; l < kLanes; ++l) {
      flags[0][l] = taken[l];
      flags[1][l] = shown[l];
      flags[2][l] = at_cut[l];
    }
    for (int l = 0; l < kLanes; ++l) {
      begun_s_[l] = time_s_[l];
      const double end_s = flags[2][l] > 0 ? cut_s_[l] : time_s_[l] + h_[l];
      time_s_[l] = flags[0][l] > 0 ? end_s : time_s_[l];
    }
    bool stops[kLanes];
    for (int l = 0; l < kLanes; ++l) stops[l] = flags[1][l] > 0 && !tell(l);
    const auto which = taken > none;
    for (const int n : kCarried) y_[n] = select(which, y1_[n], y_[n]);
    for (int l = 0; l < kLanes; ++l) {
      if (run_[l] == nullptr) continue;
      if (flags[0][l] <= 0) {
        give_up_if_too_short(l);
      } else if (stops[l]) {
        finish(l, StopReason::kWatcherStopped);
      } else if (time_s_[l] >= cut_s_[l]) {
        cross_cut(l);
      }
    }
  }

  /// 1 in the lanes whose watcher is to see the step just taken; the others' peak is kept for it.
  Pack show(Pack taken) {
    const Pack none = all<Pack>(0.0);
    Pack seen = select(h_ >= quiet_left_s_, taken, none);
    const auto band = [&](const Pack& level, const Pack& low, const Pack& high) {
      seen = select(level > low, select(high > level, seen, taken), taken);
    };
    // Half-way too: a short swing may begin and end within a band and leave it in between.
    const auto middle = [this](int node) {
      return 0.5 * (y_[node] + y1_[node]) + 0.125 * (rise0_[node] - rise1_[node]);
    };
    const int core_node = whole_.core_node();
    const Pack core = y1_[core_node];
    band(core, quiet_core_[0], quiet_core_[1]);
    band(middle(core_node), quiet_core_[0], quiet_core_[1]);
    if (S::kLoaded) band(y1_[kNodeFood], quiet_food_[0], quiet_food_[1]);
    band(y1_[kNodeAir], quiet_air_[0], quiet_air_[1]);
    band(middle(kNodeAir), quiet_air_[0], quiet_air_[1]);
    seen = seen * watched_;
    const Pack passed = select(seen > none, passed_peak_K_, greater_of(passed_peak_K_, core));
    passed_peak_K_ = select(taken > none, passed, passed_peak_K_);
    return seen;
  }

  static StateView lane(const Pack* packs, int l) {
    return StateView(reinterpret_cast<const Plain*>(packs) + l, kLanes);
  }

  /// Shows a lane's step to its watcher. @return whether it wants more
  bool tell(int l) {
    StepWatcher& watcher = *run_[l]->watcher;
    const bool go_on = watcher.on_step(Step{begun_s_[l],
                                            time_s_[l],
                                            lane(y_, l),
                                            lane(y1_, l),
                                            lane(rise0_, l),
                                            lane(rise1_, l),
                                            passed_peak_K_[l]});
    set_quiet(l, watcher.quiet());
    return go_on;
  }

  /// What a lane's watcher need not see from now on; kept a millikelvin inside, so that rounding
  /// cannot hide a crossing. The last step of a run is shown always.
  void set_quiet(int l, const Quiet& quiet) {
    constexpr double kInside_K = 1e-3;
    const auto set = [l](Pack* pack, const Quiet::Band& band) {
      pack[0][l] = plain(band.low_K + kInside_K);
      pack[1][l] = plain(band.high_K - kInside_K);
    };
    set(quiet_core_, quiet.core);
    set(quiet_food_, quiet.food);
    set(quiet_air_, quiet.air);
    quiet_until_s_[l] = run_[l] == nullptr ? 0.0 : std::min(quiet.until_s, last_s_[l]);
    passed_peak_K_[l] = 0.0;
  }

  void give_up_if_too_short(int l) {
    ++rejected_[l];
    if (step_s_[l] >= plain(options_.shortest_step_s)) return;
    finish(l, error_[l] < num<Pack>(kHuge) ? StopReason::kStepTooSmall : StopReason::kNotFinite);
  }

  void add_audit(Pack taken) {
    const Pack none = all<Pack>(0.0);
    const auto which = taken > none;
    Pack sun_rate_Ws = forcing_.rate.skin_gain_W;
    for (int s = 0; s < oven::kSurfaces; ++s) sun_rate_Ws += forcing_.rate.gain_W[s];
    const Pack in_J = select(which, h_ * (start_.sun_W + 0.5 * h_ * sun_rate_Ws), none);
    const Pack out_J = select(which, out_J_, none);
    const Pack latent_J = select(which, 0.5 * h_ * (start_.latent_W + stage_.latent_W), none);
    for (int l = 0; l < kLanes; ++l) in_J_[l] += in_J[l];
    for (int l = 0; l < kLanes; ++l) all_out_J_[l] += out_J[l];
    for (int l = 0; l < kLanes; ++l) latent_J_[l] += latent_J[l];
    steps_ += taken;
  }

  void cross_cut(int l) {
    const Run& run = *run_[l];
    if (time_s_[l] >= run.end_s) return finish(l, StopReason::kReachedEnd);
    if (time_s_[l] >= segment_[l]->end_s) {
      const int mark = segment_[l]->mark;
      if (run.marks && mark >= 0 && !pass_mark(l, mark))
        return finish(l, StopReason::kWatcherStopped);
      if (++segment_[l] == past_[l]) return finish(l, StopReason::kReachedEnd);
      drive(l, *segment_[l]);
      if (segment_[l]->first_step_s < step_s_[l]) {
        step_s_[l] = segment_[l]->first_step_s;
        control_.forget(l);
      }
    }
    const Plain lid_before = forcing_.stretch.lid[l];
    set_cut(l);
    if (forcing_.stretch.lid[l] == lid_before) return;
    settled_s_[l] = time_s_[l] + kUnsettled_s;
    control_.forget(l);
    if (step_s_[l] > plain(kAfterLid_s)) step_s_[l] = plain(kAfterLid_s);
  }

  /// @return whether the watcher wants more
  bool pass_mark(int l, int mark) {
    return run_[l]->watcher->on_mark(
        {static_cast<std::size_t>(mark), time_s_[l], lane(y_, l), passed_peak_K_[l]});
  }

  void finish(int l, StopReason reason) {
    Run& run = *run_[l];
    RunSummary& summary = *summary_[l];
    if (whole_.drying()) {
      summary.evaporated_kg = 0.01 * whole_.water_kg * (run.state[kNodeWater] - y_[kNodeWater][l]);
    }
    for (int n = 0; n < kNodes; ++n) run.state[static_cast<std::size_t>(n)] = y_[n][l];
    summary.reason = reason;
    summary.end_s = time_s_[l];
    summary.steps = static_cast<int>(steps_[l]);
    summary.rejected = rejected_[l];
    summary.next_step_s = step_s_[l];
    summary.audit.in_J = in_J_[l];
    summary.audit.out_J = all_out_J_[l];
    summary.audit.latent_J = latent_J_[l];
    summary.audit.stored_J = whole_.stored_J(run.state, base::kZeroCelsius_K) - stored_J_[l];
    take_next(l);
  }

  // By lane: the widest first, so that they lie close.
  alignas(kPackBytes) double time_s_[kLanes], origin_s_[kLanes], cut_s_[kLanes];
  alignas(kPackBytes) double begun_s_[kLanes], quiet_until_s_[kLanes], settled_s_[kLanes];
  alignas(kPackBytes) double in_J_[kLanes], all_out_J_[kLanes], latent_J_[kLanes];
  Pack busy_, watched_, steps_;  ///< 1 or 0; steps taken
  Pack step_s_, left_s_, h_, error_;
  Pack quiet_core_[2], quiet_food_[2], quiet_air_[2], quiet_left_s_, passed_peak_K_;
  Pack unsettled_s_, thin_weight_;
  Pack out_J_;  ///< of the step tried
  StepControl<Pack> control_;
  // By node and lane.
  Pack y_[kNodes], y1_[kNodes], rise0_[kNodes], rise1_[kNodes], drift_Ws_[kNodes];
  Pack out_drift_Ws_;
  LaneForcing<Pack> forcing_;
  Powers<Pack> start_, stage_;
  Jacobian<Pack> jacobian_;
  StepMatrix<Pack, S> matrix_;
  const HeatModel& whole_;
  const Model& m_;
  const ReadyForcings<Plain>& ready_;
  Run* runs_;
  RunSummary* summaries_;
  std::size_t count_;
  std::size_t next_ = 0;
  const IntegratorOptions& options_;
  int lanes_busy_ = 0;
  Plain heat_[kNodes], per_heat_[kNodes];
  Plain error_weight_[kNodes], bend_weight_[kNodes];  ///< [1/K]
  // By lane.
  Run* run_[kLanes] = {};
  RunSummary* summary_[kLanes] = {};
  const ReadySegment<Plain>* segment_[kLanes] = {};
  const ReadySegment<Plain>* past_[kLanes] = {};  ///< beyond the last
  std::size_t lid_[kLanes] = {};
  int rejected_[kLanes] = {};
  double stored_J_[kLanes], last_s_[kLanes];
};
}  // namespace ovendays::heat::OVENDAYS_ISA
