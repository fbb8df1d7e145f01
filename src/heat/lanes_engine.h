// SPDX-License-Identifier: MIT
// The lane engine: runs of one oven in lock step, as many as it has lanes. Each turn every busy
// lane tries one step of its own length: arithmetic pack by pack (pack_step.h), then watchers and
// cuts lane by lane. A lane that is done takes the next run. An engine has as many lanes on every
// machine, in more packs or fewer, so that runs take turns in one order everywhere. Private to
// heat; see pack.h on OVENDAYS_ISA.
#pragma once

#include <bit>
#include <cstdint>

#include "pack_step.h"

namespace ovendays::heat::OVENDAYS_ISA {

template <class Pack>
class LaneEngineImpl {
  using Plain = PlainOf<Pack>;
  using Model = ModelOf<Pack>;
  using Packed = PackState<Pack>;
  static constexpr std::size_t kPacks = kEngineBytes / kPackBytes;

 public:
  /// @param numbers those of `model`, as precise as the packs
  LaneEngineImpl(const HeatModel& model,
                 const Model& numbers,
                 const ReadyForcings<Plain>& ready,
                 Run* runs,
                 RunSummary* summaries,
                 std::size_t count,
                 const IntegratorOptions& options)
      : step_(model, numbers, options),
        whole_(model),
        ready_(ready),
        runs_(runs),
        summaries_(summaries),
        count_(count),
        options_(options) {
    for (std::size_t l = 0; l < std::size(lanes_); ++l) {
      lanes_[l].pack = &packs_[l / Packed::kWidth];
      lanes_[l].at = static_cast<int>(l % Packed::kWidth);
    }
  }

  void go() {
    for (Lane& lane : lanes_) idle(lane);
    for (Lane& lane : lanes_) take_next(lane);
    while (lanes_busy_ > 0) {
      for (Packed& pack : packs_) {
        if (any(pack.busy)) step_.make(pack);
      }
      turn_to_lanes();
    }
  }

 private:
  struct Lane {
    Packed* pack = nullptr;
    int at = 0;  ///< its place in the pack
    Run* run = nullptr;
    RunSummary* summary = nullptr;
    const ReadySegment<Plain>* segment = nullptr;
    const ReadySegment<Plain>* past = nullptr;  ///< beyond the last
    std::size_t lid = 0;
    int rejected = 0;
    double stored_J = 0.0, last_s = 0.0;
  };

  OVENDAYS_INLINE static Plain plain(double x) { return static_cast<Plain>(x); }

  /// An empty lane computes along on harmless numbers.
  void idle(Lane& lane) {
    Packed& p = *lane.pack;
    const int i = lane.at;
    lane.run = nullptr;
    p.shown_lanes &= ~(std::uint32_t{1} << i);
    p.turning_lanes &= ~(std::uint32_t{1} << i);
    p.busy[i] = p.watched[i] = p.taken[i] = 0.0;
    p.control.forget(i);
    set_quiet(lane, {});
    p.time_s[i] = p.origin_s[i] = 0.0;
    p.cut_s[i] = 1.0;
    p.settled_s[i] = 0.0;
    p.step_s[i] = 1.0;
    p.in_J[i] = p.out_J[i] = p.latent_J[i] = 0.0;
    for (int n = 0; n < kNodes; ++n) p.y[n][i] = 300.0;
    drive(lane, kHarmless<Plain>);
    p.forcing.stretch.lid[i] = 0.0;
  }

  void take_next(Lane& lane) {
    Packed& p = *lane.pack;
    const int i = lane.at;
    while (next_ < count_) {
      Run& run = runs_[next_];
      RunSummary& summary = summaries_[next_];
      ++next_;
      summary = RunSummary{};
      summary.end_s = run.start_s;
      summary.next_step_s = run.first_step_s > 0.0 ? run.first_step_s : options_.first_step_s;
      const ReadySegment<Plain>* segment = ready_.of(next_ - 1).first;
      const ReadySegment<Plain>* past = ready_.of(next_ - 1).past;
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
      p.settled_s[i] = run.start_s + kUnsettled_s;
      p.step_s[i] = plain(summary.next_step_s);
      std::array<Plain, kNodes> kept;
      narrow(run.state, kept);
      widen(kept, run.state);
      for (int n = 0; n < kNodes; ++n) p.y[n][i] = p.y1[n][i] = kept[static_cast<std::size_t>(n)];
      lane.stored_J = whole_.stored_J(run.state, base::kZeroCelsius_K);
      p.in_J[i] = p.out_J[i] = p.latent_J[i] = 0.0;
      drive(lane, *segment);
      set_cut(lane);
      return;
    }
    if (lane.run != nullptr) --lanes_busy_;
    idle(lane);
  }

  void drive(Lane& lane, const ReadySegment<Plain>& now) {
    lane.pack->forcing.turn(lane.at, now);
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
    lane.pack->forcing.stretch.lid[lane.at] = open ? 1 : 0;
  }

  /// One by one, where something must be asked or told.
  void turn_to_lanes() {
    std::uint32_t stops = 0;
    for (std::uint32_t left = lanes_where(&Packed::shown_lanes); left != 0; left &= left - 1) {
      const int l = std::countr_zero(left);
      if (!tell(lanes_[static_cast<std::size_t>(l)])) stops |= std::uint32_t{1} << l;
    }
    for (Packed& pack : packs_) step_.settle(pack);
    for (std::uint32_t left = lanes_where(&Packed::turning_lanes) | stops; left != 0;
         left &= left - 1) {
      const int l = std::countr_zero(left);
      Lane& lane = lanes_[static_cast<std::size_t>(l)];
      if (lane.pack->taken[lane.at] <= 0) {
        give_up_if_too_short(lane);
      } else if ((stops >> l & 1U) != 0) {
        finish(lane, StopReason::kWatcherStopped);
      } else {
        cross_cut(lane);
      }
    }
  }
  /// A bit for every lane, the first lowest.
  std::uint32_t lanes_where(std::uint32_t Packed::*lanes) const {
    std::uint32_t all = 0;
    for (std::size_t i = 0; i < kPacks; ++i)
      all |= packs_[i].*lanes << (i * static_cast<std::size_t>(Packed::kWidth));
    return all;
  }

  static StateView view(const Pack* packs, const Lane& lane) {
    return StateView(reinterpret_cast<const Plain*>(packs) + lane.at, Packed::kWidth);
  }

  /// Shows a lane's step to its watcher. @return whether it wants more
  bool tell(const Lane& lane) {
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

  /// What a lane's watcher need not see from now on; kept a millikelvin inside, so that rounding
  /// cannot hide a crossing. The last step of a run is shown always.
  void set_quiet(const Lane& lane, const Quiet& quiet) {
    constexpr double kInside_K = 1e-3;
    Packed& p = *lane.pack;
    const auto set = [&lane](Pack* packs, const Quiet::Band& band) {
      packs[0][lane.at] = plain(band.low_K + kInside_K);
      packs[1][lane.at] = plain(band.high_K - kInside_K);
    };
    set(p.quiet_core, quiet.core);
    set(p.quiet_food, quiet.food);
    set(p.quiet_air, quiet.air);
    p.quiet_until_s[lane.at] = lane.run == nullptr ? 0.0 : std::min(quiet.until_s, lane.last_s);
    p.passed_peak_K[lane.at] = 0.0;
  }

  void give_up_if_too_short(Lane& lane) {
    ++lane.rejected;
    if (lane.pack->step_s[lane.at] >= plain(options_.shortest_step_s)) return;
    finish(lane,
           lane.pack->error[lane.at] < num<Pack>(kHuge) ? StopReason::kStepTooSmall
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
      drive(lane, *lane.segment);
      if (lane.segment->first_step_s < p.step_s[i]) {
        p.step_s[i] = lane.segment->first_step_s;
        p.control.forget(i);
      }
    }
    const Plain lid_before = p.forcing.stretch.lid[i];
    set_cut(lane);
    if (p.forcing.stretch.lid[i] == lid_before) return;
    p.settled_s[i] = p.time_s[i] + kUnsettled_s;
    p.control.forget(i);
    if (p.step_s[i] > plain(kAfterLid_s)) p.step_s[i] = plain(kAfterLid_s);
  }

  /// @return whether the watcher wants more
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
    if (whole_.drying()) {
      summary.evaporated_kg = 0.01 * whole_.water_kg * (run.state[kNodeWater] - p.y[kNodeWater][i]);
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
    summary.audit.stored_J = whole_.stored_J(run.state, base::kZeroCelsius_K) - lane.stored_J;
    take_next(lane);
  }

  // The widest first, so that they lie close.
  PackStep<Pack> step_;
  std::array<Packed, kPacks> packs_;
  std::array<Lane, kPacks * Packed::kWidth> lanes_;
  const HeatModel& whole_;
  const ReadyForcings<Plain>& ready_;
  Run* runs_;
  RunSummary* summaries_;
  std::size_t count_;
  std::size_t next_ = 0;
  const IntegratorOptions& options_;
  int lanes_busy_ = 0;
};
}  // namespace ovendays::heat::OVENDAYS_ISA
