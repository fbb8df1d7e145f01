// SPDX-License-Identifier: MIT
// Numbers and names as the tables of a study print them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ovendays/study/draw_gains.h"
#include "study_tables.h"

namespace ovendays::report {

/// "+12", "-3", or "-" for zero.
std::string signed_count(int count);
/// "+4 to +25", "-2 to +13 ?" where the range holds zero; empty where there is none.
std::string range_text(const std::optional<study::NetRange>& range);
/// What the marks of range_text mean; empty where the study has no draws.
std::string range_note(const results::StoredStudy& study);
/// "12", "3.50".
std::string money_text(double amount);
/// "2.4 years", "at once" for zero, "never" for nullopt.
std::string years_text(const std::optional<double>& years);
/// Sum of the prices of an alternative's changes.
double price_of(const results::StoredStudy& study, const results::StudyAlternative& alternative);

/// The indices [from, to) of the alternatives of one kind, without the first alternative.
struct IndexRange {
  std::size_t from, to;
};
IndexRange range_of(const results::StoredStudy& study, AlternativeKind kind);

/// Numbers the combinations by their rank. A single combination has no number.
class RankNumbers {
 public:
  explicit RankNumbers(const results::StoredStudy& study);
  [[nodiscard]] const std::vector<std::size_t>& order() const { return order_; }
  [[nodiscard]] std::string full(std::size_t place) const;
  [[nodiscard]] std::string name(std::size_t place, NameStyle style) const;

 private:
  [[nodiscard]] std::string number_of(std::size_t place) const;
  const results::StoredStudy& study_;
  std::vector<std::size_t> order_;
};
}  // namespace ovendays::report
