// SPDX-License-Identifier: MIT
// In which order to make changes: always the one that brings most for its price, given those
// already made.
#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "ovendays/results/study_file.h"

namespace ovendays::study {

/// Task-days with these changes made (ascending places); nothing where that is not known.
using DaysOf = std::function<std::optional<int>(const std::vector<int>& changes)>;

struct BestOrder {
  std::vector<int> changes;   ///< in the order to be made
  std::vector<int> days;      ///< task-days after each
  std::vector<int> gain;      ///< that each adds to those before
  std::vector<int> excluded;  ///< left out, since one that was chosen touches the same thing
  bool complete = true;       ///< false: a count that was needed is not known
};

/// Greedy: of the changes left, the largest gain per price, then the largest gain, then the
/// cheapest, then the first told. What costs nothing comes before all that costs. Ends where no
/// change that is left adds a day. For gains that add up this order is the best for every budget
/// that ends with a whole step; where changes help or hinder each other it need not be.
BestOrder best_order(const std::vector<results::StudyChange>& changes, const DaysOf& days_of);

/// The same from what a study holds; it is complete where all that it asks for has been run.
BestOrder best_order(const results::StoredStudy& study);

/// The alternative with exactly these changes to the first combination; null where there is none.
const results::StudyAlternative* with_changes(const results::StoredStudy& study,
                                              const std::vector<int>& changes);
}  // namespace ovendays::study
