// SPDX-License-Identifier: MIT
// Finds out why days were lost: each lost day is cooked again with one adversity removed. Private
// to season.
#pragma once

#include <memory>
#include <span>
#include <vector>

#include "cooks.h"

namespace ovendays::season {

/// Works on consecutive days, all tasks. It removes one adversity from all of them before it turns
/// to the next, because a stage has few cooks on any one day and they must fill the integrator's
/// lanes together.
class CauseSearch {
 public:
  /// @param midnights state of the empty oven at the start of each day; the same whatever is
  /// removed from the day
  /// @param results [task * days + day], outcomes known; the lost days get their cause
  /// @param audits by day; the runs of the search are added
  CauseSearch(const Setup& setup,
              const SeasonOptions& options,
              int first_day,
              std::span<const Midnight> midnights,
              std::span<DayTask> results,
              std::span<AuditTotal> audits);
  /// @throws base::RunError naming the day
  void run();

 private:
  /// A day with something removed.
  struct Variant {
    std::vector<DayForcing> forcing;  ///< by aim group; a single one where all notches are allowed
    EmptyDay empty;
    [[nodiscard]] const DayForcing& of_group(std::size_t group) const {
      return forcing[forcing.size() == 1 ? 0 : group];
    }
  };
  /// Some lost days of one task, searched by one thread, and those of them that work now.
  struct Batch {
    std::size_t task;
    std::vector<std::size_t> days, found;
    std::vector<AuditTotal> audits;  ///< of `days`
  };
  [[nodiscard]] int day_index(std::size_t day) const { return first_day_ + static_cast<int>(day); }
  void assign_tilt();
  /// Gives the cause to the lost days that work without the adversity, and strikes them off.
  void assign_cause(const Without& without, Cause cause);
  /// The lost days of each task that work without the adversity.
  std::vector<std::vector<std::size_t>> days_that_work(const Without& without);
  void make_variants(const Without& without);
  void make_forcing(std::size_t day,
                    const Without& without,
                    std::vector<DayForcing>& forcing) const;
  [[nodiscard]] bool is_lost(std::size_t day, std::size_t group) const;
  [[nodiscard]] std::vector<Batch> make_batches() const;
  void search(Batch& batch) const;
  /// Days of a batch that work at one of these loading times, ascending.
  std::vector<std::size_t> try_times(Batch& batch,
                                     const std::vector<std::size_t>& days,
                                     const std::vector<std::size_t>& times,
                                     task::DominancePruning& pruning) const;

  const Setup& setup_;
  const SeasonOptions& options_;
  int first_day_;
  std::size_t days_;
  std::span<const Midnight> midnights_;
  std::span<DayTask> results_;
  std::span<AuditTotal> audits_;
  std::vector<std::vector<std::size_t>> lost_;      ///< by task, ascending
  std::vector<std::unique_ptr<Variant>> variants_;  ///< by day, for the adversity now removed
};
}  // namespace ovendays::season
