// SPDX-License-Identifier: MIT
// A study in tables and pictures. All are made from results::StoredStudy, so that a report from a
// file and one straight from a run are the same; what has not been run is left out and counted.
// Nothing here prints or writes files. Thread-safe: yes, all of it.
#pragma once

#include <string>
#include <vector>

#include "ovendays/report/report.h"
#include "ovendays/results/study_file.h"

namespace ovendays::report {

/// The finding in a sentence or two: the best alternative, and the best first change.
std::string study_answer(const results::StoredStudy& study);

/// The study for a terminal: days per task of each alternative, most task-days first; gains and
/// losses against the first, day by day, with the months in which they arise and what had spoilt
/// the days gained; changes alone and in the best order with their prices; what is saved against
/// the kitchen; every assumption.
/// @param width columns of the terminal; fewer than 72 count as 72
std::string study_table(const results::StoredStudy& study, int width);

/// One row per alternative and task, RFC 4180 but for plain line ends, with a header row. Columns:
/// alternative, site, spot, oven, routine, changes, price, task, counts, days, gained, lost (paired
/// with the first alternative), days_01 .. days_12, net_01 .. net_12. Alternatives that have not
/// been run are left out.
std::string study_csv(const results::StoredStudy& study);

/// The pictures this study has: "tasks" (task by alternative), "months" (month by alternative, of
/// one task), "climates" (oven and spot by site) where there are several sites, "changes" where
/// there are changes.
std::vector<PictureName> study_picture_names(const results::StoredStudy& study);
/// All that any study may have, for the help.
std::vector<PictureName> all_study_picture_names();

/// One of them as SVG 1.1 that needs nothing else and follows the reader's light or dark.
/// @param name of study_picture_names(); @param task for those that are of one task
std::string study_picture(const results::StoredStudy& study,
                          const std::string& name,
                          std::size_t task);

/// A web page that stands alone and needs no script: the answer, every picture, the tables, the
/// assumptions.
std::string study_page(const results::StoredStudy& study);
}  // namespace ovendays::report
