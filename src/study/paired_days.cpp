// SPDX-License-Identifier: MIT
#include "ovendays/study/paired_days.h"

#include <algorithm>

#include "ovendays/base/calendar.h"

namespace ovendays::study {
namespace {
using results::StoredStudy;
using results::StudyAlternative;

std::size_t month_of(int day_index) {
  return static_cast<std::size_t>(base::date_from_day_index_365(day_index).month - 1);
}

bool cooks(const StudyAlternative& alternative, std::size_t task, int day) {
  return alternative.day(task, day).outcome == season::Outcome::kCooked;
}

// Adds a day to its month and to the year.
void count_in(Months& months, int day) {
  ++months[month_of(day)];
  ++months[12];
}
}  // namespace

Months cooked_days(const StudyAlternative& alternative, std::size_t task) {
  Months months{};
  for (int day = 0; day < season::kDays; ++day) {
    if (cooks(alternative, task, day)) count_in(months, day);
  }
  return months;
}

Months counted_days(const StoredStudy& study, const StudyAlternative& alternative) {
  Months sum{};
  for (std::size_t task = 0; task < study.tasks.size(); ++task) {
    if (!study.tasks[task].counts) continue;
    const Months one = cooked_days(alternative, task);
    for (std::size_t month = 0; month < sum.size(); ++month) sum[month] += one[month];
  }
  return sum;
}

PairedDays& PairedDays::operator+=(const PairedDays& other) {
  for (std::size_t month = 0; month < gained.size(); ++month) {
    gained[month] += other.gained[month];
    lost[month] += other.lost[month];
  }
  for (std::size_t cause = 0; cause < gained_from.size(); ++cause) {
    gained_from[cause] += other.gained_from[cause];
  }
  return *this;
}

PairedDays paired_days(const StudyAlternative& first,
                       const StudyAlternative& alternative,
                       std::size_t task) {
  PairedDays paired;
  for (int day = 0; day < season::kDays; ++day) {
    const bool before = cooks(first, task, day);
    const bool now = cooks(alternative, task, day);
    if (now && !before) {
      count_in(paired.gained, day);
      ++paired.gained_from[static_cast<std::size_t>(first.day(task, day).cause)];
    }
    if (before && !now) count_in(paired.lost, day);
  }
  return paired;
}

PairedDays counted_pairs(const StoredStudy& study, const StudyAlternative& alternative) {
  PairedDays sum;
  for (std::size_t task = 0; task < study.tasks.size(); ++task) {
    if (study.tasks[task].counts) {
      sum += paired_days(study.alternatives.front(), alternative, task);
    }
  }
  return sum;
}

// Counts are computed once for each alternative, because the comparison of a sort calls them often.
std::vector<std::size_t> ranked(const StoredStudy& study, std::size_t from, std::size_t to) {
  std::vector<std::size_t> places;
  std::vector<int> days(study.alternatives.size());
  for (std::size_t i = from; i < to; ++i) {
    if (!study.alternatives[i].done()) continue;
    days[i] = counted_days(study, study.alternatives[i])[12];
    places.push_back(i);
  }
  std::stable_sort(places.begin(), places.end(), [&days](std::size_t a, std::size_t b) {
    return days[a] > days[b];
  });
  return places;
}
}  // namespace ovendays::study
