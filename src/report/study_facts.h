// SPDX-License-Identifier: MIT
// What table, page and pictures of a study say alike, as rows of texts.
#pragma once

#include <string>
#include <vector>

#include "ovendays/results/study_file.h"
#include "text_table.h"

namespace ovendays::report {

/// A table with its heading and a word below it.
struct StudyTable {
  std::string heading;
  std::vector<std::string> heads;
  std::vector<TextRow> rows;
  std::string note;
};

/// "3 of 27 alternatives have not been run." or nothing.
std::string unfinished_text(const results::StoredStudy& study);
/// "task-days: of 8 tasks" with those that do not count.
std::string counting_text(const results::StoredStudy& study);

/// How later tables call a combination: by the number it has in the ranking, or in full.
enum class Names { kNumbers, kFull };

/// Days per task of every combination, most task-days first, numbered.
StudyTable ranking(const results::StoredStudy& study);
/// Gains less losses against the first, by month, of combinations or of single changes.
enum class Of { kCombinations, kChanges };
StudyTable differences(const results::StoredStudy& study, Of of, Names names);
/// Each change alone: price, days, days per money, saving, payback.
StudyTable changes_alone(const results::StoredStudy& study);
/// Days more or fewer by task, each change alone; tasks numbered as in ranking().
StudyTable changes_by_task(const results::StoredStudy& study);
/// The best order together.
StudyTable changes_in_order(const results::StoredStudy& study);
/// Energy and money a year of every combination.
StudyTable savings(const results::StoredStudy& study, Names names);
/// The kitchen's energy for each task.
StudyTable kitchen(const results::StoredStudy& study);
/// One a line.
std::vector<std::string> assumptions(const results::StoredStudy& study);
/// All tables above that this study has, in their order.
std::vector<StudyTable> study_tables(const results::StoredStudy& study, Names names);
}  // namespace ovendays::report
