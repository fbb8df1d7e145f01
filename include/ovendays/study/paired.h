// SPDX-License-Identifier: MIT
// Alternatives held against one another day by day. Two seasons of one weather year differ by the
// same cloud on the same day, so their difference is far surer than either count.
#pragma once

#include <array>
#include <vector>

#include "ovendays/results/study_file.h"

namespace ovendays::study {

/// By month, 0 January; index 12 is the year.
using Months = std::array<int, 13>;

/// Days cooked. @param alternative that has been run
Months cooked_days(const results::StudyAlternative& alternative, std::size_t task);
/// Sum over the tasks that count: task-days.
Months counted_days(const results::StoredStudy& study,
                    const results::StudyAlternative& alternative);

/// Days on which one cooks and the other does not.
struct PairedDays {
  Months gained{};  ///< cooked by the alternative and not by the first
  Months lost{};    ///< cooked by the first and not by the alternative
  /// What had spoilt the days gained (the first's causes), over the year.
  std::array<int, season::kCauses> gained_from{};

  [[nodiscard]] int net(std::size_t month = 12) const { return gained[month] - lost[month]; }
  PairedDays& operator+=(const PairedDays& other);
};
/// Both have been run, with the same tasks.
PairedDays paired_days(const results::StudyAlternative& first,
                       const results::StudyAlternative& alternative,
                       std::size_t task);
/// Sum over the tasks that count, against the study's first alternative.
PairedDays counted_pairs(const results::StoredStudy& study,
                         const results::StudyAlternative& alternative);

/// Places of the alternatives that have been run and lie in [from, to), most task-days first;
/// equal ones in their order.
std::vector<std::size_t> ranked(const results::StoredStudy& study,
                                std::size_t from,
                                std::size_t to);
}  // namespace ovendays::study
