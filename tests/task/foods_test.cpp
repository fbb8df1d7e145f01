// SPDX-License-Identifier: MIT
// The example tasks' foods and the four-hour rule against published figures. Ids such as FOOD-1 are
// rows of tests/data/task/published.csv, where each has its source and status.
#include <cmath>
#include <string>
#include <vector>

#include "catch.h"
#include "cook_trial.h"
#include "ovendays/base/air.h"
#include "ovendays/base/case_node.h"
#include "published.h"

using namespace ovendays;
using namespace ovendays::test;

namespace {
task::Task example(const std::string& name) {
  base::CaseFile file(task::example_tasks_toml(), "case.toml");
  for (const task::Task& t : task::read_tasks(file.root(), oven::default_design())) {
    if (contains(t.name, name)) return t;
  }
  throw std::runtime_error("no example task " + name);
}

double specific_heat(const std::string& name) { return example(name).food.specific_heat_JkgK; }

/// Of dry stuff and water put together, by mass [J/kgK].
double mixed_JkgK(double dry_kg, const std::string& dry, double water_kg) {
  return (dry_kg * published("FOOD-1", dry).value + water_kg * base::kWaterSpecificHeat_JkgK) /
         (dry_kg + water_kg);
}
}  // namespace

TEST_CASE("foods of the examples hold the heat that tables give them", "[task][reference]") {
  CHECK_THAT(specific_heat("soup"), within_published("FOOD-1", "pea_soup_JkgK"));
  CHECK_THAT(specific_heat("eggs"), within_published("FOOD-1", "eggs_JkgK"));
  CHECK_THAT(specific_heat("eggs"), within_published("FOOD-2", "eggs_JkgK"));
  CHECK_THAT(specific_heat("stew"), within_published("FOOD-1", "beef_lean_JkgK"));
  CHECK_THAT(specific_heat("bread"), within_published("FOOD-1", "bread_JkgK"));
  CHECK_THAT(specific_heat("bread"), within_published("FOOD-2", "bread_JkgK"));
  CHECK_THAT(specific_heat("drinking water"), within_published("FOOD-1", "water_JkgK"));
  // Rice is 2 cups (0.37 kg) of dry grain, near flour, in 4 cups (0.95 kg) of water: by mass.
  CHECK_THAT(specific_heat("rice"), within_rel(mixed_JkgK(0.37, "flour_JkgK", 0.95), 0.05));
}

TEST_CASE("the example's beans hold a little more heat than their parts", "[task][reference]") {
  // A pound of dry beans, near peas, in three of water: 3600 J/kgK by mass (FOOD-1, 5 %). The
  // example has 3800, 5.6 % above: a recorded difference, on the slow side.
  const double parts_JkgK = mixed_JkgK(1.0, "dried_peas_JkgK", 3.0);
  CHECK_THAT(parts_JkgK, within_abs(3600.0, 1.0));
  CHECK_THAT(specific_heat("beans") / parts_JkgK, within_abs(1.056, 0.001));
}

TEST_CASE("an egg by its water has the heat and conductivity of the formulas",
          "[task][reference]") {
  // 75 % water, as the example says. The tables' egg lies 5 % below the formula (FOOD-3).
  const task::Task eggs = example("eggs");
  const double siebel = 4190.0 * 0.75 + 840.0 * 0.25;
  CHECK_THAT(siebel, within_published("FOOD-3", "siebel_75_JkgK"));
  CHECK_THAT(eggs.food.specific_heat_JkgK, within_rel(siebel, 0.055));
  // FOOD-4 gives 0.478 W/mK; the example writes 0.5, 4.7 % above: a recorded rounding.
  const double formula = 0.55 * 0.75 + 0.26 * 0.25;
  CHECK_THAT(formula, within_published("FOOD-4", "conductivity_75_WmK"));
  CHECK_THAT(eggs.food.conductivity_WmK / formula, within_abs(1.047, 0.001));
}

TEST_CASE("bread is done at a baker's core and baked in a baker's air", "[task][reference]") {
  const task::Task bread = example("bread");
  CHECK_THAT(bread.target_K, within_published("FOOD-19", "bread_core_K"));
  CHECK_THAT(bread.target_K, within_published("FOOD-19", "lean_bread_core_K"));
  REQUIRE(bread.oven_air_K.has_value());
  CHECK_THAT(*bread.oven_air_K, within_published("FOOD-20", "baking_air_K"));
  REQUIRE(example("cookies").oven_air_K.has_value());
  CHECK_THAT(*example("cookies").oven_air_K, within_published("FOOD-20", "baking_air_K"));
  // What simmers need not be hotter than the air it simmers in (a band, from memory).
  const Published air = published("FOOD-20", "simmer_K");
  for (const char* name : {"rice", "beans", "stew"})
    CHECK(example(name).target_K < air.value + air.margin);
}

TEST_CASE("food that takes more than four hours from 5 to 60 degC is unsafe", "[task][reference]") {
  // FOOD-11 (from memory, unverified). The weaker the sun, the longer the way up; the count is held
  // to that of the same run second by second.
  constexpr double kLocated_s = 5.0;  // crossings are located within 1 to 2 s
  CookTrial trial;
  trial.load_s = 0.0;
  trial.oven_K = 293.15;
  trial.model.capacity_JK[heat::kNodeFood] = 16000.0;  // a large pot: four litres
  trial.task.finish_by_s = 12.0 * 3600;
  trial.task.spoils = true;
  trial.task.rule = "four-hour";
  trial.task.target_K = kC + 62.0;
  const double limit_s = published("FOOD-11", "way_up_s").value;
  int safe = 0;
  int unsafe = 0;
  double before_s = 0.0;
  for (const double gain_W : {240.0, 180.0, 150.0, 138.0, 130.0}) {
    trial.sun = made_forcing(12.0, gain_W);
    const task::CookResult r = trial.cook();
    INFO(gain_W << " W: " << r.danger_s / 3600.0 << " h");
    REQUIRE(r.done);
    const double way_up_s = fine_run(trial).between_s(kC + 5.0, kC + 60.0, r.finish_s);
    CHECK_THAT(r.danger_s, within_abs(way_up_s, kLocated_s));
    CHECK(r.danger_s > before_s);
    CHECK(r.safe == (way_up_s <= limit_s));
    (r.safe ? safe : unsafe) += 1;
    before_s = r.danger_s;
  }
  CHECK(safe >= 2);
  CHECK(unsafe >= 2);
}
