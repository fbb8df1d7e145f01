// SPDX-License-Identifier: MIT
// Models and states converted between double and single precision. Private to heat.
//
// None of these functions may be inlined into the integrator: GCC 12 optimises a vector that is
// narrowed to single precision and widened again into the original vector, as if nothing had been
// rounded.
#pragma once

#include <array>

#include "ovendays/heat/model.h"

namespace ovendays::heat {

BasicHeatModel<float> to_single_precision(const HeatModel& model);

/// A state rounded to single precision.
void narrow(const State& state, std::array<float, kNodes>& narrowed);
/// The same numbers in double precision.
void widen(const std::array<float, kNodes>& narrowed, State& state);
// For code that is written for both precisions: nothing to do in double.
inline void narrow(const State& state, State& same) { same = state; }
inline void widen(const State& same, State& state) { state = same; }
}  // namespace ovendays::heat
