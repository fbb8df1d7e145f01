// SPDX-License-Identifier: MIT
#include "solver.h"

namespace ovendays::heat::kernel {

void StepMatrix::fold(const HeatModel& model,
                      const Jacobian::Chain& chain,
                      double rate,
                      int length,
                      int first,
                      int anchor,
                      ChainFactors& out) {
  out.length = length;
  out.first = first;
  out.anchor = static_cast<std::size_t>(anchor);
  // Off-diagonals of the matrix are minus the Jacobian's; the last node is eliminated first.
  double carried = 0.0;
  for (int k = length - 1; k >= 0; --k) {
    const auto i = static_cast<std::size_t>(k);
    const double diagonal =
        rate * model.capacity_JK[static_cast<std::size_t>(first) + i] - chain.diagonal[i] - carried;
    out.inverse_diagonal[i] = 1.0 / diagonal;
    out.fold[i] = chain.to_inner[i] * out.inverse_diagonal[i];
    out.to_outer[i] = chain.to_outer[i];
    carried = out.fold[i] * chain.to_outer[i];
  }
  lu_[out.anchor][out.anchor] -= carried;
}

void StepMatrix::factor(const HeatModel& model, const Jacobian& jacobian, double rate) {
  core_size_ = model.panes >= 2 ? 7 : 6;
  for (std::size_t i = 0; i < core_size_; ++i) {
    for (std::size_t j = 0; j < core_size_; ++j) lu_[i][j] = -jacobian.core[i][j];
    lu_[i][i] += rate * model.capacity_JK[static_cast<std::size_t>(kCoreNode[i])];
  }
  chain_count_ = 0;
  const auto next = [this]() -> ChainFactors& {
    return chains_[static_cast<std::size_t>(chain_count_++)];
  };
  fold(model, jacobian.wall, rate, 4, kNodeWall1, kWallAnchor, next());
  fold(model, jacobian.floor, rate, 4, kNodeFloor1, kFloorAnchor, next());
  if (model.shells) fold(model, jacobian.shell, rate, 4, kNodeShell1, kShellAnchor, next());
  if (model.panes >= 3) fold(model, jacobian.pane, rate, 1, kNodePane2, kPaneAnchor, next());
  // Gaussian elimination without pivoting: the matrix is that of a dissipative network with
  // capacities on its diagonal and stays diagonally dominant by columns.
  for (std::size_t k = 0; k < core_size_; ++k) {
    inverse_pivot_[k] = 1.0 / lu_[k][k];
    for (std::size_t i = k + 1; i < core_size_; ++i) {
      const double factor = lu_[i][k] * inverse_pivot_[k];
      lu_[i][k] = factor;
      for (std::size_t j = k + 1; j < core_size_; ++j) lu_[i][j] -= factor * lu_[k][j];
    }
  }
}

void StepMatrix::solve(State& r) const {
  for (int c = 0; c < chain_count_; ++c) {
    const ChainFactors& chain = chains_[static_cast<std::size_t>(c)];
    const auto first = static_cast<std::size_t>(chain.first);
    for (int k = chain.length - 1; k >= 0; --k) {
      const auto i = static_cast<std::size_t>(k);
      const std::size_t inner =
          k > 0 ? first + i - 1 : static_cast<std::size_t>(kCoreNode[chain.anchor]);
      r[inner] += chain.fold[i] * r[first + i];
    }
  }
  std::array<double, kCore> x{};
  for (std::size_t i = 0; i < core_size_; ++i) {
    double sum = r[static_cast<std::size_t>(kCoreNode[i])];
    for (std::size_t j = 0; j < i; ++j) sum -= lu_[i][j] * x[j];
    x[i] = sum;
  }
  for (std::size_t i = core_size_; i-- > 0;) {
    double sum = x[i];
    for (std::size_t j = i + 1; j < core_size_; ++j) sum -= lu_[i][j] * x[j];
    x[i] = sum * inverse_pivot_[i];
    r[static_cast<std::size_t>(kCoreNode[i])] = x[i];
  }
  if (core_size_ < kCore) r[kNodePane1] = 0.0;
  for (int c = 0; c < chain_count_; ++c) {
    const ChainFactors& chain = chains_[static_cast<std::size_t>(c)];
    const auto first = static_cast<std::size_t>(chain.first);
    double inner = r[static_cast<std::size_t>(kCoreNode[chain.anchor])];
    for (int k = 0; k < chain.length; ++k) {
      const auto i = static_cast<std::size_t>(k);
      inner = (r[first + i] + chain.to_outer[i] * inner) * chain.inverse_diagonal[i];
      r[first + i] = inner;
    }
  }
}
}  // namespace ovendays::heat::kernel
