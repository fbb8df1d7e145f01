// SPDX-License-Identifier: MIT
#include "ovendays/report/study_report.h"
#include "ovendays/study/change_order.h"
#include "ovendays/study/paired_days.h"
#include "study_tables.h"

namespace ovendays::report {
std::string study_answer(const results::StoredStudy& study) {
  const std::vector<std::size_t> places = study::ranked(study, 0, study.combinations());
  if (places.empty()) {
    return failed_text(study).empty() ? "Nothing has been run yet."
                                      : "No alternative to compare has been run.";
  }
  const auto days = [&study](std::size_t place) {
    return grouped(study::counted_days(study, study.alternatives[place])[12]);
  };
  std::string text;
  if (study.combinations() > 1) {
    const std::size_t best = places.front();
    text = "Best of " + std::to_string(places.size()) + ": " + study.alternatives[best].name +
           ", with " + days(best) + " task-days a year";
    const bool compared = study.alternatives.front().done() && best != 0;
    text += compared ? " (" + study.alternatives.front().name + ": " + days(0) + ")." : ".";
  } else {
    text = "As it is: " + days(0) + " task-days a year.";
  }
  if (study.changes.empty() || !study.alternatives.front().done()) return text;
  const study::BestOrder order = study::best_order(study);
  if (order.changes.empty()) return order.complete ? text + " No change adds a day." : text;
  const results::StudyChange& change = study.changes[static_cast<std::size_t>(order.changes[0])];
  return text + " Change first: " + change.name + ", which gains " + std::to_string(order.gain[0]) +
         " more.";
}

std::string study_table(const results::StoredStudy& study, int width) {
  const std::size_t columns = table_width(width);
  std::string out = paragraph(study.name + ". " + study_answer(study), columns) + "\n";
  const std::string unfinished = unfinished_text(study);
  if (!unfinished.empty()) out += paragraph(unfinished, columns);
  const std::string failed = failed_text(study);
  if (!failed.empty()) {
    constexpr std::size_t kMostShown = 10;
    out += paragraph(failed, columns);
    for (const std::string& line : failures(study, kMostShown)) {
      out += paragraph("- " + line, columns, 2);
    }
  }
  out += paragraph(counting_text(study), columns);
  for (const StudyTable& table : study_tables(study, NameStyle::kNumbers)) {
    if (table.rows.empty() && table.note.empty()) continue;
    out += "\n" + paragraph(table.heading, columns);
    if (!table.rows.empty()) out += text_table(table.heads, table.rows, columns);
    if (!table.note.empty()) out += paragraph(table.note, columns);
  }
  out += "\nAssumptions\n";
  for (const std::string& line : assumptions(study)) out += paragraph("- " + line, columns, 2);
  return out;
}
}  // namespace ovendays::report
