// SPDX-License-Identifier: MIT
#include <algorithm>

#include "ovendays/study/change_order.h"
#include "ovendays/study/kitchen_saving.h"
#include "ovendays/study/paired_days.h"
#include "season_summary.h"
#include "study_words.h"

namespace ovendays::report {
namespace {
using results::StoredStudy;
using results::StudyAlternative;
using study::PairedDays;

// Net days per unit of money; "-" where a change gains nothing, since a ratio would mislead.
std::string per_money(int days, double price) {
  if (days <= 0) return "-";
  return price > 0.0 ? fixed(days / price, 1) : "free";
}

// Lists for which causes the first alternative had lost the days that a change gains.
std::string causes_text(const PairedDays& paired) {
  std::string text;
  for (const CauseWord& word : cause_words()) {
    const int days = paired.gained_from[static_cast<std::size_t>(word.cause)];
    if (days == 0) continue;
    text += (text.empty() ? "" : ", ") + std::string(word.heading) + " " + std::to_string(days);
  }
  return text;
}

std::string order_note(const StoredStudy& study, const study::BestOrder& order) {
  if (!order.complete) return "Some combinations that the order depends on have not been run.";
  std::string note =
      order.changes.empty()
          ? "No change adds a day."
          : "Each step is the one that gains most for its price at that point; no change that is "
            "left out would add a day.";
  for (const int change : order.excluded) {
    note += " '" + study.changes[static_cast<std::size_t>(change)].name +
            "' cannot be combined with a change chosen before it.";
  }
  const study::MadeIndex index(study);
  for (const int change : order.failed) {
    const StudyAlternative* alone = index.find({change});
    note += " '" + study.changes[static_cast<std::size_t>(change)].name + "' could not be run" +
            (alone != nullptr && alone->failed() ? "." : " with the changes chosen before it.");
  }
  return note;
}
}  // namespace

StudyTable changes_alone(const StoredStudy& study) {
  StudyTable table;
  table.heading = "What to change: each change alone";
  const std::string per = study.money.empty() ? "price" : study.money;
  table.heads = {"price", "gained", "lost", "net"};
  if (study.draws > 0) table.heads.emplace_back("likely");
  table.heads.push_back("net per " + per);
  if (study.tariff_per_J > 0.0)
    table.heads.insert(table.heads.end(), {"saves a year", "paid back"});
  const StudyAlternative& first = study.alternatives.front();
  std::string causes;
  const IndexRange places = range_of(study, AlternativeKind::kChanges);
  for (const std::size_t place : study::ranked(study, places.from, places.to)) {
    const StudyAlternative& each = study.alternatives[place];
    const PairedDays paired = study::counted_pairs(study, each);
    const double price = price_of(study, each);
    TextRow row{each.name,
                {money_text(price),
                 signed_count(paired.gained[12]),
                 signed_count(-paired.lost[12]),
                 signed_count(paired.net())}};
    if (study.draws > 0) row.cells.push_back(range_text(study::net_range(study, first, each)));
    row.cells.push_back(per_money(paired.net(), price));
    if (study.tariff_per_J > 0.0) {
      const double more =
          study::saving_of(study, each).money - study::saving_of(study, first).money;
      row.cells.push_back(fixed(more, 2));
      row.cells.push_back(more > 0.0 ? years_text(study::payback_years(price, more)) : "never");
    }
    table.rows.push_back(std::move(row));
    const std::string spoilt = causes_text(paired);
    if (!spoilt.empty()) causes += (causes.empty() ? "" : "; ") + each.name + ": " + spoilt;
  }
  if (study.causes && !causes.empty()) {
    table.note = "Causes of loss on the days gained: " + causes + ".";
  }
  const std::string likely = range_note(study);
  if (!likely.empty()) table.note = likely + (table.note.empty() ? "" : " ") + table.note;
  return table;
}

StudyTable changes_by_task(const StoredStudy& study) {
  StudyTable table;
  table.heading = "Days a year that each change gains for each task (tasks numbered as above)";
  for (std::size_t t = 0; t < study.tasks.size(); ++t) table.heads.push_back(std::to_string(t + 1));
  const IndexRange places = range_of(study, AlternativeKind::kChanges);
  for (const std::size_t place : study::ranked(study, places.from, places.to)) {
    const StudyAlternative& each = study.alternatives[place];
    TextRow row{each.name, {}};
    for (std::size_t t = 0; t < study.tasks.size(); ++t) {
      row.cells.push_back(
          signed_count(study::paired_days(study.alternatives.front(), each, t).net()));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

StudyTable changes_in_order(const StoredStudy& study) {
  StudyTable table;
  const study::BestOrder order = study::best_order(study);
  table.heading = "What to change first: the best order together";
  table.heads = {"price", "total", "gains"};
  if (study.draws > 0) table.heads.emplace_back("likely");
  table.heads.emplace_back("task-days");
  if (study.tariff_per_J > 0.0) table.heads.emplace_back("paid back");
  double spent = 0.0;
  double saved = study::saving_of(study, study.alternatives.front()).money;
  std::vector<int> made;
  const StudyAlternative* before = &study.alternatives.front();
  for (std::size_t i = 0; i < order.changes.size(); ++i) {
    const results::StudyChange& change = study.changes[static_cast<std::size_t>(order.changes[i])];
    spent += change.price;
    made.insert(std::lower_bound(made.begin(), made.end(), order.changes[i]), order.changes[i]);
    TextRow row{std::to_string(i + 1) + ". " + change.name,
                {money_text(change.price), money_text(spent), signed_count(order.gain[i])}};
    const StudyAlternative* now = study::with_changes(study, made);
    if (study.draws > 0) row.cells.push_back(range_text(study::net_range(study, *before, *now)));
    before = now;
    row.cells.push_back(std::to_string(order.days[i]));
    if (study.tariff_per_J > 0.0) {
      // The payback of a step counts only what the step adds to the savings before it.
      const double saves = study::saving_of(study, *now).money;
      const double more = saves - saved;
      row.cells.push_back(more > 0.0 ? years_text(study::payback_years(change.price, more))
                                     : "never");
      saved = saves;
    }
    table.rows.push_back(std::move(row));
  }
  table.note = order_note(study, order);
  return table;
}
}  // namespace ovendays::report
