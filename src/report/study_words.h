// SPDX-License-Identifier: MIT
// Words for the tables of a study.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "study_facts.h"

namespace ovendays::report {

/// "+12", "-3", "-" for none.
std::string signed_count(int count);
/// "12", "3.50".
std::string money_text(double amount);
/// "2.4 years", "at once", "never" where there is no number.
std::string years_text(const std::optional<double>& years);
/// Sum of the prices of an alternative's changes.
double price_of(const results::StoredStudy& study, const results::StudyAlternative& alternative);

/// Places of the alternatives of a kind, from..to-1; the first itself is left out.
struct Places {
  std::size_t from, to;
};
Places places_of(const results::StoredStudy& study, Of of);

/// Combinations by their place in the ranking; where there is one only, it has no number.
class Numbers {
 public:
  explicit Numbers(const results::StoredStudy& study);
  [[nodiscard]] const std::vector<std::size_t>& order() const { return order_; }
  [[nodiscard]] std::string full(std::size_t place) const;
  [[nodiscard]] std::string name(std::size_t place, Names names) const;

 private:
  [[nodiscard]] std::string number_of(std::size_t place) const;
  const results::StoredStudy& study_;
  std::vector<std::size_t> order_;
};
}  // namespace ovendays::report
