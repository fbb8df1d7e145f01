// SPDX-License-Identifier: MIT
#include "ovendays/report/study_report.h"
#include "ovendays/study/change_order.h"
#include "ovendays/study/draw_gains.h"
#include "ovendays/study/paired_days.h"
#include "study_tables.h"
#include "words.h"

namespace ovendays::report {
namespace {
/// ", likely +4 to +25", and what it means where the range holds zero.
std::string likely_text(const std::optional<study::NetRange>& range) {
  if (!range) return "";
  const auto end = [](double days) { return (days > 0.0 ? "+" : "") + fixed(days, 0); };
  return "; likely " + end(range->low_days) + " to " + end(range->high_days) +
         (range->clear() ? "" : ", so it may make no difference");
}
}  // namespace

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
    const results::StudyAlternative& first = study.alternatives.front();
    const bool compared = first.done() && best != 0;
    if (compared) {
      text += " (" + first.name + ": " + days(0) +
              likely_text(study::net_range(study, first, study.alternatives[best])) + ")";
    }
    text += ".";
  } else {
    text = "As it is: " + days(0) + " task-days a year.";
  }
  if (study.changes.empty() || !study.alternatives.front().done()) return text;
  const study::BestOrder order = study::best_order(study);
  if (order.changes.empty()) return order.complete ? text + " No change adds a day." : text;
  const results::StudyChange& change = study.changes[static_cast<std::size_t>(order.changes[0])];
  const results::StudyAlternative* with_it = study::with_changes(study, {order.changes[0]});
  return text + " Change first: " + change.name + ", which gains " + std::to_string(order.gain[0]) +
         " more" + likely_text(study::net_range(study, study.alternatives.front(), *with_it)) + ".";
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
