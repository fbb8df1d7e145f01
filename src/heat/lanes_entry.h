// SPDX-License-Identifier: MIT
// Chooses the engine for a list of runs by its precision. Private to heat; see pack.h on
// OVENDAYS_ISA.
#pragma once

#include "lanes_engine.h"

namespace ovendays::heat::OVENDAYS_ISA {

template <class Pack>
void run_packs(const HeatModel& model,
               const ModelOf<Pack>& numbers,
               Run* runs,
               RunSummary* summaries,
               std::size_t count,
               const IntegratorOptions& options) {
  const ReadyForcings<PlainOf<Pack>> ready(runs, count);
  LaneEngineImpl<Pack>(model, numbers, ready, runs, summaries, count, options).go();
}

void run_lanes(const HeatModel& model,
               Run* runs,
               RunSummary* summaries,
               std::size_t count,
               const IntegratorOptions& options) {
  if (options.precision == Precision::kDouble) {
    run_packs<DoublePack>(model, model, runs, summaries, count, options);
  } else {
    run_packs<SinglePack>(model, to_single_precision(model), runs, summaries, count, options);
  }
}
}  // namespace ovendays::heat::OVENDAYS_ISA
