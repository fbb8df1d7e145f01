// SPDX-License-Identifier: MIT
// Reports of a study: tables, CSV, pictures and a page. All are made from results::StoredStudy, so
// that the report of a saved file equals that of a fresh run. Alternatives that have not been run
// are left out and counted. Nothing here prints or writes files. Thread-safe: yes.
#pragma once

#include <string>
#include <vector>

#include "ovendays/report/report.h"
#include "ovendays/results/study_file.h"

namespace ovendays::report {

/// The result in a sentence or two: the best alternative, and the change to make first.
std::string study_answer(const results::StoredStudy& study);

/// The tables for a terminal: days by task of each alternative, most task-days first; gains and
/// losses against the first alternative, by month; changes alone and in the best order, with prices
/// and the causes of loss on the days they gain; savings against the kitchen; all assumptions.
/// @param width columns of the terminal, at least 72
std::string study_table(const results::StoredStudy& study, int width);

/// CSV with one row for each alternative and task (RFC 4180 with '\n' line ends) and a header row.
/// Columns: alternative, site, spot, oven, routine, changes, price, task, counts, days, gained,
/// lost (paired with the first alternative), days_01 .. days_12, net_01 .. net_12. Alternatives
/// that have not been run are left out.
std::string study_csv(const results::StoredStudy& study);

/// The pictures that apply to this study: "tasks" (by task and alternative), "months" (by month and
/// alternative, for one task), "climates" (by oven, spot and site; needs several sites), "changes"
/// (needs changes).
std::vector<PictureName> study_picture_names(const results::StoredStudy& study);
/// The pictures that any study may have, for the help text.
std::vector<PictureName> all_study_picture_names();

/// One picture as a self-contained SVG 1.1 file that follows the reader's light or dark mode.
/// @param name one of study_picture_names(); @param task for pictures that show one task
std::string study_picture(const results::StoredStudy& study,
                          const std::string& name,
                          std::size_t task);

/// A self-contained HTML page without scripts: the answer, all pictures, tables and assumptions.
std::string study_page(const results::StoredStudy& study);
}  // namespace ovendays::report
