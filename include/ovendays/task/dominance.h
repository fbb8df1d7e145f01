// SPDX-License-Identifier: MIT
// Dominance pruning: stops a cook early where another cook, which failed, is known to stay ahead of
// it.
//
// Two cooks of one task on one day are under the same sun, air and wind. If at some moment no node
// of cook A is cooler than that node of cook B, this remains so: heat flows from warm to cool, so
// warming one node never cools another (comparison theorem of cooperative systems: Mueller, Kamke;
// H. L. Smith 1995, Monotone Dynamical Systems, chapter 3, from memory). If A has by then also been
// hot for at least as long as B, and fails, then B fails too and gets no further than A.
//
// Two things weaken the argument slightly. Warmer air in the oven draws more vapour out through the
// leaks, which cools the food by at most 0.07 W a kelvin under a lid and 0.5 W a kelvin in an open
// pan (tests/heat/cooperative_test.cpp), and food short of water moistens the pane less. The
// integrator also has errors. Only a cook that failed clearly, by kClear_K or kClear_s, therefore
// prunes others.
//
// Why this stays although it only saves time: without it the demo season takes 1.10 times as long
// (measured), and a study runs hundreds of seasons. It costs 165 lines. SeasonOptions::follow_all
// turns it off for the tests that compare the outcomes with and without it.
#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <memory>
#include <utility>
#include <vector>

#include "ovendays/heat/integrator.h"

namespace ovendays::task {

/// Progress of a cook at a mark (see heat::Mark).
struct CookState {
  std::size_t mark;
  heat::StateView y;
  double hold_s, air_s;  ///< as in CookResult, so far
};

/// Progress of one cook at every mark that it passed.
class CookHistory {
 public:
  void clear() { places_.clear(); }
  /// Adds the next mark.
  void note(const CookState& now);
  /// True where this cook was level with or ahead of the other in every respect at its mark.
  /// @param nodes of the network; the test ends at the first one that was behind, so put likely
  /// ones first
  [[nodiscard]] bool ahead_of(const CookState& other, const std::vector<int>& nodes) const;

 private:
  struct Place {
    std::array<float, heat::kNodes> y;
    float hold_s, air_s;
  };
  std::size_t first_mark_ = 0;
  std::vector<Place> places_;
};

/// The cook of each day that failed clearly last, for one task and some days; later cooks are
/// compared with it. Not thread-safe: only one thread may work on these days at a time.
class DominancePruning {
 public:
  /// A cook has failed clearly if its peak or its hold falls short by more than this.
  static constexpr double kClear_K = 0.25;
  static constexpr double kClearOpen_K = 1.0;  ///< the same for moist food in an open pan
  static constexpr double kClear_s = 60.0;

  explicit DominancePruning(const heat::HeatModel& model);
  [[nodiscard]] double clear_K() const { return clear_K_; }

  /// The cook to be compared with, of one day under one load.
  struct Day {
    std::unique_ptr<CookHistory> history;  ///< null until a cook has failed clearly
    double peak_core_K = 0.0;
  };
  /// Days are distinguished by the addresses of their forcing. The reference remains valid.
  Day& day(const heat::Forcing& forcing);
  /// An empty history from a pool, which saves allocations, and its return to the pool.
  std::unique_ptr<CookHistory> take_history();
  void give_back(std::unique_ptr<CookHistory> history);
  /// True where the other cook can be stopped. @param peak_core_K its highest core temperature so
  /// far
  [[nodiscard]] bool dominates(const Day& day, const CookState& other, double peak_core_K) const;
  /// Makes a cook that failed clearly the one to be compared with.
  void set_failed(Day& day, std::unique_ptr<CookHistory> history, double peak_core_K);

 private:
  double clear_K_;
  std::vector<int> nodes_;
  std::map<std::pair<const heat::AirSegment*, const heat::GainSegment*>, Day> days_;
  std::vector<std::unique_ptr<CookHistory>> free_;
};
}  // namespace ovendays::task
