// SPDX-License-Identifier: MIT
// A handful of days of the season, run side by side so that the lanes of the integrator stay full:
// the empty oven, every task at every loading time, outcomes. Private to season.
#pragma once

#include <span>
#include <vector>

#include "trials.h"

namespace ovendays::season {

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
  [[nodiscard]] int day_index(std::size_t day) const { return first_day_ + static_cast<int>(day); }
  void run_empty();
  /// Cooks task `t` on `days` at the candidate times from .. to - 1, day by day.
  std::vector<task::CookResult> cook(std::size_t t,
                                     const std::vector<std::size_t>& days,
                                     std::size_t from,
                                     std::size_t to,
                                     task::Forerunners& forerunners);
  /// Days on which somebody sets out to cook; the others' outcome is settled.
  std::vector<std::size_t> days_to_cook(std::size_t t);
  void cook_task(std::size_t t);
  void cook_days_only(std::size_t t);
  /// @param first_time the candidate loading time of cooks.front()
  DayTask tell(std::size_t t,
               std::span<const task::CookResult> cooks,
               std::size_t first_time) const;

  const Setup& setup_;
  int first_day_;
  const SeasonOptions& options_;
  std::vector<EmptyDay> empty_;
  std::vector<DayAudit> audits_;
  std::vector<DayTask> results_;
};
}  // namespace ovendays::season
