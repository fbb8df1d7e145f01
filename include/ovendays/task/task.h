// SPDX-License-Identifier: MIT
// What is to be cooked, and when it counts as done. Targets and safety limits name the published
// rule that they come from. Nothing here calls food safe; it only says which rule was met.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ovendays/base/case_node.h"
#include "ovendays/heat/model.h"
#include "ovendays/oven/design.h"

namespace ovendays::task {

/// The range of temperatures in which germs grow fast, and how long food may be in it.
struct DangerRule {
  std::string key;   ///< the word in the case file: "four-hour", "two-hour"
  std::string text;  ///< the rule in words, with its publisher
  double low_K;
  double high_K;
  double limit_s;
};
/// All rules known. "four-hour": FDA Food Code 3-501.19 in kind (time as a control, 4 h), counted
/// between 5 and 60 degC. "two-hour": USDA FSIS, 40-140 F (4.4-60 degC), 2 h.
const std::vector<DangerRule>& danger_rules();

/// What a task is and demands, apart from the food's properties; results files store it too.
struct TaskGoal {
  std::string name;
  std::string vessel;              ///< name of one of the oven's vessels
  double start_K = 293.15;         ///< of food and vessel when loaded
  double target_K = 355.15;        ///< of the food's core, as the case has it
  double hold_s = 0.0;             ///< time at or above target
  double finish_by_s = 66600.0;    ///< 18:30, local standard time
  bool spoils = false;             ///< food that spoils: time in the danger zone counts
  std::string rule = "four-hour";  ///< key of a DangerRule
  std::string source;              ///< where the target comes from
};

struct Task : TaskGoal {
  heat::FoodLoad food;
  bool dry = false;       ///< holds no water, so that its core may pass the boiling point
  bool unbroken = false;  ///< the hold must be without interruption (pasteurising)
  std::optional<double> oven_air_K;  ///< baking: the oven's air must be at least this hot ...
  double oven_air_s = 0.0;           ///< ... for this long in total
  /// Left in for longer than this after it is done, the food is overdone; reports say so. Without a
  /// value it keeps. Such days still count as cooked.
  std::optional<double> overdone_after_s;
  int line = 0;  ///< in the case file
};

/// The rule that a task names.
const DangerRule& danger_rule_of(const Task& task);

/// The target, or one kelvin below the local boiling point where the target lies above that, as for
/// bread at high altitude. Reports print what was lowered. Dry food keeps its target.
double effective_target_K(const Task& task, double boiling_K);

/// The most food that a vessel takes [kg], at its density and by the outer sizes of the vessel.
/// What is stirred, and all that is under a lid, fills it to the rim at most. Solids in an open
/// vessel may stand above the rim: up to twice its height (dough rises, roasts bulge), or as one
/// layer of pieces where a piece is thicker than that.
double most_food_kg(const oven::Vessel& vessel, const heat::FoodLoad& food);

/// Reads [[task]]. Canning and sealed jars, which must never be tried in a box oven, are refused
/// with the reason. So are food that its vessel cannot hold (most_food_kg) and a target above 100
/// degC for food that is not dry: at sea level water boils there.
std::vector<Task> read_tasks(const base::CaseNode& root, const oven::OvenDesign& oven);

/// The eight default tasks as TOML, with comments that name their sources. They suit the default
/// oven.
const char* example_tasks_toml();
}  // namespace ovendays::task
