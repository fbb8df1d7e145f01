// SPDX-License-Identifier: MIT
// Integrates a batch of runs of one oven in lock step, one run in each SIMD lane. In every turn
// each busy lane tries one step of its own length: first the arithmetic, pack by pack
// (pack_step.h), then watchers, segment ends and rejected steps, lane by lane. A lane whose run has
// ended takes the next run. The number of lanes is the same on every machine, in more or fewer
// packs, so that runs start in the same order everywhere. Private to heat; see pack.h on
// OVENDAYS_ISA.
#pragma once

#include <bit>
#include <cstdint>

#include "pack_step.h"

namespace ovendays::heat::OVENDAYS_ISA {

template <class Pack>
class BatchIntegrator {
  using Scalar = ScalarOf<Pack>;
  using Model = ModelOf<Pack>;
  using Packed = PackState<Pack>;
  static constexpr std::size_t kPacks = kBatchBytes / kPackBytes;

 public:
  /// @param numbers `model` in the precision of the packs
  BatchIntegrator(const HeatModel& model,
                  const Model& numbers,
                  const LinearSegments<Scalar>& segments,
                  Run* runs,
                  RunSummary* summaries,
                  std::size_t count,
                  const IntegratorOptions& options)
      : step_(model, numbers, options),
        model_(model),
        segments_(segments),
        runs_(runs),
        summaries_(summaries),
        count_(count),
        options_(options) {
    for (std::size_t l = 0; l < std::size(lanes_); ++l) {
      lanes_[l].pack = &packs_[l / Packed::kWidth];
      lanes_[l].at = static_cast<int>(l % Packed::kWidth);
    }
  }

  void run() {
    for (Lane& lane : lanes_) make_idle(lane);
    for (Lane& lane : lanes_) start_next_run(lane);
    while (lanes_busy_ > 0) {
      for (Packed& pack : packs_) {
        if (any_nonzero(pack.busy)) step_.try_step(pack);
      }
      handle_events();
    }
  }

 private:
  struct Lane {
    Packed* pack = nullptr;
    int at = 0;  ///< index in the pack
    Run* run = nullptr;
    RunSummary* summary = nullptr;
    const LinearSegment<Scalar>* segment = nullptr;
    const LinearSegment<Scalar>* past = nullptr;  ///< one beyond the last
    std::size_t lid = 0;
    int rejected = 0;
    double stored_J = 0.0, last_s = 0.0;
  };

  OVENDAYS_INLINE static Scalar scalar_of(double x) { return static_cast<Scalar>(x); }

  /// A lane without a run is computed along with the others, on harmless numbers.
  void make_idle(Lane& lane) {
    Packed& p = *lane.pack;
    const int i = lane.at;
    lane.run = nullptr;
    p.notify_lanes &= ~(std::uint32_t{1} << i);
    p.event_lanes &= ~(std::uint32_t{1} << i);
    p.busy[i] = p.watched[i] = p.accepted[i] = 0.0;
    p.control.forget(i);
    set_quiet(lane, {});
    p.time_s[i] = p.origin_s[i] = 0.0;
    p.cut_s[i] = 1.0;
    p.transient_end_s[i] = 0.0;
    p.step_s[i] = 1.0;
    p.in_J[i] = p.out_J[i] = p.latent_J[i] = 0.0;
    for (int n = 0; n < kNodes; ++n) p.y[n][i] = 300.0;
    load_segment(lane, kIdleSegment<Scalar>);
    p.forcing.constants.lid[i] = 0.0;
  }

  void start_next_run(Lane& lane) {
    Packed& p = *lane.pack;
    const int i = lane.at;
    while (next_ < count_) {
      Run& run = runs_[next_];
      RunSummary& summary = summaries_[next_];
      ++next_;
      summary = RunSummary{};
      summary.end_s = run.start_s;
      summary.next_step_s = run.first_step_s > 0.0 ? run.first_step_s : options_.first_step_s;
      const LinearSegment<Scalar>* segment = segments_.of(next_ - 1).first;
      const LinearSegment<Scalar>* past = segments_.of(next_ - 1).past;
      while (segment != past && segment->end_s <= run.start_s) ++segment;
      if (segment == past || run.end_s <= run.start_s) continue;  // nothing to do
      if (lane.run == nullptr) ++lanes_busy_;
      lane.run = &run;
      p.control.forget(i);
      p.busy[i] = 1.0;
      p.watched[i] = run.watcher != nullptr ? 1 : 0;
      p.steps[i] = 0.0;
      lane.rejected = 0;
      lane.last_s = std::min(run.end_s, past[-1].end_s);
      set_quiet(lane, {});
      lane.summary = &summary;
      lane.segment = segment;
      lane.past = past;
      lane.lid = 0;
      p.time_s[i] = run.start_s;
      p.transient_end_s[i] = run.start_s + kTransient_s;
      p.step_s[i] = scalar_of(summary.next_step_s);
      std::array<Scalar, kNodes> kept;
      narrow(run.state, kept);
      widen(kept, run.state);
      for (int n = 0; n < kNodes; ++n) p.y[n][i] = p.y1[n][i] = kept[static_cast<std::size_t>(n)];
      lane.stored_J = model_.stored_J(run.state, base::kZeroCelsius_K);
      p.in_J[i] = p.out_J[i] = p.latent_J[i] = 0.0;
      load_segment(lane, *segment);
      set_cut(lane);
      return;
    }
    if (lane.run != nullptr) --lanes_busy_;
    make_idle(lane);
  }

  void load_segment(Lane& lane, const LinearSegment<Scalar>& now) {
    lane.pack->forcing.set_segment(lane.at, now);
    lane.pack->origin_s[lane.at] = now.start_s;
    const char* const next = reinterpret_cast<const char*>(&now + 1);
    for (std::size_t b = 0; b < sizeof now; b += 64) __builtin_prefetch(next + b);
  }

  /// Where the next step must end at the latest, and whether the lid is open until then.
  void set_cut(Lane& lane) {
    const Run& run = *lane.run;
    const double time_s = lane.pack->time_s[lane.at];
    double cut_s = lane.segment->end_s < run.end_s ? lane.segment->end_s : run.end_s;
    bool open = lane.segment->lid_open;
    while (lane.lid < run.lid_open.size() && run.lid_open[lane.lid].to_s <= time_s) ++lane.lid;
    if (lane.lid < run.lid_open.size()) {
      const LidOpening& lid = run.lid_open[lane.lid];
      const bool now = lid.from_s <= time_s;
      const double edge_s = now ? lid.to_s : lid.from_s;
      if (edge_s < cut_s) cut_s = edge_s;
      open = open || now;
    }
    lane.pack->cut_s[lane.at] = cut_s;
    lane.pack->forcing.constants.lid[lane.at] = open ? 1 : 0;
  }

  /// Shows steps to watchers, and handles cuts and rejected steps, lane by lane.
  void handle_events() {
    std::uint32_t stops = 0;
    for (std::uint32_t left = lane_bits(&Packed::notify_lanes); left != 0; left &= left - 1) {
      const int l = std::countr_zero(left);
      if (!notify_watcher(lanes_[static_cast<std::size_t>(l)])) stops |= std::uint32_t{1} << l;
    }
    for (Packed& pack : packs_) step_.advance(pack);
    for (std::uint32_t left = lane_bits(&Packed::event_lanes) | stops; left != 0;
         left &= left - 1) {
      const int l = std::countr_zero(left);
      Lane& lane = lanes_[static_cast<std::size_t>(l)];
      if (lane.pack->accepted[lane.at] <= 0) {
        give_up_if_too_short(lane);
      } else if ((stops >> l & 1U) != 0) {
        finish(lane, StopReason::kWatcherStopped);
      } else {
        cross_cut(lane);
      }
    }
  }
  /// The bit masks of all packs joined; bit l is lane l.
  std::uint32_t lane_bits(std::uint32_t Packed::*lanes) const {
    std::uint32_t all = 0;
    for (std::size_t i = 0; i < kPacks; ++i)
      all |= packs_[i].*lanes << (i * static_cast<std::size_t>(Packed::kWidth));
    return all;
  }

  static StateView view(const Pack* packs, const Lane& lane) {
    return StateView(reinterpret_cast<const Scalar*>(packs) + lane.at, Packed::kWidth);
  }

  /// Shows a lane's step to its watcher. @return false where the watcher stops the run
  bool notify_watcher(const Lane& lane) {
    const Packed& p = *lane.pack;
    StepWatcher& watcher = *lane.run->watcher;
    const bool go_on = watcher.on_step(Step{p.begun_s[lane.at],
                                            p.time_s[lane.at],
                                            view(p.y, lane),
                                            view(p.y1, lane),
                                            view(p.rise0, lane),
                                            view(p.rise1, lane),
                                            p.passed_peak_K[lane.at]});
    set_quiet(lane, watcher.quiet());
    return go_on;
  }

  /// Sets which steps the watcher need not see from now on. The bands are narrowed by a
  /// millikelvin, so that rounding cannot hide a crossing. The last step of a run is always shown.
  void set_quiet(const Lane& lane, const Quiet& quiet) {
    constexpr double kInside_K = 1e-3;
    Packed& p = *lane.pack;
    const auto set = [&lane](Pack* packs, const Quiet::Band& band) {
      packs[0][lane.at] = scalar_of(band.low_K + kInside_K);
      packs[1][lane.at] = scalar_of(band.high_K - kInside_K);
    };
    set(p.quiet_core, quiet.core);
    set(p.quiet_food, quiet.food);
    set(p.quiet_air, quiet.air);
    p.quiet_until_s[lane.at] = lane.run == nullptr ? 0.0 : std::min(quiet.until_s, lane.last_s);
    p.passed_peak_K[lane.at] = 0.0;
  }

  void give_up_if_too_short(Lane& lane) {
    ++lane.rejected;
    if (lane.pack->step_s[lane.at] >= scalar_of(options_.shortest_step_s)) return;
    finish(lane,
           lane.pack->error[lane.at] < scalar<Pack>(kHuge) ? StopReason::kStepTooSmall
                                                           : StopReason::kNotFinite);
  }

  void cross_cut(Lane& lane) {
    Packed& p = *lane.pack;
    const int i = lane.at;
    const Run& run = *lane.run;
    if (p.time_s[i] >= run.end_s) return finish(lane, StopReason::kReachedEnd);
    if (p.time_s[i] >= lane.segment->end_s) {
      const int mark = lane.segment->mark;
      if (run.marks && mark >= 0 && !pass_mark(lane, mark))
        return finish(lane, StopReason::kWatcherStopped);
      if (++lane.segment == lane.past) return finish(lane, StopReason::kReachedEnd);
      load_segment(lane, *lane.segment);
      if (lane.segment->first_step_s < p.step_s[i]) {
        p.step_s[i] = lane.segment->first_step_s;
        p.control.forget(i);
      }
    }
    const Scalar lid_before = p.forcing.constants.lid[i];
    set_cut(lane);
    if (p.forcing.constants.lid[i] == lid_before) return;
    p.transient_end_s[i] = p.time_s[i] + kTransient_s;
    p.control.forget(i);
    if (p.step_s[i] > scalar_of(kAfterLid_s)) p.step_s[i] = scalar_of(kAfterLid_s);
  }

  /// @return false where the watcher stops the run
  bool pass_mark(const Lane& lane, int mark) {
    const Packed& p = *lane.pack;
    return lane.run->watcher->on_mark({static_cast<std::size_t>(mark),
                                       p.time_s[lane.at],
                                       view(p.y, lane),
                                       p.passed_peak_K[lane.at]});
  }

  void finish(Lane& lane, StopReason reason) {
    const Packed& p = *lane.pack;
    const int i = lane.at;
    Run& run = *lane.run;
    RunSummary& summary = *lane.summary;
    if (model_.drying()) {
      summary.evaporated_kg = 0.01 * model_.water_kg * (run.state[kNodeWater] - p.y[kNodeWater][i]);
    }
    for (int n = 0; n < kNodes; ++n) run.state[static_cast<std::size_t>(n)] = p.y[n][i];
    summary.reason = reason;
    summary.end_s = p.time_s[i];
    summary.steps = static_cast<int>(p.steps[i]);
    summary.rejected = lane.rejected;
    summary.next_step_s = p.step_s[i];
    summary.audit.in_J = p.in_J[i];
    summary.audit.out_J = p.out_J[i];
    summary.audit.latent_J = p.latent_J[i];
    summary.audit.stored_J = model_.stored_J(run.state, base::kZeroCelsius_K) - lane.stored_J;
    start_next_run(lane);
  }

  // Members with the strictest alignment first, so that no padding is needed.
  PackStep<Pack> step_;
  std::array<Packed, kPacks> packs_;
  std::array<Lane, kPacks * Packed::kWidth> lanes_;
  const HeatModel& model_;
  const LinearSegments<Scalar>& segments_;
  Run* runs_;
  RunSummary* summaries_;
  std::size_t count_;
  std::size_t next_ = 0;
  const IntegratorOptions& options_;
  int lanes_busy_ = 0;
};

template <class Pack>
void integrate_packs(const HeatModel& model,
                     const ModelOf<Pack>& numbers,
                     Run* runs,
                     RunSummary* summaries,
                     std::size_t count,
                     const IntegratorOptions& options) {
  const LinearSegments<ScalarOf<Pack>> segments(runs, count, model.light_factor);
  BatchIntegrator<Pack>(model, numbers, segments, runs, summaries, count, options).run();
}

void integrate_batch(const HeatModel& model,
                     Run* runs,
                     RunSummary* summaries,
                     std::size_t count,
                     const IntegratorOptions& options) {
  if (options.precision == Precision::kDouble) {
    integrate_packs<DoublePack>(model, model, runs, summaries, count, options);
  } else {
    integrate_packs<SinglePack>(model, to_single_precision(model), runs, summaries, count, options);
  }
}
}  // namespace ovendays::heat::OVENDAYS_ISA
