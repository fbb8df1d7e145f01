// SPDX-License-Identifier: MIT
// Planning around the weather: the chance that one of the next days works, and the longest wait.
// Both are counted over the days of one year in their order, with the year taken as a ring, so that
// good and bad days come in the same spells as in the weather file.
//
// Limits: another year has other spells, and the months of a typical year come from different
// years, so spells across the end of a month are accidental. Thread-safe: yes.
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "ovendays/season/season.h"

namespace ovendays::study {

inline constexpr std::size_t kMostDaysAhead = 7;

struct WaitingTimes {
  /// chance[m][k - 1]: for month m (0..11; 12 is the year), the share of days on which at least one
  /// of k consecutive days works that begin with that day, 0..1.
  std::array<std::array<double, kMostDaysAhead>, 13> chance{};
  /// Longest wait that begins on a day of the month [days]: 0 if every day works, 365 if no day of
  /// the year does. Index 12 is the longest of the year.
  std::array<int, 13> longest_days{};
  int longest_from_day = -1;  ///< day index 0..364 on which the longest wait begins; -1 if none
};

/// Counts the waits of one task. @param works 365 values, one for each day
WaitingTimes waiting_times(const std::vector<bool>& works);

/// Whether a task is cooked on each day of a season, 365 values.
std::vector<bool> days_cooked(const season::SeasonResult& result, std::size_t task);
}  // namespace ovendays::study
