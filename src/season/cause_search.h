// SPDX-License-Identifier: MIT
// Why lost days were lost: each is asked again with one thing taken away. Private to season.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "trials.h"

namespace ovendays::season {

/// Days first_day .. first_day + days - 1 of the year, all tasks. A stage, that is one thing taken
/// away, goes through the whole span before the next, so that enough of its few cooks go side by
/// side.
class CauseSearch {
 public:
  /// @param nights how each day begins, whatever is taken away from it
  /// @param results [task * days + day], outcomes known; lost ones get their cause
  /// @param audits by day; what is run here is added
  CauseSearch(const Setup& setup,
              const SeasonOptions& options,
              int first_day,
              std::span<const Midnight> nights,
              std::span<DayTask> results,
              std::span<AuditTotal> audits);
  /// @throws base::RunError naming the day
  void run();

 private:
  /// A day with something taken away.
  struct Variant {
    DayForcing forcing;
    EmptyDay empty;
  };
  /// Some lost days of one task, and which of them would work.
  struct Share {
    std::size_t task;
    std::vector<std::size_t> days, found;
    std::vector<AuditTotal> audits;  ///< of `days`
  };
  [[nodiscard]] int day_index(std::size_t day) const { return first_day_ + static_cast<int>(day); }
  /// Takes that away; the days that would work get the cause and are lost no more.
  void settle(const Without& without, Cause cause);
  /// By task: which of the lost days would work without that.
  std::vector<std::vector<std::size_t>> work_without(const Without& without);
  void make_variants(const Without& without);
  [[nodiscard]] std::vector<Share> shares() const;
  void ask(Share& share) const;
  /// Which of some of its days work at any of these loading times, ascending.
  std::vector<std::size_t> try_times(Share& share,
                                     const std::vector<std::size_t>& days,
                                     const std::vector<std::size_t>& times,
                                     task::Forerunners& forerunners) const;

  const Setup& setup_;
  const SeasonOptions& options_;
  int first_day_;
  std::size_t days_;
  std::span<const Midnight> nights_;
  std::span<DayTask> results_;
  std::span<AuditTotal> audits_;
  std::vector<std::vector<std::size_t>> lost_;      ///< by task, ascending
  std::vector<std::unique_ptr<Variant>> variants_;  ///< by day, of the present stage
};
}  // namespace ovendays::season
