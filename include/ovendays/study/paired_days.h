// SPDX-License-Identifier: MIT
// Compares alternatives day by day. Two seasons of one weather year see the same clouds on the same
// days, so their difference is much more certain than either count alone. Thread-safe: yes.
#pragma once

#include <array>
#include <vector>

#include "ovendays/results/study_file.h"

namespace ovendays::study {

/// Counts by month: index 0 is January, index 12 the year.
using Months = std::array<int, 13>;

/// Days on which a task is cooked. @param alternative must have been run
Months cooked_days(const results::StudyAlternative& alternative, std::size_t task);
/// Task-days: days cooked, summed over the tasks that count.
Months counted_days(const results::StoredStudy& study,
                    const results::StudyAlternative& alternative);

/// Days on which exactly one of two alternatives cooks.
struct PairedDays {
  Months gained{};  ///< cooked by the alternative but not by the first
  Months lost{};    ///< cooked by the first but not by the alternative
  /// Days gained in the year, by the cause for which the first had lost them.
  std::array<int, season::kCauses> gained_from{};

  [[nodiscard]] int net(std::size_t month = 12) const { return gained[month] - lost[month]; }
  PairedDays& operator+=(const PairedDays& other);
};
/// Compares two alternatives for one task. Both must have been run.
PairedDays paired_days(const results::StudyAlternative& first,
                       const results::StudyAlternative& alternative,
                       std::size_t task);
/// Compares with the first alternative of the study, summed over the tasks that count.
PairedDays counted_pairs(const results::StoredStudy& study,
                         const results::StudyAlternative& alternative);

/// Indices in [from, to) of the alternatives that have been run, most task-days first; ties keep
/// the order of the study.
std::vector<std::size_t> ranked(const results::StoredStudy& study,
                                std::size_t from,
                                std::size_t to);
}  // namespace ovendays::study
