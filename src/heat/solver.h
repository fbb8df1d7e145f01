// SPDX-License-Identifier: MIT
// The linear systems of a step: (C / (gamma h) - J) k = r, with J a dense core and chains that hang
// on it. Chains are folded into the core from their far ends, so that a solve costs what the core
// costs.
#pragma once

#include "kernel.h"

namespace ovendays::heat::kernel {

class StepMatrix {
 public:
  /// @param rate 1 / (gamma h) [1/s]
  void factor(const HeatModel& model, const Jacobian& jacobian, double rate);
  /// Solves in place: right-hand side [W] in, temperatures [K] out.
  void solve(State& r) const;

 private:
  struct ChainFactors {
    std::array<double, 4> inverse_diagonal{}, fold{}, to_outer{};
    int length = 0;
    int first = 0;
    std::size_t anchor = 0;
  };
  void fold(const HeatModel& model,
            const Jacobian::Chain& chain,
            double rate,
            int length,
            int first,
            int anchor,
            ChainFactors& out);
  std::array<std::array<double, kCore>, kCore> lu_{};
  std::array<double, kCore> inverse_pivot_{};
  std::array<ChainFactors, 4> chains_{};
  int chain_count_ = 0;
  std::size_t core_size_ = kCore;
};
}  // namespace ovendays::heat::kernel
