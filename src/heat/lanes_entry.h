// SPDX-License-Identifier: MIT
// Chooses the engine for a list of runs: by precision and by the shape of the network. Private to
// heat; see pack.h on OVENDAYS_ISA.
#pragma once

#include "lanes_engine.h"

namespace ovendays::heat::OVENDAYS_ISA {

/// Does the food meet nothing but its vessel?
inline bool under_lid(const HeatModel& model) {
  bool alone = model.convection[4] <= 0.0 && model.film_outside_m2[4] <= 0.0;
  for (const double exchange_m2 : model.exchange_m2[4]) alone = alone && exchange_m2 <= 0.0;
  return alone;
}

/// One engine for all shapes, so that it compiles sooner: the same bits, a little slower.
#if defined(OVENDAYS_ONE_SHAPE)
template <class Plain>
inline constexpr bool kOneShape = true;
#elif defined(OVENDAYS_ONE_DOUBLE_SHAPE)
template <class Plain>
inline constexpr bool kOneShape = sizeof(Plain) == sizeof(double);
#else
template <class Plain>
inline constexpr bool kOneShape = false;
#endif

template <class Pack>
void run_packs(const HeatModel& model,
               const ModelOf<Pack>& numbers,
               Run* runs,
               RunSummary* summaries,
               std::size_t count,
               const IntegratorOptions& options) {
  const ReadyForcings<PlainOf<Pack>> ready(runs, count);
  const auto go = [&]<class S>(S) {
    LaneEngineImpl<Pack, S>(model, numbers, ready, runs, summaries, count, options).go();
  };
  // The common shapes have engines of their own; the rest share the one that carries everything.
  if constexpr (!kOneShape<PlainOf<Pack>>) {
    if (model.panes == 1 && !model.loaded) return go(Shape<false, false, false>{});
    if (model.panes == 1 && !model.shells && under_lid(model))
      return go(Shape<true, false, false, true>{});
    if (model.panes == 1) return go(Shape<true, false, true>{});
  }
  go(AnyShape{});
}

void run_lanes(const HeatModel& model,
               Run* runs,
               RunSummary* summaries,
               std::size_t count,
               const IntegratorOptions& options) {
  if (options.precision == Precision::kDouble) {
    run_packs<DoublePack>(model, model, runs, summaries, count, options);
  } else {
    run_packs<SinglePack>(model, SingleModel(model), runs, summaries, count, options);
  }
}
}  // namespace ovendays::heat::OVENDAYS_ISA
