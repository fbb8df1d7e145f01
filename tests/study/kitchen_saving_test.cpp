// SPDX-License-Identifier: MIT
// Savings and payback by hand.
#include "ovendays/study/kitchen_saving.h"

#include "catch.h"
#include "made_study.h"

using namespace ovendays;

TEST_CASE("a fifth of the days saves a fifth of the wanted cooks, and so on by hand",
          "[study][unit]") {
  // Rice on 73 of 365 days, wanted 73 times: 14.6 cooks at 1 kWh. Bread on 146 days, wanted 73
  // times: 29.2 cooks at 1 kWh. Together 43.8 kWh at 0.36 EUR: 15.768 EUR a year. An oven of
  // 40 EUR is paid back after 40 / 15.768 = 2.53678 years.
  results::StoredStudy study = test::made_study();
  test::add_alternative(
      study, "first", {}, [](std::size_t t, int d) { return d < (t == 0 ? 73 : 146); });
  study.tasks[1].counts = false;  // counts in no rank, but saves all the same
  const study::Saving saving = study::saving_of(study, study.alternatives[0]);
  // Tolerances: a few roundings.
  CHECK_THAT(saving.cooks, test::within_rel(43.8, 1e-13));
  CHECK_THAT(saving.energy_J, test::within_rel(43.8 * 3.6e6, 1e-13));
  CHECK_THAT(saving.money, test::within_rel(15.768, 1e-13));
  const auto years = study::payback_years(40.0, saving.money);
  REQUIRE(years.has_value());
  CHECK_THAT(*years, test::within_abs(2.53678, 5e-6));  // the digits worked out
}

TEST_CASE("a price of zero is paid back at once, a saving of zero never", "[study][unit]") {
  CHECK(study::payback_years(0.0, 0.0) == 0.0);
  CHECK(study::payback_years(0.0, 5.0) == 0.0);
  CHECK_FALSE(study::payback_years(10.0, 0.0).has_value());
  CHECK_FALSE(study::payback_years(10.0, -1.0).has_value());
}

TEST_CASE("the kitchen's usual energy by hand", "[study][unit]") {
  // 0.195 kWh/kg for 75 K and 20 min of simmering: the limit of EU 66/2014 for electric hobs from
  // 2019 (from memory); 0.8 kWh a baking cycle: class A by EU 65/2014 (seen second-hand).
  task::Task pot;
  pot.food.mass_kg = 2.0;
  pot.start_K = 293.15;
  pot.target_K = 368.15;
  pot.hold_s = 1200.0;
  CHECK_THAT(study::kitchen_energy(pot).energy_J, test::within_rel(0.39 * 3.6e6, 1e-12));
  pot.target_K = 330.65;  // half the rise
  CHECK_THAT(study::kitchen_energy(pot).energy_J, test::within_rel(0.195 * 3.6e6, 1e-12));
  pot.hold_s = 4800.0;  // an hour more at 150 W
  CHECK_THAT(study::kitchen_energy(pot).energy_J, test::within_rel(0.345 * 3.6e6, 1e-12));
  pot.oven_air_K = 394.0;
  CHECK_THAT(study::kitchen_energy(pot).energy_J, test::within_rel(0.8 * 3.6e6, 1e-12));
}
