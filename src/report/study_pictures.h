// SPDX-License-Identifier: MIT
// The pictures of a study; those that are not to be made (one site, no changes) are told by
// study_picture_names().
#pragma once

#include "drawing.h"
#include "ovendays/results/study_file.h"

namespace ovendays::report {
/// Days a year: a row an alternative, most task-days first, a column a task.
Drawing tasks_picture(const results::StoredStudy& study);
/// Days of one task: a row an alternative in the same order, a column a month.
Drawing alternative_months_picture(const results::StoredStudy& study, std::size_t task);
/// Task-days: a row an oven at a spot, a column a site; with the first routine.
Drawing climates_picture(const results::StoredStudy& study);
/// Days each change alone gains and loses, and the stairs of the best order together.
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
