// SPDX-License-Identifier: MIT
#include "html.h"
#include "ovendays/report/study_report.h"
#include "study_facts.h"
#include "study_pictures.h"

namespace ovendays::report {
namespace {
// Matrices stay readable on a telephone: they are moved sideways, not shrunk without end.
constexpr const char* kWidePictures =
    "@media screen and (max-width:44rem){figure{overflow-x:auto}figure svg{min-width:38rem}}\n";

void put_table(Html& page, const StudyTable& table) {
  if (table.rows.empty() && table.note.empty()) return;
  page.element("h2", table.heading);
  std::vector<std::string> heads = {""};
  heads.insert(heads.end(), table.heads.begin(), table.heads.end());
  std::vector<std::vector<std::string>> rows;
  for (const TextRow& row : table.rows) {
    rows.push_back({row.name});
    rows.back().insert(rows.back().end(), row.cells.begin(), row.cells.end());
  }
  if (!rows.empty()) page.table(heads, rows);
  if (!table.note.empty()) page.element("p class=\"soft\"", table.note);
}

void put_pictures(Html& page, const results::StoredStudy& study) {
  for (const StudyPicture& picture : study_pictures()) {
    if (!picture.has(study)) continue;
    const std::size_t count = picture.of_task ? study.tasks.size() : 1;
    for (std::size_t task = 0; task < count; ++task) {
      page.figure(picture.title(study, task), picture.draw(study, task), "");
    }
  }
}
}  // namespace

std::string study_page(const results::StoredStudy& study) {
  Html page;
  page.element("h1", study.name);
  page.element("p class=\"answer\"", study_answer(study));
  const std::string unfinished = unfinished_text(study);
  if (!unfinished.empty()) page.element("p", unfinished);
  page.element("p class=\"soft\"", counting_text(study));
  put_pictures(page, study);
  for (const StudyTable& table : study_tables(study, Names::kFull)) put_table(page, table);
  page.element("h2", "Assumed");
  page.list(assumptions(study));
  page.element("p class=\"soft\"", "Simulated by ovendays " + study.program_version + ".");
  return whole_page(study.name, page.take(), kWidePictures);
}
}  // namespace ovendays::report
