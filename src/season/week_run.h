// SPDX-License-Identifier: MIT
// A handful of days of the season, run side by side so that the lanes of the integrator stay full:
// the empty oven, every task at every loading time, outcomes and causes. Private to season.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "empty_days.h"
#include "ovendays/task/cook.h"

namespace ovendays::season {

/// Bookkeeping of all runs of a day.
struct DayAudit {
  double worst_share = 0.0, in_J = 0.0, out_J = 0.0, stored_J = 0.0, residual_J = 0.0;
  long runs = 0, steps = 0, rejected = 0;
  void add(const heat::RunSummary& run);
};

/// A cook of task `task` loaded at candidate time `time` of a day.
/// @param empty that day's empty oven, which a preheated one is until then
task::CookSetup cook_setup(const Setup& setup,
                           const EmptyJob& job,
                           const EmptyDay& empty,
                           std::size_t task,
                           std::size_t time);

class WeekRun {
 public:
  /// Days first_day .. first_day + days - 1 of the year.
  WeekRun(const Setup& setup, int first_day, int days, const SeasonOptions& options);
  void run();
  /// Of a day by its place in the week.
  [[nodiscard]] const DayTask& result(std::size_t task, std::size_t day) const {
    return results_[task * empty_.size() + day];
  }
  [[nodiscard]] const EmptyDay& empty(std::size_t day) const { return empty_[day]; }
  [[nodiscard]] const DayAudit& audit(std::size_t day) const { return audits_[day]; }

 private:
  /// One cook to be tried: which day of the week, which candidate loading time.
  struct Trial {
    std::size_t day;
    std::size_t time;
  };
  /// A day with something taken away.
  struct Variant {
    GainDay gains;
    EmptyDay empty;
  };
  [[nodiscard]] int day_index(std::size_t day) const { return first_day_ + static_cast<int>(day); }
  [[nodiscard]] std::size_t usable_times(std::size_t t) const;
  void run_empty();
  /// Cooks task `t`; `which` is a row of the variants, or -1 for the days as they are.
  /// @param forerunners of this task and row, from one call to the next
  std::vector<task::CookResult> cook(std::size_t t,
                                     const std::vector<Trial>& trials,
                                     int which,
                                     task::Forerunners& forerunners);
  static std::vector<Trial> trials_of(const std::vector<std::size_t>& days,
                                      std::size_t from,
                                      std::size_t to);
  /// Days on which somebody sets out to cook; the others' outcome is settled.
  std::vector<std::size_t> days_to_cook(std::size_t t);
  void cook_task(std::size_t t);
  void cook_days_only(std::size_t t);
  /// @param first_time the candidate loading time of cooks.front()
  DayTask tell(std::size_t t,
               std::span<const task::CookResult> cooks,
               std::size_t first_time) const;
  void find_causes(std::size_t t);
  /// Which of `days` would work without what row `which` takes away.
  std::vector<std::size_t> works_without(std::size_t t,
                                         const std::vector<std::size_t>& days,
                                         int which);
  void make_variants(const std::vector<std::size_t>& days, int which);

  const Setup& setup_;
  int first_day_;
  const SeasonOptions& options_;
  std::vector<EmptyDay> empty_;
  std::vector<DayAudit> audits_;
  std::vector<DayTask> results_;
  std::array<std::vector<std::unique_ptr<Variant>>, 5> variants_;
};
}  // namespace ovendays::season
