// SPDX-License-Identifier: MIT
// One cook: a load put into the oven at a time of the day, followed until it is done or it is too
// late.
#pragma once

#include <span>

#include "ovendays/heat/integrator.h"
#include "ovendays/task/forerunners.h"
#include "ovendays/task/routine.h"
#include "ovendays/task/task.h"

namespace ovendays::task {

struct CookResult {
  bool done = false;       ///< target, hold and oven air all met by finish_by
  bool overtaken = false;  ///< not followed to its end: a cook that failed stays ahead of it; the
                           ///< rest is as it was by then
  bool safe = true;        ///< danger rule met (always true for food that does not spoil)
  double finish_s = 0.0;   ///< when done [s of the day]
  double peak_core_K = 0.0;
  double hold_s = 0.0;           ///< time at or above target
  double air_s = 0.0;            ///< time with the oven air hot enough
  double danger_s = 0.0;         ///< time of the core in the danger zone
  double boiling_from_s = -1.0;  ///< first time at the boiling point; < 0 never
  double evaporated_kg = 0.0;
  heat::RunSummary run;
};

struct CookSetup {
  heat::State oven{};     ///< oven nodes at loading (food and vessel are set from the task)
  heat::Forcing forcing;  ///< of the day, under this load; lid openings not yet in
  double load_s = 0.0;
  double sunset_s = 86400.0;          ///< after it, a core that cools below target ends the run
  heat::StepWatcher* also = nullptr;  ///< sees every step too
};

/// Cooks one task several times over: other loading times, other days. Results in the same order.
/// A failed integration is told in CookResult::run.
/// @param model of the oven loaded with the task's vessel and food
/// @param forerunners of these days under this task and model, kept from one call to the next:
/// cooks behind them are dropped as overtaken. Where it is null, and those that somebody else
/// watches too, all are followed to their end.
void run_cooks(const Task& task,
               const Routine& routine,
               const heat::HeatModel& model,
               std::span<const CookSetup> setups,
               std::span<CookResult> results,
               const heat::IntegratorOptions& options,
               Forerunners* forerunners = nullptr);
}  // namespace ovendays::task
