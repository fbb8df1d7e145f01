// SPDX-License-Identifier: MIT
#include "ovendays/task/task.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "ovendays/base/constants.h"
#include "ovendays/task/notches.h"

namespace ovendays::task {
namespace {

using base::CaseNode;
using base::Dimension;

constexpr double kC = base::kZeroCelsius_K;

/// Canning in a box oven is dangerous, so it is recognised by the words that people use for it.
bool is_canning(std::string name) {
  std::transform(
      name.begin(), name.end(), name.begin(), [](unsigned char c) { return std::tolower(c); });
  static const std::array<const char*, 5> words = {
      "canning", "preserv", "sealed", "sterilis", "steriliz"};
  return std::any_of(words.begin(), words.end(), [&](const char* word) {
    return name.find(word) != std::string::npos;
  });
}

void read_food(const CaseNode& node, heat::FoodLoad& food) {
  food.mass_kg = node.required_quantity("mass", Dimension::kMass, {0.01, 50.0});
  food.specific_heat_JkgK =
      node.quantity("specific_heat", Dimension::kSpecificHeat, {500.0, 5000.0}, 3900.0);
  static const std::vector<std::string> shapes = {"stirred", "slab", "cylinder", "sphere"};
  food.shape = static_cast<heat::FoodShape>(node.choice("shape", shapes, 0));
  const bool solid = food.shape != heat::FoodShape::kStirred;
  food.contact_Wm2K =
      node.quantity("contact", Dimension::kConductance, {1.0, 2000.0}, solid ? 60.0 : 250.0);
  food.density_kgm3 = node.quantity("density", Dimension::kDensity, {50.0, 3000.0}, 1000.0);
  food.conductivity_WmK = node.quantity("conductivity", Dimension::kConductivity, {0.02, 5.0}, 0.5);
  food.half_size_m = node.quantity("half_size", Dimension::kLength, {0.001, 0.3}, 0.03);
  if (solid && !node.has("half_size")) {
    node.fault(
        "half_size", "missing", "half the thickness of a slab, the radius of a cylinder or sphere");
  }
}

/// Share of water in a food by its specific heat: Siebel's formula, 837 + 3349 w [J/kgK], turned
/// round.
double siebel_water_share(double specific_heat_JkgK) {
  return std::clamp((specific_heat_JkgK - 837.0) / 3349.0, 0.0, 1.0);
}

/// The water of the food: what can leave as steam, and the share that there is in all.
void read_water(const CaseNode& node, Task& task) {
  heat::FoodLoad& food = task.food;
  food.water_kg = node.quantity("water", Dimension::kMass, {0.0, 50.0}, 0.0);
  if (food.water_kg > food.mass_kg) {
    node.fault(
        "water",
        base::quantity_text(food.water_kg, Dimension::kMass),
        "no more than the food's mass, " + base::quantity_text(food.mass_kg, Dimension::kMass));
  }
  task.dry = node.flag("dry", false);
  food.water_share = node.quantity("water_share",
                                   Dimension::kNumber,
                                   {0.0, 1.0},
                                   task.dry ? 0.0 : siebel_water_share(food.specific_heat_JkgK));
  if (task.dry && (food.water_kg > 0.0 || food.water_share > 0.0)) {
    node.fault(
        "dry", "true beside water or water_share", "without them: food that is dry has no water");
  }
}

/// Food that cannot be in its vessel is refused at the line of its mass.
void check_fit(const CaseNode& node, const oven::Vessel& vessel, const heat::FoodLoad& food) {
  const double most_kg = most_food_kg(vessel, food);
  if (food.mass_kg <= most_kg) return;
  const auto litres = [](double volume_m3) {
    return base::quantity_text(std::round(1e4 * volume_m3) / 10.0, Dimension::kNumber) + " l";
  };
  const bool stands_out = most_kg > vessel.volume_m3() * food.density_kgm3;
  // Rounded down, so that the mass named is one that fits.
  node.fault("mass",
             base::quantity_text(food.mass_kg, Dimension::kMass) + " of food, " +
                 litres(food.mass_kg / food.density_kgm3) + " at its density, in a vessel of " +
                 litres(vessel.volume_m3()),
             "up to " + base::quantity_text(std::floor(100.0 * most_kg) / 100.0, Dimension::kMass) +
                 " in '" + vessel.name + "', " +
                 (stands_out ? "standing above its rim" : "full to its rim"));
}

/// The target of the core. Only dry food gets hotter than boiling water.
double read_target_K(const CaseNode& node, bool dry) {
  const double target_K =
      node.required_quantity("target", Dimension::kTemperature, {kC + 30.0, kC + 120.0});
  constexpr double kBoils_K = kC + 100.0;  // at sea level
  constexpr double kRounding_K = 0.01;     // 212 F is 100 C
  if (!dry && target_K > kBoils_K + kRounding_K) {
    node.fault("target",
               base::quantity_text(target_K, Dimension::kTemperature),
               "up to 100 degC, where water boils at sea level; more for food without water, "
               "marked dry = true");
  }
  return target_K;
}

void read_safety(const CaseNode& node, Task& task) {
  task.spoils = node.flag("spoils", false);
  std::vector<std::string> keys;
  for (const DangerRule& rule : danger_rules()) keys.push_back(rule.key);
  task.rule = keys[node.choice("rule", keys, 0)];
}

Task read_task(const CaseNode& node, const oven::OvenDesign& oven) {
  Task task;
  task.line = node.line();
  task.name = node.required_text("name");
  if (is_canning(task.name) || node.flag("sealed", false)) {
    node.fault("name",
               "'" + task.name + "'",
               "no canning and no sealed jars: food held at or below boiling can harbour botulism, "
               "and a sealed jar can burst");
  }
  task.vessel = node.required_text("vessel");
  const oven::Vessel* vessel = oven.vessel(task.vessel);
  if (!task.vessel.empty() && vessel == nullptr) {
    std::string names;
    for (const oven::Vessel& v : oven.vessels)
      names += (names.empty() ? "" : ", ") + ("'" + v.name + "'");
    node.fault("vessel",
               "'" + task.vessel + "'",
               names.empty() ? "a vessel of the oven; it has none" : names);
  }
  read_food(node, task.food);
  if (vessel != nullptr) check_fit(node, *vessel, task.food);
  read_water(node, task);
  task.start_K =
      node.quantity("start", Dimension::kTemperature, {kC - 20.0, kC + 80.0}, task.start_K);
  task.food.frozen = task.start_K < kC && task.food.water_share > 0.0;
  task.target_K = read_target_K(node, task.dry);
  task.hold_s = node.quantity("hold", Dimension::kTime, {0.0, 86400.0}, 0.0);
  task.unbroken = node.flag("unbroken", false);
  task.oven_air_K =
      node.optional_quantity("oven_air", Dimension::kTemperature, {kC + 30.0, kC + 300.0});
  task.oven_air_s = node.quantity("oven_air_for", Dimension::kTime, {0.0, 86400.0}, 0.0);
  if (task.oven_air_s > 0.0 && !task.oven_air_K) {
    node.fault("oven_air_for",
               "given without oven_air",
               "with oven_air, the temperature the air must have");
  }
  if (task.oven_air_K && task.oven_air_s <= 0.0) {  // the demand would never be checked
    node.fault("oven_air_for",
               "missing or 0 beside oven_air",
               "how long the air must be that hot, above 0");
  }
  task.overdone_after_s =
      node.optional_quantity("overdone_after", Dimension::kTime, {60.0, 86400.0});
  task.finish_by_s = node.clock("finish_by", task.finish_by_s);
  read_safety(node, task);
  task.source = node.text("source", "");
  return task;
}
}  // namespace

double effective_target_K(const Task& task, double boiling_K) {
  return task.dry ? task.target_K : std::min(task.target_K, boiling_K - 1.0);
}

double most_food_kg(const oven::Vessel& vessel, const heat::FoodLoad& food) {
  constexpr double kAboveRim = 2.0;  // heights of the vessel; judgement
  const bool stays_in = vessel.lid || food.shape == heat::FoodShape::kStirred;
  const double height_m =
      stays_in ? vessel.height_m : std::max(kAboveRim * vessel.height_m, 2.0 * food.half_size_m);
  return food.density_kgm3 * vessel.base_m2() * height_m;
}

std::vector<Task> read_tasks(const CaseNode& root, const oven::OvenDesign& oven) {
  constexpr std::size_t kMostTasks = 64;
  std::vector<Task> tasks;
  const std::vector<CaseNode> nodes = root.tables("task");
  if (nodes.empty()) root.fault("task", "no [[task]]", "at least one thing to cook");
  if (nodes.size() > kMostTasks) {
    root.fault(
        "task", std::to_string(nodes.size()) + " tasks", "at most " + std::to_string(kMostTasks));
    return tasks;
  }
  for (const CaseNode& node : nodes) {
    Task task = read_task(node, oven);
    const bool twice =
        std::any_of(tasks.begin(), tasks.end(), [&](const Task& t) { return t.name == task.name; });
    if (no_notch(usable_notches(oven, task))) {
      node.fault(
          "vessel",
          "'" + task.vessel + "' can be used in no notch of the oven: it " +
              limit_text({*notch_limit(oven, task)}),
          "a notch of less tilt, or a rack that keeps it level (level = true in [oven.shelf])");
    }
    if (twice) node.fault("name", "'" + task.name + "' twice", "a name of its own for each task");
    tasks.push_back(std::move(task));
  }
  return tasks;
}
}  // namespace ovendays::task
