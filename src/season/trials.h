// SPDX-License-Identifier: MIT
// Cooks to be tried: which of them, in which order, and the bookkeeping of their runs. Private to
// season.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "empty_days.h"
#include "ovendays/task/cook.h"

namespace ovendays::season {

/// A day to cook on (perhaps with something taken away) and its empty oven, which a preheated one
/// is until loading.
struct CookDay {
  int index;
  const DayForcing* forcing;
  const EmptyDay* empty;
};

/// One cook to be tried: the day and which candidate loading time.
struct Trial {
  CookDay day;
  std::size_t time;
};

task::CookSetup cook_setup(const Setup& setup, const Trial& trial, std::size_t task);

/// Cooks a task at every trial, side by side; results in the same order.
/// @param forerunners of this task and these days, from one call to the next
/// @throws base::RunError naming task and day
std::vector<task::CookResult> cook_trials(const Setup& setup,
                                          std::size_t task,
                                          std::span<const Trial> trials,
                                          const SeasonOptions& options,
                                          task::Forerunners& forerunners);

/// How many of the candidate loading times come before the task must be done.
std::size_t usable_times(const Setup& setup, std::size_t task);

/// Loading times in rounds, from .. to - 1, the morning's later half first: where one time works,
/// it is most often there. Where no more is asked than whether any does, one of them goes ahead.
std::array<std::array<std::size_t, 2>, 4> rounds_of(std::size_t times, bool one_ahead);

/// Done, and within the danger rule.
inline bool works(const task::CookResult& cook) { return cook.done && cook.safe; }

/// Takes out of `days` those that are in `found` (both ascending).
void take_out(std::vector<std::size_t>& days, const std::vector<std::size_t>& found);
}  // namespace ovendays::season
