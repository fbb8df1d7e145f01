// SPDX-License-Identifier: MIT
// One cook: a load that is put into the oven at some time of the day and followed until it is done,
// hopeless, or too late.
#pragma once

#include <span>

#include "ovendays/heat/integrator.h"
#include "ovendays/task/dominance.h"
#include "ovendays/task/routine.h"
#include "ovendays/task/task.h"

namespace ovendays::task {

struct CookResult {
  bool done = false;  ///< target, hold and oven air all met by finish_by
  /// The cook was stopped early, because it must fail like another one that stays ahead of it (see
  /// task/dominance.h). The members below are as they were when it was stopped.
  bool pruned = false;
  bool safe = true;       ///< the danger rule is met (always true for food that does not spoil)
  double finish_s = 0.0;  ///< when done [s of the day]
  double peak_core_K = 0.0;
  double hold_s = 0.0;           ///< time at or above target
  double air_s = 0.0;            ///< time with the oven air hot enough
  double danger_s = 0.0;         ///< time of the core in the danger zone
  double boiling_from_s = -1.0;  ///< first time at the boiling point; < 0: never
  double evaporated_kg = 0.0;
  heat::RunSummary run;
};

/// Start and surroundings of a cook.
struct CookSetup {
  heat::State oven{};     ///< at loading; nodes of food and vessel are set from the task
  heat::Forcing forcing;  ///< of the day, under this load
  double load_s = 0.0;
  double sunset_s = 86400.0;          ///< after it a cook may be given up
  heat::StepWatcher* also = nullptr;  ///< also sees every step; null: none
};

/// Runs cooks of one task at different loading times and on different days, side by side. Results
/// in the same order. A failed integration is reported in CookResult::run.
/// @param model of the oven loaded with the task's vessel and food
/// @param pruning of this task and these days; pass the same object to every call for them. Null:
/// all cooks are followed to their end. Cooks with CookSetup::also set always are.
void run_cooks(const Task& task,
               const Routine& routine,
               const heat::HeatModel& model,
               std::span<const CookSetup> setups,
               std::span<CookResult> results,
               const heat::IntegratorOptions& options,
               DominancePruning* pruning = nullptr);
}  // namespace ovendays::task
