// SPDX-License-Identifier: MIT
// The order in which to make changes: at each step the one that gains most for its price, given the
// changes already made. Thread-safe: yes.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <vector>

#include "ovendays/results/study_file.h"

namespace ovendays::study {

/// Task-days with some changes made: a number, unknown, or of a case that cannot be run.
struct DayCount {
  std::optional<int> days;  ///< nullopt: unknown, or failed
  bool failed = false;

  DayCount(std::optional<int> known) : days(known) {}
  static DayCount failure() {
    DayCount count(std::nullopt);
    count.failed = true;
    return count;
  }
};
/// Task-days with the given changes made (ascending indices).
using DaysOf = std::function<DayCount(const std::vector<int>& changes)>;

struct BestOrder {
  std::vector<int> changes;   ///< indices of the changes, in the order to make them
  std::vector<int> days;      ///< task-days after each step
  std::vector<int> gain;      ///< task-days that each step adds
  std::vector<int> excluded;  ///< changes that conflict with a chosen one
  std::vector<int> failed;    ///< changes that could not be run alone or with those chosen then
  bool complete = true;       ///< false if a count that was needed is unknown
};

/// Greedy search. At each step it takes the change with the largest gain per price; ties go to the
/// larger gain, then the lower price, then the first in the list. Free changes come first. It stops
/// when no remaining change adds a day. If gains are additive, the order is optimal for every
/// budget that ends with a whole step; if changes help or hinder each other, it need not be.
/// A change that fails at a step is left out of that step and of all later ones. If nothing can be
/// run without changes, the order is empty and not complete.
/// @param changes with price >= 0 and ascending `excludes`; @param days_of called with ascending
/// indices
BestOrder best_order(const std::vector<results::StudyChange>& changes, const DaysOf& days_of);

/// The same from the results in a study; complete if every alternative it needs has been run.
BestOrder best_order(const results::StoredStudy& study);

/// The task-days of an alternative, as best_order() takes them.
DayCount day_count(const results::StoredStudy& study, const results::StudyAlternative& each);

/// Finds alternatives by the changes that they apply to the first combination. The first
/// combination itself is the one with no changes.
class MadeIndex {
 public:
  /// @param study must outlive this object
  explicit MadeIndex(const results::StoredStudy& study);
  /// Takes in an alternative that was added to the study since.
  void add(std::size_t place);
  /// nullptr where there is none
  [[nodiscard]] const results::StudyAlternative* find(const std::vector<int>& changes) const;

 private:
  const results::StoredStudy& study_;
  std::map<std::vector<int>, std::size_t> places_;
};

/// The alternative that applies exactly these changes to the first combination, or nullptr.
/// Where many are looked up, use MadeIndex.
const results::StudyAlternative* with_changes(const results::StoredStudy& study,
                                              const std::vector<int>& changes);
}  // namespace ovendays::study
