// SPDX-License-Identifier: MIT
// The tables of a study, as rows of texts that the terminal and the page share.
#pragma once

#include <string>
#include <vector>

#include "ovendays/results/study_file.h"
#include "text_table.h"

namespace ovendays::report {

/// A table with its heading and a note below it.
struct StudyTable {
  std::string heading;
  std::vector<std::string> heads;
  std::vector<TextRow> rows;
  std::string note;
};

/// "3 of 27 alternatives have not been run ...", or empty if all have been run.
std::string unfinished_text(const results::StoredStudy& study);
/// "2 of 27 alternatives could not be run and are left out:", or empty if none failed.
std::string failed_text(const results::StoredStudy& study);
/// "'thin': reason" for each alternative that failed, at most `most` of them and then how many
/// more.
std::vector<std::string> failures(const results::StoredStudy& study, std::size_t most);
/// Defines a task-day and names the tasks that do not count.
std::string counting_text(const results::StoredStudy& study);

/// How later tables refer to a combination: by its number in the ranking, or by its full name.
enum class NameStyle { kNumbers, kFull };

/// Days by task of every combination, numbered, most task-days first.
StudyTable ranking(const results::StoredStudy& study);
/// Net gain against the first alternative, by month, of combinations or of single changes.
enum class AlternativeKind { kCombinations, kChanges };
StudyTable differences(const results::StoredStudy& study, AlternativeKind kind, NameStyle style);
/// Each change alone: price, days gained and lost, net days per unit of money, saving, payback.
StudyTable changes_alone(const results::StoredStudy& study);
/// Net gain of each change alone by task; tasks are numbered as in ranking().
StudyTable changes_by_task(const results::StoredStudy& study);
/// The changes in the best order.
StudyTable changes_in_order(const results::StoredStudy& study);
/// Energy and money that every combination saves in a year.
StudyTable savings(const results::StoredStudy& study, NameStyle style);
/// Energy that the kitchen needs for each task.
StudyTable kitchen(const results::StoredStudy& study);
/// Assumptions of the study, one sentence or two each.
std::vector<std::string> assumptions(const results::StoredStudy& study);
/// All tables that apply to this study, in order.
std::vector<StudyTable> study_tables(const results::StoredStudy& study, NameStyle style);
}  // namespace ovendays::report
