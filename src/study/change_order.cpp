// SPDX-License-Identifier: MIT
#include "ovendays/study/change_order.h"

#include <algorithm>

#include "ovendays/study/paired_days.h"

namespace ovendays::study {
namespace {
using results::StudyChange;

// Whether a change conflicts with one that was already chosen.
bool excluded_by(const StudyChange& change, const std::vector<int>& chosen) {
  return std::any_of(chosen.begin(), chosen.end(), [&change](int other) {
    return std::binary_search(change.excludes.begin(), change.excludes.end(), other);
  });
}

// The best change found so far in one step of the search.
struct Candidate {
  int change = -1;
  int gain = 0;
  double price = 0.0;
};

// Compares gain / price by cross-multiplication, so that a price of zero is no special case.
bool better(const Candidate& a, const Candidate& b) {
  const double left = a.gain * b.price;
  const double right = b.gain * a.price;
  if (left != right) return left > right;
  if (a.gain != b.gain) return a.gain > b.gain;
  return a.price < b.price;
}

// Inserts a change so that the list stays ascending: alternatives are identified by ascending
// lists.
std::vector<int> with(std::vector<int> changes, int one) {
  changes.insert(std::lower_bound(changes.begin(), changes.end(), one), one);
  return changes;
}
}  // namespace

BestOrder best_order(const std::vector<StudyChange>& changes, const DaysOf& days_of) {
  BestOrder order;
  std::vector<int> made;  // ascending
  std::vector<bool> failed(changes.size(), false);
  std::optional<int> now = days_of(made).days;
  order.complete = now.has_value();
  while (order.complete) {
    Candidate best;
    // Ask for every candidate even if one count is missing: days_of may run alternatives, and all
    // of this step's should be requested in a fixed order.
    for (int i = 0; i < static_cast<int>(changes.size()); ++i) {
      const StudyChange& change = changes[static_cast<std::size_t>(i)];
      if (std::binary_search(made.begin(), made.end(), i) || excluded_by(change, made)) continue;
      if (failed[static_cast<std::size_t>(i)]) continue;
      const DayCount count = days_of(with(made, i));
      if (count.failed) {
        failed[static_cast<std::size_t>(i)] = true;
        continue;
      }
      const std::optional<int> days = count.days;
      if (!days) order.complete = false;
      const Candidate one{i, days.value_or(0) - *now, change.price};
      if (days && one.gain > 0 && (best.change < 0 || better(one, best))) best = one;
    }
    // Stop as soon as one count is missing, since a wrong choice here would mislead all later
    // steps.
    if (!order.complete || best.change < 0) break;
    made = with(std::move(made), best.change);
    *now += best.gain;
    order.changes.push_back(best.change);
    order.gain.push_back(best.gain);
    order.days.push_back(*now);
  }
  for (int i = 0; i < static_cast<int>(changes.size()); ++i) {
    const bool chosen = std::binary_search(made.begin(), made.end(), i);
    if (failed[static_cast<std::size_t>(i)]) {
      order.failed.push_back(i);
    } else if (!chosen && excluded_by(changes[static_cast<std::size_t>(i)], made)) {
      order.excluded.push_back(i);
    }
  }
  return order;
}

const results::StudyAlternative* with_changes(const results::StoredStudy& study,
                                              const std::vector<int>& changes) {
  return MadeIndex(study).find(changes);
}

BestOrder best_order(const results::StoredStudy& study) {
  const MadeIndex index(study);
  return best_order(study.changes, [&](const std::vector<int>& made) {
    const results::StudyAlternative* found = index.find(made);
    return found == nullptr ? DayCount(std::nullopt) : day_count(study, *found);
  });
}

DayCount day_count(const results::StoredStudy& study, const results::StudyAlternative& each) {
  if (each.failed()) return DayCount::failure();
  if (!each.done()) return DayCount(std::nullopt);
  return DayCount(counted_days(study, each)[12]);
}

MadeIndex::MadeIndex(const results::StoredStudy& study) : study_(study) {
  for (std::size_t i = 0; i < study.alternatives.size(); ++i) add(i);
}

void MadeIndex::add(std::size_t place) {
  places_.emplace(study_.alternatives[place].changes, place);
}

const results::StudyAlternative* MadeIndex::find(const std::vector<int>& changes) const {
  const auto found = places_.find(changes);
  return found == places_.end() ? nullptr : &study_.alternatives[found->second];
}
}  // namespace ovendays::study
