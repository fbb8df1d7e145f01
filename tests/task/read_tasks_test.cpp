// SPDX-License-Identifier: MIT
// Reading [[task]]: what is taken over, what is refused and with which words; the danger rules.
#include <string>

#include "catch.h"
#include "ovendays/base/case_node.h"
#include "ovendays/base/constants.h"
#include "ovendays/task/task.h"

using namespace ovendays;
using test::contains;
using test::within_abs;
using test::within_rel;

namespace {
constexpr double kRounding = 1e-9;  // unit conversion, relative

std::vector<task::Task> read_tasks_of(const std::string& text) {
  base::CaseFile file(text, "case.toml");
  std::vector<task::Task> tasks = task::read_tasks(file.root(), oven::default_design());
  file.finish();
  return tasks;
}

std::string tasks_complaint(const std::string& text) {
  try {
    read_tasks_of(text);
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}

/// A sound task; `more` is added at its end.
std::string soup(const std::string& more, const std::string& mass = "mass = 1.5") {
  return "[[task]]\nname = \"soup\"\nvessel = \"black pot\"\n" + mass + "\ntarget = \"165 F\"\n" +
         more;
}

double celsius(double kelvin) { return kelvin - base::kZeroCelsius_K; }
}  // namespace

TEST_CASE("the danger rules are those published", "[task][reference]") {
  const auto& rules = task::danger_rules();
  REQUIRE(rules.size() == 2U);
  // FDA Food Code 3-501.19 in kind, 41 F taken as 5 C, 140 F as 60 C (from memory).
  CHECK(rules[0].key == "four-hour");
  CHECK_THAT(celsius(rules[0].low_K), within_abs(5.0, 1e-9));
  CHECK_THAT(celsius(rules[0].high_K), within_abs(60.0, 1e-9));
  CHECK_THAT(rules[0].limit_s, within_abs(14400.0, 1e-9));
  // USDA FSIS: 40 to 140 F, two hours (as quoted on consumer pages); 40 F is 4.44 C.
  CHECK(rules[1].key == "two-hour");
  CHECK_THAT(celsius(rules[1].low_K), within_abs(40.0 / 1.8 - 32.0 / 1.8, 0.05));
  CHECK_THAT(celsius(rules[1].high_K), within_abs(140.0 / 1.8 - 32.0 / 1.8, 1e-9));
  CHECK_THAT(rules[1].limit_s, within_abs(7200.0, 1e-9));
}

TEST_CASE("the eight example tasks parse and carry the published targets", "[task][reference]") {
  const auto tasks = read_tasks_of(task::example_tasks_toml());
  REQUIRE(tasks.size() == 8U);
  for (const task::Task& t : tasks) {
    INFO(t.name);
    CHECK_FALSE(t.source.empty());
    CHECK(t.line > 0);
    CHECK(t.target_K > t.start_K);
  }
  // foodsafety.gov chart (12 Apr 2019): leftovers and casseroles 165 F, egg dishes 160 F.
  CHECK_THAT(tasks[0].target_K, within_rel(347.0388888889, 1e-9));
  CHECK(tasks[0].spoils);
  CHECK(tasks[0].rule == "two-hour");
  CHECK_THAT(tasks[1].target_K, within_rel(344.2611111111, 1e-9));
  CHECK(tasks[1].food.shape == heat::FoodShape::kSphere);
  // Pasteurising water: 65 C for 6 min in one go (149 F is 65 C).
  CHECK_THAT(celsius(tasks[7].target_K), within_abs(65.0, 1e-9));
  CHECK_THAT(tasks[7].hold_s, within_abs(360.0, 1e-9));
  CHECK(tasks[7].unbroken);
  // Baking asks for the oven's air as well: 250 F is 121.1 C.
  REQUIRE(tasks[5].oven_air_K.has_value());
  CHECK_THAT(celsius(*tasks[5].oven_air_K), within_abs(121.111, 1e-3));
  CHECK_THAT(tasks[5].oven_air_s, within_abs(1800.0, 1e-9));
}

TEST_CASE("a task takes units and keeps defaults where keys are left out", "[task][unit]") {
  const auto tasks =
      read_tasks_of(soup("hold = \"2 min\"\nfinish_by = \"17:15\"\n", "mass = \"2 lb\""));
  REQUIRE(tasks.size() == 1U);
  const task::Task& t = tasks.front();
  // The pound avoirdupois is 0.45359237 kg by definition.
  CHECK_THAT(t.food.mass_kg, within_rel(0.90718474, kRounding));
  CHECK_THAT(t.hold_s, within_rel(120.0, kRounding));
  CHECK_THAT(t.finish_by_s, within_abs(17.25 * 3600.0, 1e-9));
  CHECK_THAT(celsius(t.start_K), within_abs(20.0, 1e-9));
  CHECK_FALSE(t.spoils);
  CHECK_FALSE(t.unbroken);
  CHECK_FALSE(t.oven_air_K.has_value());
  CHECK(t.rule == "four-hour");
  CHECK(t.food.shape == heat::FoodShape::kStirred);
}

TEST_CASE("canning and sealed jars are refused with the reason", "[task][unit]") {
  // Cooperative extension notices: low-acid canning must not be done below pressure heat.
  for (const char* name :
       {"Canning beans", "fruit preserves", "soup in sealed jars", "sterilise"}) {
    const std::string said =
        tasks_complaint("[[task]]\nname = \"" + std::string(name) +
                        "\"\nvessel = \"black pot\"\nmass = 1\ntarget = \"90 C\"\n");
    INFO(name << ": " << said);
    CHECK(contains(said, "case.toml:2"));
    CHECK(contains(said, "botulism"));
    CHECK(contains(said, "burst"));
  }
  CHECK(contains(tasks_complaint(soup("sealed = true\n")), "botulism"));
  CHECK(tasks_complaint(soup("sealed = false\n")).empty());
}

TEST_CASE("what a task lacks or has wrong is reported at its line", "[task][unit]") {
  CHECK(contains(tasks_complaint(soup("", "")), "task.mass"));
  CHECK(contains(tasks_complaint(soup("", "mass = -1")), "case.toml:4: task.mass"));
  CHECK(contains(tasks_complaint(soup("", "mass = 0")), "task.mass"));
  CHECK(contains(tasks_complaint(soup("hold = -5\n")), "task.hold"));
  CHECK(contains(tasks_complaint(soup("specific_heat = -4000\n")), "task.specific_heat"));
  CHECK(contains(tasks_complaint(soup("salt = 3\n")), "task.salt"));
  CHECK(contains(tasks_complaint(soup("rule = \"one-hour\"\n")), "four-hour"));
  CHECK(contains(tasks_complaint(soup("water = \"5 kg\"\n")), "no more than the food's mass"));
  CHECK(contains(tasks_complaint("name = \"nothing to cook\"\n"), "at least one thing to cook"));
  const std::string unknown =
      tasks_complaint("[[task]]\nname = \"x\"\nvessel = \"tin\"\nmass = 1\ntarget = \"165 F\"\n");
  CHECK(contains(unknown, "case.toml:3: task.vessel: 'tin'"));
  CHECK(contains(unknown, "'black pot', 'loaf pan', 'cookie sheet'"));
}

TEST_CASE("targets lie between 30 and 100 C, of dry food up to 120 C", "[task][unit]") {
  const auto target = [](const std::string& value) {
    return "[[task]]\nname = \"x\"\nvessel = \"black pot\"\nmass = 1\ntarget = " + value + "\n";
  };
  CHECK(tasks_complaint(target("\"30 C\"")).empty());
  CHECK(tasks_complaint(target("\"100 C\"")).empty());
  CHECK(tasks_complaint(target("\"212 F\"")).empty());
  CHECK(contains(tasks_complaint(target("\"29 C\"")), "task.target"));
  const std::string above = tasks_complaint(target("\"101 C\""));
  CHECK(contains(above, "case.toml:5: task.target: 101 degC"));
  CHECK(contains(above, "up to 100 degC, where water boils at sea level"));
  CHECK(tasks_complaint(target("\"120 C\"\ndry = true")).empty());
  CHECK(contains(tasks_complaint(target("\"121 C\"\ndry = true")), "task.target"));
  CHECK(contains(tasks_complaint(target("\"3 m\"")), "task.target"));
  CHECK(contains(tasks_complaint(target("\"hot\"")), "task.target"));
}

TEST_CASE("dry food gives off no steam", "[task][unit]") {
  const std::string said = tasks_complaint(soup("dry = true\nwater = \"1 kg\"\n"));
  CHECK(contains(said, "case.toml:6: task.dry: true beside water or water_share"));
  CHECK(tasks_complaint(soup("dry = true\n")).empty());
  CHECK(read_tasks_of(soup("dry = true\n"))[0].dry);
  CHECK_FALSE(read_tasks_of(soup(""))[0].dry);
}

TEST_CASE("the share of water comes from the case or from the specific heat", "[task][reference]") {
  // Siebel: 0.837 + 3.349 w kJ/kgK; 3.18 kJ/kgK are 70 % water, 4.186 all water.
  const auto food = [](const std::string& more) { return read_tasks_of(soup(more))[0].food; };
  CHECK_THAT(food("specific_heat = 3180\n").water_share, within_abs(0.6996, 1e-4));
  CHECK_THAT(food("specific_heat = 4186\n").water_share, within_abs(1.0, 1e-9));
  CHECK(food("specific_heat = 4500\n").water_share == 1.0);
  CHECK(food("specific_heat = 800\n").water_share == 0.0);
  CHECK(food("water_share = 0.4\n").water_share == 0.4);
  CHECK(food("dry = true\n").water_share == 0.0);
  CHECK(contains(tasks_complaint(soup("water_share = 1.2\n")), "task.water_share"));
  CHECK(contains(tasks_complaint(soup("dry = true\nwater_share = 0.2\n")), "task.dry"));
}

TEST_CASE("food may have a time after which it is overdone", "[task][unit]") {
  CHECK_THAT(read_tasks_of(soup("overdone_after = \"40 min\"\n"))[0].overdone_after_s.value_or(0.0),
             within_abs(2400.0, 1e-9));
  CHECK_FALSE(read_tasks_of(soup(""))[0].overdone_after_s.has_value());
  CHECK(contains(tasks_complaint(soup("overdone_after = \"0 min\"\n")),
                 "case.toml:6: task.overdone_after"));
}

TEST_CASE("food that starts below freezing is frozen, if it has water", "[task][unit]") {
  const auto frozen = [](const std::string& more) {
    return read_tasks_of(soup(more))[0].food.frozen;
  };
  CHECK(frozen("start = \"-18 C\"\n"));
  CHECK_FALSE(frozen("start = \"0 C\"\n"));
  CHECK_FALSE(frozen("start = \"-18 C\"\ndry = true\n"));
}

TEST_CASE("food that its vessel cannot hold is refused with what fits", "[task][unit]") {
  // 8.5 in wide and 4 in high: pi/4 (0.2159 m)2 0.1016 m = 3.72 l.
  CHECK(tasks_complaint(soup("", "mass = 3.71")).empty());
  const std::string much = tasks_complaint(soup("", "mass = 20"));
  CHECK(contains(much, "case.toml:4: task.mass: 20 kg of food, 20 l at its density, in a vessel"));
  CHECK(contains(much, "of 3.7 l"));
  CHECK(contains(much, "up to 3.71 kg in 'black pot', full to its rim"));
  // Flour weighs 0.55 kg/l.
  CHECK(contains(tasks_complaint(soup("density = 550\n", "mass = 3")), "up to 2.04 kg"));
  // Under a lid a solid has no more room than a soup.
  const std::string slab = "shape = \"slab\"\nhalf_size = \"6 cm\"\n";
  CHECK(contains(tasks_complaint(soup(slab, "mass = 3.9")), "task.mass"));
}

TEST_CASE("solids may stand above the rim of an open pan, batter may not", "[task][unit]") {
  const auto in_pan = [](const std::string& pan, const std::string& mass, const std::string& more) {
    return "[[task]]\nname = \"x\"\nvessel = \"" + pan + "\"\nmass = " + mass +
           "\ntarget = \"90 C\"\n" + more;
  };
  const std::string loaf = "shape = \"cylinder\"\nhalf_size = \"1.6 in\"\ndensity = 450\n";
  // 9 x 5 x 2.75 in are 2.03 l; dough may rise to 4.06 l, at 0.45 kg/l.
  CHECK(tasks_complaint(in_pan("loaf pan", "1.82", loaf)).empty());
  CHECK(contains(tasks_complaint(in_pan("loaf pan", "1.84", loaf)),
                 "up to 1.82 kg in 'loaf pan', standing above its rim"));
  CHECK(tasks_complaint(in_pan("loaf pan", "2", "")).empty());
  CHECK(contains(tasks_complaint(in_pan("loaf pan", "2.1", "")), "full to its rim"));
  // A sheet of 13 x 9 in and half an inch takes a layer of pieces 4 cm thick: 3.02 l.
  const std::string rolls = "shape = \"sphere\"\nhalf_size = \"2 cm\"\n";
  CHECK(tasks_complaint(in_pan("cookie sheet", "3", rolls)).empty());
  CHECK(contains(tasks_complaint(in_pan("cookie sheet", "3.1", rolls)), "up to 3.01 kg"));
}

TEST_CASE("solids need a size, baking a temperature and a time", "[task][unit]") {
  CHECK(contains(tasks_complaint(soup("shape = \"slab\"\n")), "task.half_size: missing"));
  CHECK(tasks_complaint(soup("shape = \"slab\"\nhalf_size = \"2 cm\"\n")).empty());
  CHECK(contains(tasks_complaint(soup("oven_air_for = \"30 min\"\n")), "given without oven_air"));
  CHECK(contains(tasks_complaint(soup("oven_air = \"250 F\"\n")), "task.oven_air_for"));
  CHECK(tasks_complaint(soup("oven_air = \"250 F\"\noven_air_for = \"30 min\"\n")).empty());
}

TEST_CASE("two tasks of one name and too many tasks are refused", "[task][unit]") {
  CHECK(contains(tasks_complaint(soup("") + soup("")), "a name of its own"));
  std::string many;
  for (int i = 0; i < 65; ++i) many += soup("");
  CHECK(contains(tasks_complaint(many), "at most 64"));
}

TEST_CASE("all faults of the tasks are reported at once", "[task][unit]") {
  const std::string said = tasks_complaint(soup("hold = -5\nsalt = 3\nwater = \"5 kg\"\n"));
  CHECK(contains(said, "task.hold"));
  CHECK(contains(said, "task.salt"));
  CHECK(contains(said, "task.water"));
}

TEST_CASE("targets above boiling come down to a kelvin below it", "[task][unit]") {
  task::Task bread;
  bread.target_K = base::kZeroCelsius_K + 97.0;
  // Water boils at 93.4 C at 2000 m (standard atmosphere and Antoine's equation).
  CHECK_THAT(celsius(task::effective_target_K(bread, base::kZeroCelsius_K + 93.4)),
             within_abs(92.4, 1e-9));
  CHECK_THAT(celsius(task::effective_target_K(bread, base::kZeroCelsius_K + 100.0)),
             within_abs(97.0, 1e-9));
  bread.dry = true;
  CHECK_THAT(celsius(task::effective_target_K(bread, base::kZeroCelsius_K + 93.4)),
             within_abs(97.0, 1e-9));
}
