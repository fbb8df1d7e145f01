// SPDX-License-Identifier: MIT
#include "html.h"
#include "ovendays/report/study_report.h"
#include "study_pictures.h"
#include "study_tables.h"

namespace ovendays::report {
namespace {
// On a telephone, pictures and tables scroll sideways instead of shrinking, so they stay readable.
constexpr const char* kStudyStyle =
    ".wide{overflow-x:auto}.wide table{border-collapse:collapse;width:100%;"
    "font-variant-numeric:tabular-nums}\n"
    ".wide th,.wide td{padding:.3rem .45rem;text-align:right}\n"
    ".wide td:first-child{text-align:left;min-width:11rem}\n"
    ".wide tbody tr{border-top:1px solid var(--line);break-inside:avoid}\n"
    "@media screen and (max-width:44rem){figure{overflow-x:auto}figure svg{min-width:38rem}}\n";

void put_table_row(Html& page, const char* cell, const std::string& name, const TextRow& row) {
  page.raw("<tr>");
  page.element(cell, name);
  for (const std::string& text : row.cells) page.element(cell, text);
  page.raw("</tr>");
}

void put_table(Html& page, const StudyTable& table) {
  if (table.rows.empty() && table.note.empty()) return;
  page.element("h2", table.heading);
  if (!table.rows.empty()) {
    page.raw("<div class=\"wide\"><table>\n<thead>");
    put_table_row(page, "th", "", {"", table.heads});
    page.raw("</thead>\n<tbody>");
    for (const TextRow& row : table.rows) put_table_row(page, "td", row.name, row);
    page.raw("</tbody>\n</table></div>");
  }
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
  const std::string failed = failed_text(study);
  if (!failed.empty()) {
    constexpr std::size_t kMostListed = 100;
    page.element("p", failed);
    page.list(failures(study, kMostListed));
  }
  page.element("p class=\"soft\"", counting_text(study));
  put_pictures(page, study);
  for (const StudyTable& table : study_tables(study, NameStyle::kFull)) put_table(page, table);
  page.element("h2", "Assumptions");
  page.list(assumptions(study));
  page.element("p class=\"soft\"", "Simulated by ovendays " + study.program_version + ".");
  return whole_page({study.name, page.take(), kStudyStyle});
}
}  // namespace ovendays::report
