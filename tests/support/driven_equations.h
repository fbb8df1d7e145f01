// SPDX-License-Identifier: MIT
// The heat network's equations of one run as an outside solver wants them: only the nodes that are
// there, a slope at any time, and where it must stop because something bends or jumps.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "ovendays/heat/integrator.h"

namespace ovendays::test {

/// Times closer than this count as one [s].
inline constexpr double kSameTime_s = 1e-7;

/// What a solver does where two segments join without a jump: the forcing's slope bends there.
enum class Joins {
  kStop,        ///< a stretch ends at every join: no bend lies within a step
  kRunThrough,  ///< stretches end at jumps and lid edges only, so that a solver keeps its history
};

/// Walks forwards, stretch by stretch. Model and forcing must outlive it. Not thread-safe.
class DrivenEquations {
 public:
  DrivenEquations(const heat::HeatModel& model, const heat::Run& run, Joins joins)
      : model_(model), run_(run), joins_(joins) {
    for (std::size_t n = 0; n < heat::kNodes; ++n) {
      if (model.present[n]) nodes_.push_back(n);
    }
    enter(run.start_s);
  }

  /// Nodes that are there, by their place in the packed arrays below.
  [[nodiscard]] const std::vector<std::size_t>& nodes() const { return nodes_; }
  void pack(const heat::State& state, double* y) const {
    for (const std::size_t n : nodes_) *y++ = state[n];
  }
  void unpack(const double* y, heat::State& state) const {
    for (const std::size_t n : nodes_) state[n] = *y++;
  }

  /// Begins the stretch that starts at a time [s].
  void enter(double time_s) {
    const auto& air = run_.forcing.air;
    while (first_ + 1 < air.size() && air[first_].end_s <= time_s + kSameTime_s) ++first_;
    last_ = first_;
    while (joins_ == Joins::kRunThrough && last_ + 1 < air.size() && smooth(last_ + 1)) ++last_;
    cut_s_ = std::min(air[last_].end_s, run_.end_s);
    open_ = false;
    for (const heat::LidOpening& lid : run_.lid_open) {
      open_ = open_ || (lid.from_s <= time_s + kSameTime_s && time_s + kSameTime_s < lid.to_s);
      for (const double edge_s : {lid.from_s, lid.to_s}) {
        if (edge_s > time_s + kSameTime_s) cut_s_ = std::min(cut_s_, edge_s);
      }
    }
    look_at(first_);
  }
  /// Where the stretch ends [s].
  [[nodiscard]] double cut_s() const { return cut_s_; }

  /// Rates of change of packed temperatures [K/s] at a time within the stretch.
  void slope(double time_s, const double* y, double* rate) {
    std::size_t i = segment_;
    while (i < last_ && run_.forcing.air[i].end_s < time_s) ++i;
    while (i > first_ && run_.forcing.air[i].start_s > time_s) --i;
    if (i != segment_) look_at(i);
    unpack(y, trial_);
    const double share = (time_s - air_.start_s) / (air_.end_s - air_.start_s);
    heat::Flows flows;
    heat::right_hand_side(model_, air_, run_.forcing.gains[i], share, trial_, dydt_, flows);
    pack(dydt_, rate);
  }

  /// Does nothing but slopes change where this segment begins?
  [[nodiscard]] bool smooth(std::size_t segment) const {
    const heat::AirSegment& before = run_.forcing.air[segment - 1];
    const heat::AirSegment& after = run_.forcing.air[segment];
    const auto near = [](double a, double b) { return std::abs(a - b) <= 1e-9 * std::abs(a + b); };
    const heat::Surroundings& a = before.end;
    const heat::Surroundings& b = after.start;
    return near(a.ambient_K, b.ambient_K) && near(a.pane_env_K4, b.pane_env_K4) &&
           near(a.skin_env_K4, b.skin_env_K4) && near(a.skin_gain_W, b.skin_gain_W) &&
           near(a.wind_ms, b.wind_ms) && near(before.vapour_Pa, after.vapour_Pa) &&
           near(before.glazing_tilt_rad, after.glazing_tilt_rad) &&
           near(before.pane_wind_factor, after.pane_wind_factor) &&
           before.lid_open == after.lid_open &&
           std::equal(run_.forcing.gains[segment].start_W.begin(),
                      run_.forcing.gains[segment].start_W.end(),
                      run_.forcing.gains[segment - 1].end_W.begin(),
                      near);
  }

 private:
  void look_at(std::size_t segment) {
    segment_ = segment;
    air_ = run_.forcing.air[segment];
    air_.lid_open = air_.lid_open || open_;
  }

  const heat::HeatModel& model_;
  heat::Run run_;
  Joins joins_;
  std::vector<std::size_t> nodes_;
  std::size_t first_ = 0, last_ = 0, segment_ = 0;
  double cut_s_ = 0.0;
  bool open_ = false;
  heat::AirSegment air_;
  heat::State trial_ = heat::uniform_state(300.0);
  heat::State dydt_{};
};
}  // namespace ovendays::test
