// SPDX-License-Identifier: MIT
#include "study_tables.h"

#include <algorithm>

#include "ovendays/base/calendar.h"
#include "ovendays/study/paired_days.h"
#include "study_words.h"

namespace ovendays::report {
namespace {
using results::StoredStudy;
using results::StudyAlternative;
using study::PairedDays;

std::string count_or_dash(int count) { return count == 0 ? "-" : std::to_string(count); }

int counting_tasks(const StoredStudy& study) {
  return static_cast<int>(std::count_if(
      study.tasks.begin(), study.tasks.end(), [](const auto& task) { return task.counts; }));
}
}  // namespace

std::string unfinished_text(const StoredStudy& study) {
  const auto& all = study.alternatives;
  const auto missing =
      std::count_if(all.begin(), all.end(), [](const auto& a) { return !a.done() && !a.failed(); });
  if (missing == 0) return "";
  return std::to_string(missing) + " of " + std::to_string(all.size()) +
         " alternatives have not been run and are left out.";
}

std::string failed_text(const StoredStudy& study) {
  const auto& all = study.alternatives;
  const auto count =
      std::count_if(all.begin(), all.end(), [](const auto& a) { return a.failed(); });
  if (count == 0) return "";
  return std::to_string(count) + " of " + std::to_string(all.size()) +
         " alternatives could not be " + "run and " + (count == 1 ? "is" : "are") + " left out:";
}

std::vector<std::string> failures(const StoredStudy& study, std::size_t most) {
  std::vector<std::string> lines;
  std::size_t more = 0;
  for (const StudyAlternative& each : study.alternatives) {
    if (!each.failed()) continue;
    if (lines.size() < most) {
      lines.push_back("'" + each.name + "': " + each.failure);
    } else {
      ++more;
    }
  }
  if (more > 0) lines.push_back("and " + std::to_string(more) + " more");
  return lines;
}

std::string counting_text(const StoredStudy& study) {
  const int counting = counting_tasks(study);
  std::string text = "A task-day is one task done on one day; " + std::to_string(counting) +
                     (counting == 1 ? " task counts" : " tasks count") + ", so a year has " +
                     grouped(counting * season::kDays) + ".";
  std::string others;
  for (const results::StudyTask& task : study.tasks) {
    if (!task.counts) others += (others.empty() ? "" : ", ") + task.name;
  }
  return others.empty() ? text : text + " Not counted: " + others + ".";
}

// Without results of the first alternative there is nothing to compare with, so "?" is shown.
StudyTable ranking(const StoredStudy& study) {
  StudyTable table;
  table.heading = "Days a year on which each task gets done, most first";
  for (std::size_t t = 0; t < study.tasks.size(); ++t) {
    table.heads.push_back(std::to_string(t + 1));
    table.note += (t == 0 ? "" : "; ") + std::to_string(t + 1) + ": " + study.tasks[t].name;
  }
  table.note += ". gained: task-days on which the alternative succeeds and the first ('" +
                study.alternatives.front().name + "') fails; lost: the reverse.";
  table.heads.insert(table.heads.end(), {"all", "gained", "lost"});
  const RankNumbers numbers(study);
  for (const std::size_t place : numbers.order()) {
    const StudyAlternative& each = study.alternatives[place];
    TextRow row{numbers.full(place), {}};
    for (std::size_t t = 0; t < study.tasks.size(); ++t) {
      row.cells.push_back(count_or_dash(study::cooked_days(each, t)[12]));
    }
    row.cells.push_back(count_or_dash(study::counted_days(study, each)[12]));
    if (!study.alternatives.front().done()) {
      row.cells.insert(row.cells.end(), {"?", "?"});
    } else {
      const PairedDays paired = study::counted_pairs(study, each);
      row.cells.push_back(signed_count(paired.gained[12]));
      row.cells.push_back(signed_count(-paired.lost[12]));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

StudyTable differences(const StoredStudy& study, AlternativeKind kind, NameStyle style) {
  StudyTable table;
  table.heading = kind == AlternativeKind::kCombinations
                      ? std::string("Task-days more or fewer than the first, and in which months") +
                            (style == NameStyle::kNumbers ? " (numbers as above)" : "")
                      : "Task-days that each change gains, and in which months";
  for (int month = 1; month <= 12; ++month) table.heads.emplace_back(base::month_name(month));
  table.heads.emplace_back("year");
  if (study.draws > 0) table.heads.emplace_back("likely");
  table.note = range_note(study);
  const RankNumbers numbers(study);
  const IndexRange places = range_of(study, kind);
  for (const std::size_t place : study::ranked(study, places.from, places.to)) {
    const StudyAlternative& each = study.alternatives[place];
    const PairedDays paired = study::counted_pairs(study, each);
    TextRow row{numbers.name(place, style), {}};
    for (std::size_t month = 0; month < 13; ++month) {
      row.cells.push_back(signed_count(paired.net(month)));
    }
    if (study.draws > 0) {
      row.cells.push_back(range_text(study::net_range(study, study.alternatives.front(), each)));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

// Tables that compare need the first alternative; those about money need a tariff.
std::vector<StudyTable> study_tables(const StoredStudy& study, NameStyle style) {
  std::vector<StudyTable> tables = {ranking(study)};
  const bool first_done = study.alternatives.front().done();
  if (first_done && study.combinations() > 1) {
    tables.push_back(differences(study, AlternativeKind::kCombinations, style));
  }
  if (first_done && !study.changes.empty()) {
    tables.push_back(changes_alone(study));
    tables.push_back(changes_by_task(study));
    tables.push_back(differences(study, AlternativeKind::kChanges, style));
    tables.push_back(changes_in_order(study));
  }
  if (study.tariff_per_J > 0.0) {
    tables.push_back(savings(study, style));
    tables.push_back(kitchen(study));
  }
  return tables;
}
}  // namespace ovendays::report
