// SPDX-License-Identifier: MIT
// Planning around the weather: how likely is it that one of the next days works, and how long can
// the wait become. Counted over the days of one year in their own order, the year taken as a ring,
// so that the way fair and foul days come in spells is kept as the weather file has it.
//
// What that leaves out: another year has other spells, and a typical year's months stem from
// different years, so that a spell does not run on over the end of a month as it would in life.
// Thread-safe: yes.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "ovendays/season/season.h"

namespace ovendays::study {

inline constexpr std::size_t kMostDaysAhead = 7;

struct Waits {
  /// chance[m][k - 1]: share of the days of month m (0 January .. 11; 12 the year) from which at
  /// least one of k days in a row works, that day being the first, 0..1.
  std::array<std::array<double, kMostDaysAhead>, 13> chance{};
  /// Longest wait that begins on a day of the month, in days: 0 where every day works, 365 where
  /// none of the year does. Index 12: the longest of the year.
  std::array<int, 13> longest_days{};
  int longest_from_day = -1;  ///< day index 0..364 on which the year's longest begins; -1 none
};

/// @param works 365 values, day by day
Waits waits_of(const std::vector<bool>& works);

/// Which days a task is cooked on, 365 values.
std::vector<bool> days_cooked(const season::SeasonResult& result, std::size_t task);
}  // namespace ovendays::study
