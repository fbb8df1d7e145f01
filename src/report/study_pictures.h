// SPDX-License-Identifier: MIT
// The pictures of a study. Some do not apply to every study (one site, no changes); see
// study_picture_names().
#pragma once

#include "drawing.h"
#include "ovendays/results/study_file.h"

namespace ovendays::report {
/// Days a year by alternative (rows, most task-days first) and task (columns).
Drawing tasks_picture(const results::StoredStudy& study);
/// Days of one task by alternative (rows, in the same order) and month (columns).
Drawing alternative_months_picture(const results::StoredStudy& study, std::size_t task);
/// Task-days by oven and spot (rows) and site (columns), for the first routine.
Drawing climates_picture(const results::StoredStudy& study);
/// Days that each change alone gains and loses, and the steps of the best order.
Drawing changes_picture(const results::StoredStudy& study);

struct StudyPicture {
  const char* name;
  const char* what;
  bool of_task;
  bool (*has)(const results::StoredStudy& study);
  Drawing (*draw)(const results::StoredStudy& study, std::size_t task);
  std::string (*title)(const results::StoredStudy& study, std::size_t task);
};
const std::vector<StudyPicture>& study_pictures();
}  // namespace ovendays::report
