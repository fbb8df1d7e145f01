// SPDX-License-Identifier: MIT
// The order in which to make changes: at each step the one that gains most for its price, given the
// changes already made. Thread-safe: yes.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "ovendays/results/study_file.h"

namespace ovendays::study {

/// Task-days with the given changes made (ascending indices); nullopt where that is unknown.
using DaysOf = std::function<std::optional<int>(const std::vector<int>& changes)>;

struct BestOrder {
  std::vector<int> changes;   ///< indices of the changes, in the order to make them
  std::vector<int> days;      ///< task-days after each step
  std::vector<int> gain;      ///< task-days that each step adds
  std::vector<int> excluded;  ///< changes that conflict with a chosen one
  bool complete = true;       ///< false if a count that was needed is unknown
};

/// Greedy search. At each step it takes the change with the largest gain per price; ties go to the
/// larger gain, then the lower price, then the first in the list. Free changes come first. It stops
/// when no remaining change adds a day. If gains are additive, the order is optimal for every
/// budget that ends with a whole step; if changes help or hinder each other, it need not be.
/// @param changes with price >= 0; @param days_of called with ascending indices
BestOrder best_order(const std::vector<results::StudyChange>& changes, const DaysOf& days_of);

/// The same from the results in a study; complete if every alternative it needs has been run.
BestOrder best_order(const results::StoredStudy& study);

/// The alternative that applies exactly these changes to the first combination, or nullptr.
const results::StudyAlternative* with_changes(const results::StoredStudy& study,
                                              const std::vector<int>& changes);
}  // namespace ovendays::study
