// SPDX-License-Identifier: MIT
// Runs the cooks of one task on some days and loading times. A cook is one load of one task on one
// day: PlannedCook says which, task::CookSetup is what the heat model needs to run it, and
// task::CookResult is what became of it. Private to season.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "empty_days.h"
#include "ovendays/task/cook.h"

namespace ovendays::season {

/// A cook to be run. The forcing and the empty oven are those of the day, perhaps with one
/// adversity removed (see Without); a preheated oven is the empty one until it is loaded.
struct PlannedCook {
  int day_index;
  const DayForcing* forcing;
  const EmptyDay* empty;
  std::size_t time;  ///< index into Setup::load_times_s
};

task::CookSetup cook_setup(const Setup& setup, const PlannedCook& cook, std::size_t task);

/// Runs cooks of one task side by side; results in the same order.
/// @param pruning of this task and these days; pass the same object for all rounds of loading times
/// @throws base::RunError naming task and day
std::vector<task::CookResult> run_planned_cooks(const Setup& setup,
                                                std::size_t task,
                                                std::span<const PlannedCook> cooks,
                                                const SeasonOptions& options,
                                                task::DominancePruning& pruning);

/// Number of candidate loading times before the hour at which the task must be done.
std::size_t usable_times(const Setup& setup, std::size_t task);

/// Splits the candidate loading times into rounds [from, to) for searches that stop at the first
/// time that works. The later half of the morning comes first, because that is where a time works
/// most often.
/// @param one_first the first round is a single loading time; use it where any time that works will
/// do
std::array<std::array<std::size_t, 2>, 4> rounds_of(std::size_t times, bool one_first);

/// True where the food got done and met its danger rule.
inline bool works(const task::CookResult& cook) { return cook.done && cook.safe; }

/// Removes from `days` those that are in `found`; both are ascending.
void remove_days(std::vector<std::size_t>& days, const std::vector<std::size_t>& found);
}  // namespace ovendays::season
