// SPDX-License-Identifier: MIT
#include "ovendays/study/kitchen_saving.h"

#include <algorithm>

#include "ovendays/base/constants.h"
#include "ovendays/study/paired_days.h"

namespace ovendays::study {
KitchenEnergy kitchen_energy(const task::Task& task) {
  if (task.oven_air_K) {
    return {
        0.8 * base::kJoulesPerKWh,
        "0.8 kWh a baking cycle: a class A electric oven by EU 65/2014 (figure seen second-hand)"};
  }
  // The published figure includes a simmer of 20 min, so only longer holds add energy.
  constexpr double kHob_Jkg = 0.195 * base::kJoulesPerKWh;
  constexpr double kHobRise_K = 75.0;
  constexpr double kHobSimmer_s = 1200.0;
  constexpr double kSimmer_W = 150.0;
  const double rise_K = std::max(0.0, task.target_K - task.start_K);
  const double heating_J = kHob_Jkg * task.food.mass_kg * rise_K / kHobRise_K;
  const double holding_J = kSimmer_W * std::max(0.0, task.hold_s - kHobSimmer_s);
  return {heating_J + holding_J,
          "electric hob, 0.195 kWh per kg heated by 75 K and simmered 20 min: the limit of EU "
          "66/2014 (from memory); a longer hold at 150 W: common practice, no source"};
}

Saving saving_of(const results::StoredStudy& study, const results::StudyAlternative& alternative) {
  Saving saving;
  for (std::size_t t = 0; t < study.tasks.size(); ++t) {
    const results::StudyTask& task = study.tasks[t];
    const double share = static_cast<double>(cooked_days(alternative, t)[12]) / season::kDays;
    saving.cooks += task.cooks_a_year * share;
    saving.energy_J += task.cooks_a_year * share * task.kitchen_J;
  }
  saving.money = saving.energy_J * study.tariff_per_J;
  return saving;
}

std::optional<double> payback_years(double price, double money_a_year) {
  if (price <= 0.0) return 0.0;
  if (money_a_year <= 0.0) return std::nullopt;
  return price / money_a_year;
}
}  // namespace ovendays::study
