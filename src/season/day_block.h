// SPDX-License-Identifier: MIT
// A block of consecutive days (kDaysPerBlock, 32, of a season): the empty oven on each day, every
// task at every loading time, and the outcomes. The days of a block are run side by side, so that
// the integrator's SIMD lanes stay full. Private to season.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "cooks.h"
#include "ovendays/base/check.h"

namespace ovendays::season {

/// Call prepare() first, then cook() once for each task, then release(). Different tasks may be
/// cooked on different threads at the same time.
class DayBlock {
 public:
  /// The days first_day .. first_day + days - 1 of the year.
  DayBlock(const Setup& setup, int first_day, int days, const SeasonOptions& options);
  /// Makes the forcing of the days and runs the empty oven through them.
  void prepare();
  /// Runs all cooks of a task.
  void cook(std::size_t task);
  /// Frees forcing and empty ovens, which take up most of the memory. Results, midnights and audits
  /// stay.
  void release();

  [[nodiscard]] int first_day() const { return first_day_; }
  [[nodiscard]] std::size_t days() const { return days_; }
  /// @param day index within the block
  [[nodiscard]] const DayTask& result(std::size_t task, std::size_t day) const {
    return results_[task * days_ + day];
  }
  /// State of the empty oven at the start of each day. With SeasonOptions::days_only, entries of
  /// days on which nobody cooks are left at their defaults.
  [[nodiscard]] std::span<const Midnight> midnights() const { return midnights_; }
  /// Available from prepare() to release().
  [[nodiscard]] const EmptyDay& empty(std::size_t day) const {
    OVENDAYS_CHECK(day < empty_.size());
    return empty_[day];
  }
  /// Available from prepare() to release().
  [[nodiscard]] const BlockForcing& forcing() const {
    OVENDAYS_CHECK(forcing_ != nullptr);
    return *forcing_;
  }
  /// Sum over all runs of a day, in a fixed order.
  [[nodiscard]] AuditTotal audit(std::size_t day) const;

 private:
  [[nodiscard]] int day_index(std::size_t day) const { return first_day_ + static_cast<int>(day); }
  /// Cooks task `t` on `days` at the candidate times from .. to - 1; results day by day.
  std::vector<task::CookResult> try_times(std::size_t t,
                                          const std::vector<std::size_t>& days,
                                          std::size_t from,
                                          std::size_t to,
                                          task::DominancePruning& pruning);
  /// Days on which somebody sets out to cook. Marks the others as no-go.
  std::vector<std::size_t> days_to_cook(std::size_t t);
  void cook_all_times(std::size_t t);
  void cook_until_one_works(std::size_t t);
  /// Outcome of a day from its cooks, and the figures of the best of them.
  /// @param first_time index of the loading time of cooks.front()
  DayTask summarise(std::size_t t,
                    std::span<const task::CookResult> cooks,
                    std::size_t first_time) const;

  const Setup& setup_;
  int first_day_;
  std::size_t days_;
  const SeasonOptions& options_;
  std::shared_ptr<const BlockForcing> forcing_;
  std::vector<Midnight> midnights_;
  std::vector<EmptyDay> empty_;
  std::vector<AuditTotal> audits_;  ///< the empty oven's days, then every task's
  std::vector<DayTask> results_;    ///< [task * days + day]
};
}  // namespace ovendays::season
