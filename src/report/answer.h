// SPDX-License-Identifier: MIT
// The result of a season in one sentence that a cook understands.
#pragma once

#include <string>
#include <vector>

#include "ovendays/results/results.h"

namespace ovendays::report {

/// When a task is a good bet. A month is good if the task gets done on at least half of its days;
/// the bet is the longest run of good months, with the year taken as a ring.
struct Bet {
  enum class Kind { kAllYear, kMonths, kLuck, kNever };
  Kind kind = Kind::kNever;
  int first_month = 1;  ///< first month of the run, 1..12
  int months = 0;       ///< length of the run
  int in_seven = 0;     ///< days in seven on which it gets done during the run, rounded
  int days = 0;         ///< days of the year on which it gets done
};
Bet bet_of(const season::TaskCounts& counts);

/// The bet in words: "a good bet on 6 days in 7 from September to April".
std::string bet_text(const Bet& bet);

/// "At this spot eggs are a good bet on 6 days in 7 all year; bread loaf is a winter thing, ..."
/// Tasks with the same bet share a clause. At most three clauses are used: the easiest group, the
/// largest group in between, and the hardest.
std::string answer(const results::StoredSeason& season,
                   const std::vector<season::TaskCounts>& counts);

/// The name of a task up to its first comma, if that is unique among the tasks.
std::string short_name(const std::vector<std::string>& names, std::size_t task);
}  // namespace ovendays::report
