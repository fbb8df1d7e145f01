// SPDX-License-Identifier: MIT
// One cook: a load put into the oven at a time of the day, followed until it is done or it is too
// late.
#pragma once

#include "ovendays/heat/integrator.h"
#include "ovendays/task/routine.h"
#include "ovendays/task/task.h"

namespace ovendays::task {

struct CookResult {
  bool done = false;      ///< target, hold and oven air all met by finish_by
  bool safe = true;       ///< danger rule met (always true for food that does not spoil)
  double finish_s = 0.0;  ///< when done [s of the day]
  double peak_core_K = 0.0;
  double hold_s = 0.0;           ///< time at or above target
  double air_s = 0.0;            ///< time with the oven air hot enough
  double danger_s = 0.0;         ///< time of the core in the danger zone
  double boiling_from_s = -1.0;  ///< first time at the boiling point; < 0 never
  double evaporated_kg = 0.0;
  heat::RunSummary run;
};

struct CookSetup {
  const heat::HeatModel* model = nullptr;  ///< of the loaded oven
  heat::State oven{};     ///< oven nodes at loading (food and vessel are set from the task)
  heat::Forcing forcing;  ///< of the day, lid openings not yet in
  double load_s = 0.0;
  double sunset_s = 86400.0;  ///< after it, a core that cools below target ends the run
};

/// @throws nothing; a failed integration is told in CookResult::run.
CookResult run_cook(const Task& task,
                    const Routine& routine,
                    const CookSetup& setup,
                    const heat::IntegratorOptions& options,
                    heat::StepWatcher* also = nullptr);
}  // namespace ovendays::task
