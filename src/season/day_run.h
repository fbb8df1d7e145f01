// SPDX-License-Identifier: MIT
// One day of the season: the empty oven from the noon before, every task at every loading time, the
// outcome and its cause. Private to season.
#pragma once

#include <span>
#include <vector>

#include "ovendays/task/cook.h"
#include "setup.h"

namespace ovendays::season {

/// The empty oven on one day.
struct EmptyDay {
  std::vector<heat::State> at_load;  ///< at each candidate loading time
  std::array<heat::State, 24> hour_end{};
  double peak_air_K = 0.0;
  double peak_liner_K = 0.0;
  heat::RunSummary run;  ///< from 0 h to 24 h
};

/// Bookkeeping of all runs of a day.
struct DayAudit {
  double worst_share = 0.0, in_J = 0.0, out_J = 0.0, stored_J = 0.0, residual_J = 0.0;
  long runs = 0, steps = 0, rejected = 0;
  void add(const heat::RunSummary& run);
};

class DayRun {
 public:
  DayRun(const Setup& setup, int day_index, const SeasonOptions& options);
  /// Fills tasks x this day; `out` has one entry per task.
  void run(std::span<DayTask> out);
  [[nodiscard]] const EmptyDay& empty() const { return empty_; }
  [[nodiscard]] const DayAudit& audit() const { return audit_; }

 private:
  EmptyDay run_empty(const GainDay& today);
  DayTask cook_all(std::size_t t);
  bool works_without(std::size_t t, const Without& without);
  Cause cause_of(std::size_t t);
  bool no_go(DayTask& result) const;
  /// Cooks a task at each of the candidate loading times from..to-1.
  std::vector<task::CookResult> cook(
      std::size_t t, const GainDay& day, const EmptyDay& empty, std::size_t from, std::size_t to);
  [[nodiscard]] std::size_t usable_times(std::size_t t) const;

  const Setup& setup_;
  int day_;
  const SeasonOptions& options_;
  EmptyDay empty_;
  DayAudit audit_;
  /// The day with something taken away, made when first asked for: obstruction, cloud, aim, wind,
  /// all.
  struct Variant {
    bool made = false;
    GainDay day;
    EmptyDay empty;
  };
  std::array<Variant, 5> variants_;
};
}  // namespace ovendays::season
