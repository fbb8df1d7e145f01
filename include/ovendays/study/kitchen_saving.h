// SPDX-License-Identifier: MIT
// Savings against cooking in the kitchen: energy and money a year, and payback time.
// Thread-safe: yes.
#pragma once

#include <optional>
#include <string>

#include "ovendays/results/study_file.h"
#include "ovendays/task/task.h"

namespace ovendays::study {

/// Energy of one cook in the kitchen, for tasks whose study gives none, and its source.
struct KitchenEnergy {
  double energy_J = 0.0;
  std::string source;
};
/// Baking (the task prescribes hot oven air): 0.8 kWh a cycle. Everything else on an electric hob:
/// 0.195 kWh per kg heated by 75 K and simmered for 20 min, proportional to mass and temperature
/// rise, plus 0.15 kW for the rest of a longer hold. The result names the sources.
KitchenEnergy kitchen_energy(const task::Task& task);

/// Savings of one year.
struct Saving {
  double cooks = 0.0;     ///< wanted cooks that the solar oven does
  double energy_J = 0.0;  ///< energy of the kitchen for these cooks
  double money = 0.0;     ///< energy times tariff, in the currency of the study
};
/// Assumes that each task is wanted on days spread evenly over the year: cooks = cooks_a_year x
/// days / 365. Planning around the weather saves more. Sums over all tasks, also those that do not
/// count in ranks. @param alternative must have been run
Saving saving_of(const results::StoredStudy& study, const results::StudyAlternative& alternative);

/// Simple payback time [years], price over yearly saving, without interest or upkeep; 0 for a price
/// of zero, nullopt if nothing is saved.
std::optional<double> payback_years(double price, double money_a_year);
}  // namespace ovendays::study
