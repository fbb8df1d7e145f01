// SPDX-License-Identifier: MIT
#include "study_words.h"

#include <algorithm>
#include <cmath>

#include "ovendays/study/paired_days.h"

namespace ovendays::report {
using results::StoredStudy;
using results::StudyAlternative;

std::string signed_count(int count) {
  if (count == 0) return "-";
  return (count > 0 ? "+" : "") + std::to_string(count);
}

std::string range_text(const std::optional<study::NetRange>& range) {
  if (!range) return "";
  const auto end = [](double days) {
    const auto count = static_cast<int>(days);
    return count == 0 ? "0" : signed_count(count);
  };
  if (range->low_days == range->high_days) return end(range->low_days);
  return end(range->low_days) + " to " + end(range->high_days) + (range->clear() ? "" : " ?");
}

std::string range_note(const StoredStudy& study) {
  if (study.draws < 1) return "";
  return "likely: where the difference falls for eight of ten ovens, cooks and years like these; "
         "?: it may as well be none.";
}

std::string money_text(double amount) {
  return fixed(amount, amount == std::round(amount) && amount < 1e6 ? 0 : 2);
}

std::string years_text(const std::optional<double>& years) {
  if (!years) return "never";
  if (*years <= 0.0) return "at once";
  return fixed(*years, *years < 10.0 ? 1 : 0) + " years";
}

double price_of(const StoredStudy& study, const StudyAlternative& alternative) {
  double price = 0.0;
  for (const int change : alternative.changes) {
    price += study.changes[static_cast<std::size_t>(change)].price;
  }
  return price;
}

IndexRange range_of(const StoredStudy& study, AlternativeKind kind) {
  if (kind == AlternativeKind::kCombinations) return {1, study.combinations()};
  return {study.combinations(), std::min(study.planned(), study.alternatives.size())};
}

RankNumbers::RankNumbers(const StoredStudy& study)
    : study_(study), order_(study::ranked(study, 0, study.combinations())) {}

std::string RankNumbers::number_of(std::size_t place) const {
  const auto found = std::find(order_.begin(), order_.end(), place);
  if (found == order_.end() || order_.size() < 2) return "";
  return std::to_string(found - order_.begin() + 1);
}

std::string RankNumbers::full(std::size_t place) const {
  const std::string& name = study_.alternatives[place].name;
  const std::string number = number_of(place);
  return number.empty() ? name : number + ". " + name;
}

std::string RankNumbers::name(std::size_t place, NameStyle style) const {
  const std::string number = number_of(place);
  if (number.empty()) return study_.alternatives[place].name;
  return style == NameStyle::kNumbers ? number : full(place);
}
}  // namespace ovendays::report
