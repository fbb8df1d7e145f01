// SPDX-License-Identifier: MIT
// Food that was loaded frozen: its temperature from its state (see HeatModel::food_temperature_K),
// and what that makes of the network's derivatives. Private to heat; see pack.h on OVENDAYS_ISA.
#pragma once

#include "network_types.h"

namespace ovendays::heat::OVENDAYS_ISA {

/// Temperature of a food node and its derivative by the state.
template <class R>
OVENDAYS_INLINE Fitted<R> food_temperature(const ModelOf<R>& model, R state_K) {
  using Scalar = ScalarOf<R>;
  const Scalar thaw_slope = scalar<R>(kThawRange_K) / model.thaw_span_K;
  const R none = broadcast<R>(0.0);
  const R over_K = state_K - scalar<R>(base::kZeroCelsius_K);
  const R frozen_K = min_of(over_K + model.thaw_span_K, none);
  const R thawing_K = max_of(min_of(over_K, none), broadcast<R>(-model.thaw_span_K));
  const R below_K = thaw_slope * thawing_K + model.frozen_slope * frozen_K;
  const R slope_below =
      select(frozen_K < none, broadcast<R>(model.frozen_slope), broadcast<R>(thaw_slope));
  return {select(over_K < none, scalar<R>(base::kZeroCelsius_K) + below_K, state_K),
          select(over_K < none, slope_below, broadcast<R>(1.0))};
}

/// The network sees temperatures; the integrator follows states. This turns the states of the food
/// into temperatures, and the derivatives by its temperatures into those by its states.
template <class R>
struct FoodStates {
  R at_K[kNodes];  ///< temperatures of all nodes
  R slope[5];      ///< of the food node and its shells

  OVENDAYS_INLINE FoodStates(const ModelOf<R>& model, const R* y) {
#pragma GCC unroll 32
    for (int n = 0; n < kNodes; ++n) at_K[n] = y[n];
#pragma GCC unroll 32
    for (int k = 0; k < 5; ++k) {
      const int node = k == 0 ? kNodeFood : kNodeShell1 + k - 1;
      const Fitted<R> food = food_temperature<R>(model, y[node]);
      at_K[node] = food.value;
      slope[k] = food.slope;
    }
  }

  OVENDAYS_INLINE void scale(Jacobian<R>& jacobian, Powers<R>& powers) const {
#pragma GCC unroll 32
    for (int row = 0; row < kCore; ++row)
      jacobian.core[row][kCoreFood] = slope[0] * jacobian.core[row][kCoreFood];
    powers.out_slope_WK[kNodeFood] = slope[0] * powers.out_slope_WK[kNodeFood];
#pragma GCC unroll 32
    for (int k = 0; k < 4; ++k) {
      jacobian.shell.to_outer[k] = slope[k] * jacobian.shell.to_outer[k];
      jacobian.shell.to_inner[k] = slope[k + 1] * jacobian.shell.to_inner[k];
      jacobian.shell.diagonal[k] = slope[k + 1] * jacobian.shell.diagonal[k];
    }
  }
};
}  // namespace ovendays::heat::OVENDAYS_ISA
