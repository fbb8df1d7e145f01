// SPDX-License-Identifier: MIT
#include "study_pictures.h"

#include <algorithm>

#include "matrix_picture.h"
#include "ovendays/base/calendar.h"
#include "ovendays/base/check.h"
#include "ovendays/report/study_report.h"
#include "ovendays/study/paired_days.h"
#include "words.h"

namespace ovendays::report {
namespace {
using results::StoredStudy;
using results::StudyAlternative;

// Largest possible number of task-days, at least that of one task to avoid dividing by zero.
double counting_year_days(const StoredStudy& study) {
  const auto counting = std::count_if(
      study.tasks.begin(), study.tasks.end(), [](const auto& task) { return task.counts; });
  return static_cast<double>(std::max<long>(1, counting)) * season::kDays;
}

// Combinations, best first, then the single changes in the order of the study.
std::vector<std::size_t> shown(const StoredStudy& study) {
  std::vector<std::size_t> places = study::ranked(study, 0, study.combinations());
  const std::size_t end = std::min(study.planned(), study.alternatives.size());
  for (std::size_t i = study.combinations(); i < end; ++i) {
    if (study.alternatives[i].done()) places.push_back(i);
  }
  return places;
}

std::string name_of(const StudyAlternative& alternative) {
  return (alternative.changes.empty() ? "" : "with: ") + alternative.name;
}

Matrix with_totals(const StoredStudy& study, const std::string& label) {
  Matrix matrix;
  matrix.label = label;
  matrix.corner = study.combinations() > 1 ? "alternative" : "";
  matrix.total_head = "task-days";
  matrix.least = "no day";
  matrix.most = "every day";
  return matrix;
}

const StudyAlternative* combination(const StoredStudy& study,
                                    const std::array<int, results::kAxes>& at) {
  const std::size_t end = study.combinations();
  for (std::size_t i = 0; i < end; ++i) {
    if (study.alternatives[i].at == at) return &study.alternatives[i];
  }
  return nullptr;
}

// The name of a row leaves out an axis with only one entry.
MatrixRow climate_row(const StoredStudy& study, int spot, int oven) {
  MatrixRow row;
  const auto& axes = study.axes;
  const std::string spot_name = axes[results::kSpot][static_cast<std::size_t>(spot)];
  const std::string oven_name = axes[results::kOven][static_cast<std::size_t>(oven)];
  if (axes[results::kSpot].size() > 1) row.name = spot_name;
  if (axes[results::kOven].size() > 1) row.name += (row.name.empty() ? "" : " / ") + oven_name;
  if (row.name.empty()) row.name = oven_name;
  for (std::size_t site = 0; site < axes[results::kSite].size(); ++site) {
    const StudyAlternative* found = combination(study, {static_cast<int>(site), spot, oven, 0});
    MatrixCell cell{"-", 0.0, row.name + ", " + axes[results::kSite][site] + ": not run"};
    if (found != nullptr && found->failed()) {
      cell.hint = row.name + ", " + axes[results::kSite][site] + ": could not be run";
    }
    if (found != nullptr && found->done()) {
      const int days = study::counted_days(study, *found)[12];
      cell.text = grouped(days);
      cell.share = days / counting_year_days(study);
      cell.hint = row.name + ", " + axes[results::kSite][site] + ": " + grouped(days) +
                  " task-days, " + fixed(100.0 * cell.share, 0) + " % of all";
    }
    row.cells.push_back(std::move(cell));
  }
  return row;
}
}  // namespace

Drawing tasks_picture(const StoredStudy& study) {
  Matrix matrix = with_totals(study, "Days a year on which each task gets done");
  for (const results::StudyTask& task : study.tasks) matrix.columns.push_back(task.name);
  for (const std::size_t place : shown(study)) {
    const StudyAlternative& each = study.alternatives[place];
    MatrixRow row;
    row.name = name_of(each);
    for (std::size_t t = 0; t < study.tasks.size(); ++t) {
      const int days = study::cooked_days(each, t)[12];
      row.cells.push_back({std::to_string(days),
                           static_cast<double>(days) / season::kDays,
                           each.name + ", " + study.tasks[t].name + ": " + days_text(days)});
    }
    const int all = study::counted_days(study, each)[12];
    row.total = grouped(all);
    row.total_share = all / counting_year_days(study);
    matrix.rows.push_back(std::move(row));
  }
  return matrix_picture(matrix);
}

Drawing alternative_months_picture(const StoredStudy& study, std::size_t task) {
  Matrix matrix = with_totals(study, study.tasks[task].name + ", days of each month");
  matrix.total_head = "days";
  for (int month = 1; month <= 12; ++month) matrix.columns.emplace_back(base::month_name(month));
  for (const std::size_t place : shown(study)) {
    const StudyAlternative& each = study.alternatives[place];
    const study::Months days = study::cooked_days(each, task);
    MatrixRow row;
    row.name = name_of(each);
    for (int month = 1; month <= 12; ++month) {
      const int count = days[static_cast<std::size_t>(month - 1)];
      const int of = base::days_in_month(2001, month);
      row.cells.push_back({std::to_string(count),
                           static_cast<double>(count) / of,
                           each.name + ", " + base::month_name(month) + ": " +
                               std::to_string(count) + " of " + days_text(of)});
    }
    row.total = std::to_string(days[12]);
    row.total_share = static_cast<double>(days[12]) / season::kDays;
    matrix.rows.push_back(std::move(row));
  }
  return matrix_picture(matrix);
}

Drawing climates_picture(const StoredStudy& study) {
  Matrix matrix = with_totals(study, "Task-days a year by oven, spot and site");
  matrix.corner = "task-days a year";
  matrix.total_head.clear();
  matrix.columns = study.axes[results::kSite];
  for (int spot = 0; spot < static_cast<int>(study.axes[results::kSpot].size()); ++spot) {
    for (int oven = 0; oven < static_cast<int>(study.axes[results::kOven].size()); ++oven) {
      matrix.rows.push_back(climate_row(study, spot, oven));
    }
  }
  matrix.most = "every task on every day";
  return matrix_picture(matrix);
}

// One table drives the help, the names and the drawing, so that they cannot disagree.
const std::vector<StudyPicture>& study_pictures() {
  static const std::vector<StudyPicture> all = {
      {"tasks",
       "days a year by task and alternative",
       false,
       [](const StoredStudy&) { return true; },
       [](const StoredStudy& s, std::size_t) { return tasks_picture(s); },
       [](const StoredStudy& s, std::size_t) {
         return s.name + ": days a year on which each task gets done";
       }},
      {"climates",
       "task-days by oven, spot and site, where there are several sites",
       false,
       [](const StoredStudy& s) { return s.axes[results::kSite].size() > 1; },
       [](const StoredStudy& s, std::size_t) { return climates_picture(s); },
       [](const StoredStudy& s, std::size_t) {
         return s.name + ": task-days by oven, spot and site";
       }},
      {"changes",
       "what each change gains and in which order to make them, where there are changes",
       false,
       [](const StoredStudy& s) { return !s.changes.empty(); },
       [](const StoredStudy& s, std::size_t) { return changes_picture(s); },
       [](const StoredStudy& s, std::size_t) { return s.name + ": what each change brings"; }},
      {"months",
       "days of each month by alternative, for one task",
       true,
       [](const StoredStudy&) { return true; },
       [](const StoredStudy& s, std::size_t t) { return alternative_months_picture(s, t); },
       [](const StoredStudy& s, std::size_t t) {
         return s.tasks[t].name + ": days of each month on which it gets done";
       }},
  };
  return all;
}

std::vector<PictureName> all_study_picture_names() {
  std::vector<PictureName> names;
  for (const StudyPicture& each : study_pictures()) {
    names.push_back({each.name, each.what, each.of_task});
  }
  return names;
}

std::vector<PictureName> study_picture_names(const StoredStudy& study) {
  std::vector<PictureName> names;
  for (const StudyPicture& each : study_pictures()) {
    if (each.has(study)) names.push_back({each.name, each.what, each.of_task});
  }
  return names;
}

std::string study_picture(const StoredStudy& study, const std::string& name, std::size_t task) {
  OVENDAYS_CHECK(task < study.tasks.size());
  for (const StudyPicture& each : study_pictures()) {
    if (name == each.name) return each.draw(study, task).file(each.title(study, task));
  }
  OVENDAYS_CHECK(false && "a picture of that name");
  return "";
}
}  // namespace ovendays::report
