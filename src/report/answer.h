// SPDX-License-Identifier: MIT
// The finding in a sentence that a cook would say, worked out from the days.
#pragma once

#include <string>
#include <vector>

#include "ovendays/results/results.h"

namespace ovendays::report {

/// How one task stands over the year. A month is good when the task gets done on half of its days
/// or more; a bet holds over the longest run of good months, the year taken as a ring.
struct Bet {
  enum class Kind { kAllYear, kMonths, kLuck, kNever };
  Kind kind = Kind::kNever;
  int first_month = 1;  ///< of the run, 1..12
  int months = 0;       ///< length of the run
  int in_seven = 0;     ///< days in seven of the run, rounded
  int days = 0;         ///< of the year
};
Bet bet_of(const season::TaskCounts& counts);

/// "a good bet on 6 days in 7 from September to April"; "a matter of luck: 12 days of the year".
std::string bet_text(const Bet& bet);

/// "At this spot eggs are a good bet on 6 days in 7 all year; bread loaf is a winter thing, ..."
/// Tasks that stand alike share a clause; three clauses at most: the easiest, the largest of those
/// between, the hardest.
std::string answer(const results::StoredSeason& season,
                   const std::vector<season::TaskCounts>& counts);

/// The name up to its first comma where that still tells the tasks apart.
std::string short_name(const std::vector<std::string>& names, std::size_t task);
}  // namespace ovendays::report
