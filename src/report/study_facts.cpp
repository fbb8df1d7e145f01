// SPDX-License-Identifier: MIT
#include "study_facts.h"

#include <algorithm>
#include <cmath>

#include "facts.h"
#include "ovendays/base/calendar.h"
#include "ovendays/study/order.h"
#include "ovendays/study/paired.h"
#include "ovendays/study/saving.h"

namespace ovendays::report {
namespace {
using results::StoredStudy;
using results::StudyAlternative;
using study::PairedDays;

constexpr double kJoulePerKWh = 3.6e6;

std::string signed_count(int count) {
  if (count == 0) return "-";
  return (count > 0 ? "+" : "") + std::to_string(count);
}

std::string count_or_dash(int count) { return count == 0 ? "-" : std::to_string(count); }

std::string money_text(double amount) {
  return fixed(amount, amount == std::round(amount) && amount < 1e6 ? 0 : 2);
}

std::string money_head(const StoredStudy& study, const std::string& before) {
  return study.money.empty() ? before : before + " " + study.money;
}

// "after 2.4 years", with a word where there is no number.
std::string years_text(const std::optional<double>& years) {
  if (!years) return "never";
  if (*years <= 0.0) return "at once";
  return fixed(*years, *years < 10.0 ? 1 : 0) + " years";
}

std::string per_money(int days, double price) {
  if (days <= 0) return "-";
  return price > 0.0 ? fixed(days / price, 1) : "free";
}

double price_of(const StoredStudy& study, const StudyAlternative& alternative) {
  double price = 0.0;
  for (const int change : alternative.changes) {
    price += study.changes[static_cast<std::size_t>(change)].price;
  }
  return price;
}

std::string causes_text(const PairedDays& paired) {
  std::string text;
  for (const CauseWord& word : cause_words()) {
    const int days = paired.gained_from[static_cast<std::size_t>(word.cause)];
    if (days == 0) continue;
    text += (text.empty() ? "" : ", ") + std::string(word.heading) + " " + std::to_string(days);
  }
  return text;
}

std::size_t first_of(const StoredStudy& study, Of of) {
  return of == Of::kCombinations ? 1 : study.combinations();
}
std::size_t end_of(const StoredStudy& study, Of of) {
  return of == Of::kCombinations ? study.combinations()
                                 : std::min(study.planned(), study.alternatives.size());
}

int counting_tasks(const StoredStudy& study) {
  return static_cast<int>(std::count_if(
      study.tasks.begin(), study.tasks.end(), [](const auto& task) { return task.counts; }));
}
}  // namespace

std::string unfinished_text(const StoredStudy& study) {
  const auto& all = study.alternatives;
  const auto missing =
      std::count_if(all.begin(), all.end(), [](const auto& a) { return !a.done(); });
  if (missing == 0) return "";
  return std::to_string(missing) + " of " + std::to_string(all.size()) +
         " alternatives have not been run and are left out.";
}

std::string counting_text(const StoredStudy& study) {
  const int counting = counting_tasks(study);
  std::string text = "A task-day is one task done on one day; " + std::to_string(counting) +
                     (counting == 1 ? " task counts" : " tasks count") + ", so a year has " +
                     grouped(counting * season::kDays) + ".";
  std::string others;
  for (const results::StudyTask& task : study.tasks) {
    if (!task.counts) others += (others.empty() ? "" : ", ") + task.name;
  }
  return others.empty() ? text : text + " Not counted: " + others + ".";
}

StudyTable ranking(const StoredStudy& study) {
  StudyTable table;
  table.heading = "Days a year on which each task gets done, most first";
  for (std::size_t t = 0; t < study.tasks.size(); ++t) {
    table.heads.push_back(std::to_string(t + 1));
    table.note += (t == 0 ? "" : "; ") + std::to_string(t + 1) + ": " + study.tasks[t].name;
  }
  table.note += ". gained, lost: task-days that only it or only the first ('" +
                study.alternatives.front().name + "') has, day by day.";
  table.heads.insert(table.heads.end(), {"all", "gained", "lost"});
  for (const std::size_t place : study::ranked(study, 0, study.combinations())) {
    const StudyAlternative& each = study.alternatives[place];
    TextRow row{each.name, {}};
    for (std::size_t t = 0; t < study.tasks.size(); ++t) {
      row.cells.push_back(count_or_dash(study::cooked_days(each, t)[12]));
    }
    row.cells.push_back(count_or_dash(study::counted_days(study, each)[12]));
    if (!study.alternatives.front().done()) {
      row.cells.insert(row.cells.end(), {"?", "?"});
    } else {
      const PairedDays paired = study::counted_pairs(study, each);
      row.cells.push_back(signed_count(paired.gained[12]));
      row.cells.push_back(signed_count(-paired.lost[12]));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

StudyTable differences(const StoredStudy& study, Of of) {
  StudyTable table;
  table.heading = of == Of::kCombinations
                      ? "Task-days more or fewer than the first, and in which months"
                      : "Task-days each change brings, and in which months";
  for (int month = 1; month <= 12; ++month) table.heads.emplace_back(base::month_name(month));
  table.heads.emplace_back("year");
  for (const std::size_t place : study::ranked(study, first_of(study, of), end_of(study, of))) {
    const PairedDays paired = study::counted_pairs(study, study.alternatives[place]);
    TextRow row{study.alternatives[place].name, {}};
    for (std::size_t month = 0; month < 13; ++month) {
      row.cells.push_back(signed_count(paired.net(month)));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

StudyTable changes_alone(const StoredStudy& study) {
  StudyTable table;
  table.heading = "What to change: each change alone";
  const std::string per = study.money.empty() ? "price" : study.money;
  table.heads = {"price", "gained", "lost", "net", "net per " + per};
  if (study.tariff_per_J > 0.0)
    table.heads.insert(table.heads.end(), {"saves a year", "paid back"});
  const StudyAlternative& first = study.alternatives.front();
  std::string causes;
  for (const std::size_t place :
       study::ranked(study, first_of(study, Of::kChanges), end_of(study, Of::kChanges))) {
    const StudyAlternative& each = study.alternatives[place];
    const PairedDays paired = study::counted_pairs(study, each);
    const double price = price_of(study, each);
    TextRow row{each.name,
                {money_text(price),
                 signed_count(paired.gained[12]),
                 signed_count(-paired.lost[12]),
                 signed_count(paired.net()),
                 per_money(paired.net(), price)}};
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
    table.note = "What had spoilt the days gained: " + causes + ".";
  }
  return table;
}

StudyTable changes_in_order(const StoredStudy& study) {
  StudyTable table;
  const study::BestOrder order = study::best_order(study);
  table.heading = "What to change first: the best order together";
  table.heads = {"price", "in all", "brings", "task-days"};
  if (study.tariff_per_J > 0.0) table.heads.emplace_back("paid back");
  double spent = 0.0;
  double saved = study::saving_of(study, study.alternatives.front()).money;
  std::vector<int> made;
  for (std::size_t i = 0; i < order.changes.size(); ++i) {
    const results::StudyChange& change = study.changes[static_cast<std::size_t>(order.changes[i])];
    spent += change.price;
    made.insert(std::lower_bound(made.begin(), made.end(), order.changes[i]), order.changes[i]);
    TextRow row{std::to_string(i + 1) + "  " + change.name,
                {money_text(change.price),
                 money_text(spent),
                 signed_count(order.gain[i]),
                 std::to_string(order.days[i])}};
    if (study.tariff_per_J > 0.0) {
      const double now = study::saving_of(study, *study::with_changes(study, made)).money;
      const double more = now - saved;
      row.cells.push_back(more > 0.0 ? years_text(study::payback_years(change.price, more))
                                     : "never");
      saved = now;
    }
    table.rows.push_back(std::move(row));
  }
  table.note = order.complete
                   ? "Each step is the one that then brings most for its price; nothing that is "
                     "left out would add a day."
                   : "Not all that the order depends on has been run.";
  for (const int change : order.excluded) {
    table.note += " '" + study.changes[static_cast<std::size_t>(change)].name +
                  "' is not possible with what was chosen before it.";
  }
  return table;
}

StudyTable savings(const StoredStudy& study) {
  StudyTable table;
  table.heading = "What the sun saves in the kitchen in a year";
  table.heads = {"cooks", "kWh", money_head(study, "saved")};
  if (study.oven_price > 0.0) table.heads.emplace_back("oven paid back");
  for (const std::size_t place : study::ranked(study, 0, study.combinations())) {
    const StudyAlternative& each = study.alternatives[place];
    const study::Saving saving = study::saving_of(study, each);
    TextRow row{
        each.name,
        {fixed(saving.cooks, 0), fixed(saving.energy_J / kJoulePerKWh, 0), fixed(saving.money, 2)}};
    if (study.oven_price > 0.0) {
      row.cells.push_back(years_text(study::payback_years(study.oven_price, saving.money)));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

StudyTable kitchen(const StoredStudy& study) {
  StudyTable table;
  table.heading = "What the kitchen would use";
  table.heads = {"kWh a cook", "wanted a year"};
  std::vector<std::string> sources;
  for (const results::StudyTask& task : study.tasks) {
    table.rows.push_back(
        {task.name, {fixed(task.kitchen_J / kJoulePerKWh, 2), fixed(task.cooks_a_year, 0)}});
    if (std::find(sources.begin(), sources.end(), task.kitchen_source) == sources.end()) {
      sources.push_back(task.kitchen_source);
      table.note += (table.note.empty() ? "Sources: " : "; ") + task.kitchen_source;
    }
  }
  table.note += ".";
  return table;
}

std::vector<std::string> assumptions(const StoredStudy& study) {
  std::vector<std::string> lines;
  if (study.tariff_per_J > 0.0) {
    lines.push_back("A kWh in the kitchen costs " + fixed(study.tariff_per_J * kJoulePerKWh, 3) +
                    (study.money.empty() ? "" : " " + study.money) + ", all year, at any hour.");
    lines.emplace_back(
        "Each task is wanted on days spread evenly over the year, and is cooked by the sun on the "
        "share of them that works; who plans around the weather saves more.");
    lines.emplace_back(
        "Payback is price over yearly saving: no interest, no upkeep, no worth of the work.");
    if (study.oven_price > 0.0) {
      lines.push_back("The oven has cost " + money_text(study.oven_price) +
                      (study.money.empty() ? "" : " " + study.money) +
                      "; every combination is taken to cost the same.");
    }
  }
  lines.emplace_back(
      "All alternatives of a site have the same weather, so that differences of a few days are "
      "real in the model even where the counts themselves deserve ten days of doubt.");
  return lines;
}

std::vector<StudyTable> study_tables(const StoredStudy& study) {
  std::vector<StudyTable> tables = {ranking(study)};
  const bool first_done = study.alternatives.front().done();
  if (first_done && study.combinations() > 1) {
    tables.push_back(differences(study, Of::kCombinations));
  }
  if (first_done && !study.changes.empty()) {
    tables.push_back(changes_alone(study));
    tables.push_back(differences(study, Of::kChanges));
    tables.push_back(changes_in_order(study));
  }
  if (study.tariff_per_J > 0.0) {
    tables.push_back(savings(study));
    tables.push_back(kitchen(study));
  }
  return tables;
}
}  // namespace ovendays::report
