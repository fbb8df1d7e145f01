// SPDX-License-Identifier: MIT
// What the sun saves against the kitchen: energy and money a year, and years to pay a price back.
#pragma once

#include <optional>
#include <string>

#include "ovendays/results/study_file.h"
#include "ovendays/task/task.h"

namespace ovendays::study {

/// Energy that one cook takes on or in a kitchen cooker, where the study does not tell it.
struct KitchenEnergy {
  double energy_J = 0.0;
  std::string source;
};
/// Baking (the task asks for hot oven air): 0.8 kWh a cycle. All else on an electric hob: 0.195 kWh
/// per kg heated by 75 K with a simmer of 20 min, in proportion to the mass and to the rise, and
/// 0.15 kW for the rest of a longer hold. Sources stand in the result.
KitchenEnergy kitchen_energy(const task::Task& task);

/// Of one year.
struct Saving {
  double cooks = 0.0;     ///< of those wanted, that the sun does
  double energy_J = 0.0;  ///< the kitchen's for those cooks
  double money = 0.0;     ///< energy times the tariff, in the study's money
};
/// Each task is wanted on days spread evenly over the year, so that of the cooks wanted the same
/// share falls on days that work as of all days: cooks = cooks_a_year x days / 365. A cook who
/// plans around the weather saves more. Over all tasks, whether they count in ranks or not.
/// @param alternative that has been run
Saving saving_of(const results::StoredStudy& study, const results::StudyAlternative& alternative);

/// Simple payback, price over yearly saving [years]; nothing where nothing is saved, 0 where it
/// costs nothing. No interest, no upkeep.
std::optional<double> payback_years(double price, double money_a_year);
}  // namespace ovendays::study
