// SPDX-License-Identifier: MIT
// What is to be cooked, and when that counts as done. Targets and safety limits carry the published
// rule they come from; nothing here calls food safe, it says which rule was met.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ovendays/base/case_node.h"
#include "ovendays/heat/model.h"
#include "ovendays/oven/design.h"

namespace ovendays::task {

/// The range of temperatures in which germs grow fast, and how long food may stay in it.
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

struct Task {
  std::string name;
  std::string vessel;  ///< name of one of the oven's vessels
  heat::FoodLoad food;
  double start_K = 293.15;           ///< of food and vessel when loaded
  double target_K = 355.15;          ///< of the food's core
  double hold_s = 0.0;               ///< time at or above target
  bool unbroken = false;             ///< the hold must be in one go (pasteurising)
  std::optional<double> oven_air_K;  ///< baking: the oven's air must be at least this hot ...
  double oven_air_s = 0.0;           ///< ... for this long in total
  double finish_by_s = 66600.0;      ///< 18:30, local standard time
  bool spoils = false;               ///< food that spoils: time in the danger zone counts
  std::string rule = "four-hour";    ///< key of a DangerRule
  std::string source;                ///< where the target comes from
  int line = 0;
};

/// The rule a task names.
const DangerRule& danger_rule_of(const Task& task);

/// Target, lowered to one kelvin below the local boiling point where it lies above it (bread high
/// up).
double effective_target_K(const Task& task, double boiling_K);

/// Reads [[task]]. Refuses what must not be done in a box oven: canning, sealed jars ("never"),
/// with the reason.
std::vector<Task> read_tasks(const base::CaseNode& root, const oven::OvenDesign& oven);

/// The eight default tasks, commented with their sources; parses without faults with the default
/// oven.
const char* example_tasks_toml();
}  // namespace ovendays::task
