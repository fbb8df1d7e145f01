// SPDX-License-Identifier: MIT
// A handful of days of the season, run side by side so that the lanes of the integrator stay full:
// the empty oven, every task at every loading time, outcomes. Private to season.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "ovendays/base/check.h"
#include "trials.h"

namespace ovendays::season {

class WeekRun {
 public:
  /// Days first_day .. first_day + days - 1 of the year.
  WeekRun(const Setup& setup, int first_day, int days, const SeasonOptions& options);
  /// First the days' gains and the empty oven, then every task, which several threads may share
  /// out; at last gains and empty ovens may go, all else is still told.
  void prepare();
  void cook(std::size_t task);
  void let_go();
  [[nodiscard]] int first_day() const { return first_day_; }
  [[nodiscard]] std::size_t days() const { return days_; }
  /// Of a day by its place in the week.
  [[nodiscard]] const DayTask& result(std::size_t task, std::size_t day) const {
    return results_[task * days_ + day];
  }
  /// How each day begins; with days_only, of days on which nobody cooks nothing is told.
  [[nodiscard]] std::span<const Midnight> nights() const { return nights_; }
  /// Both until let_go().
  [[nodiscard]] const EmptyDay& empty(std::size_t day) const {
    OVENDAYS_CHECK(day < empty_.size());
    return empty_[day];
  }
  [[nodiscard]] const StretchDays& driven_by() const {
    OVENDAYS_CHECK(drive_ != nullptr);
    return *drive_;
  }
  /// Of all runs of a day.
  [[nodiscard]] AuditTotal audit(std::size_t day) const;

 private:
  [[nodiscard]] int day_index(std::size_t day) const { return first_day_ + static_cast<int>(day); }
  /// Cooks task `t` on `days` at the candidate times from .. to - 1, day by day.
  std::vector<task::CookResult> try_times(std::size_t t,
                                          const std::vector<std::size_t>& days,
                                          std::size_t from,
                                          std::size_t to,
                                          task::Forerunners& forerunners);
  /// Days on which somebody sets out to cook; the others' outcome is settled.
  std::vector<std::size_t> days_to_cook(std::size_t t);
  void cook_in_full(std::size_t t);
  void cook_days_only(std::size_t t);
  /// @param first_time the candidate loading time of cooks.front()
  DayTask tell(std::size_t t,
               std::span<const task::CookResult> cooks,
               std::size_t first_time) const;

  const Setup& setup_;
  int first_day_;
  std::size_t days_;
  const SeasonOptions& options_;
  std::shared_ptr<const StretchDays> drive_;
  std::vector<Midnight> nights_;
  std::vector<EmptyDay> empty_;
  std::vector<AuditTotal> audits_;  ///< the empty oven's days, then every task's
  std::vector<DayTask> results_;    ///< every task's days
};
}  // namespace ovendays::season
