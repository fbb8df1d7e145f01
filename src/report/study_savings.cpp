// SPDX-License-Identifier: MIT
#include <algorithm>

#include "ovendays/base/constants.h"
#include "ovendays/study/kitchen_saving.h"
#include "study_words.h"

namespace ovendays::report {
namespace {
using results::StoredStudy;
using results::StudyAlternative;

// Adds the currency to a column head, if the study names one.
std::string money_head(const StoredStudy& study, const std::string& before) {
  return study.money.empty() ? before : before + " " + study.money;
}

bool any_oven_price(const StoredStudy& study) {
  return std::any_of(
      study.oven_prices.begin(), study.oven_prices.end(), [](double price) { return price > 0.0; });
}
}  // namespace

StudyTable savings(const StoredStudy& study, NameStyle style) {
  StudyTable table;
  table.heading = "Savings in the kitchen in a year";
  table.heads = {"cooks", "kWh", money_head(study, "saved")};
  const bool priced = any_oven_price(study);
  if (priced) table.heads.insert(table.heads.end(), {"oven", "paid back"});
  const RankNumbers numbers(study);
  for (const std::size_t place : numbers.order()) {
    const StudyAlternative& each = study.alternatives[place];
    const study::Saving saving = study::saving_of(study, each);
    TextRow row{numbers.name(place, style),
                {fixed(saving.cooks, 0),
                 fixed(saving.energy_J / base::kJoulesPerKWh, 0),
                 fixed(saving.money, 2)}};
    if (priced) {
      const double price = study.oven_prices[static_cast<std::size_t>(each.at[results::kOven])];
      row.cells.push_back(price > 0.0 ? money_text(price) : "-");
      row.cells.push_back(price > 0.0 ? years_text(study::payback_years(price, saving.money))
                                      : "-");
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

StudyTable kitchen(const StoredStudy& study) {
  StudyTable table;
  table.heading = "Energy that the kitchen would use";
  table.heads = {"kWh a cook", "wanted a year"};
  std::vector<std::string> sources;
  for (const results::StudyTask& task : study.tasks) {
    table.rows.push_back(
        {task.name, {fixed(task.kitchen_J / base::kJoulesPerKWh, 2), fixed(task.cooks_a_year, 0)}});
    // Several tasks may share a source; name each source once.
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
    lines.push_back("A kWh in the kitchen costs " +
                    fixed(study.tariff_per_J * base::kJoulesPerKWh, 3) +
                    (study.money.empty() ? "" : " " + study.money) + ", all year, at any hour.");
    lines.emplace_back(
        "Each task is wanted on days spread evenly over the year, and the sun cooks it on the "
        "share "
        "of them that works; planning around the weather saves more.");
    lines.emplace_back("Payback is price over yearly saving, with no interest, upkeep or labour.");
  }
  if (study.axes[results::kSite].size() > 1) {
    lines.emplace_back(
        "Between sites, days are paired by date only, because their weather is unrelated.");
  }
  if (study.draws > 0) {
    lines.push_back("Likely ranges come from " + std::to_string(study.draws) +
                    " draws of what is not known: the oven as built, the pot, how late it is "
                    "turned, the amount "
                    "of food, the weather of the year and the model's own error. Every alternative "
                    "has the same "
                    "draws, so that what it shares with the first cancels.");
  } else {
    lines.emplace_back(
        "All alternatives of a site have the same weather, so their differences are more certain "
        "than the counts. How much more was not asked (--spread 0).");
  }
  return lines;
}
}  // namespace ovendays::report
