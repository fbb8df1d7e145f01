// SPDX-License-Identifier: MIT
// The linear systems of a step: (C / (gamma h) - J) k = r, with J a dense core and chains that hang
// on it. Chains are folded into the core from their far ends, so that a solve costs what the core
// costs. No pivoting: the matrix is that of a dissipative network with capacities on its diagonal
// and stays diagonally dominant by columns. Private to heat; see pack.h on OVENDAYS_ISA.
#pragma once

#include "kernel.h"

namespace ovendays::heat::OVENDAYS_ISA {

template <class R, class S>
class StepMatrix {
 public:
  static constexpr int kSize = S::kSize;
  OVENDAYS_INLINE explicit StepMatrix(const ModelOf<R>& model) : m_(model) {}

  /// @param rate 1 / (gamma h) [1/s]
  OVENDAYS_INLINE void factor(const Jacobian<R>& jacobian, R rate) {
    R matrix[kSize][kSize];
    for (int a = 0; a < kSize; ++a) {
      const int i = S::place(a);
      for (int b = 0; b < kSize; ++b) matrix[a][b] = -jacobian.core[i][S::place(b)];
      matrix[a][a] += rate * m_.capacity_JK[static_cast<std::size_t>(kCoreNode[i])];
    }
    fold(jacobian.wall, rate, 4, kNodeWall1, kWallAnchor, wall_, matrix);
    fold(jacobian.floor, rate, 4, kNodeFloor1, kFloorAnchor, floor_, matrix);
    if (S::kShells && m_.shells)
      fold(jacobian.shell, rate, 4, kNodeShell1, kShellAnchor, shell_, matrix);
    if (S::kPanes && m_.panes >= 3)
      fold(jacobian.pane, rate, 1, kNodePane2, kPaneAnchor, pane_, matrix);
      // Unrolled, so that the matrix can stay in registers.
#pragma GCC unroll 8
    for (int k = 0; k < kSize; ++k) {
      inverse_[k] = 1.0 / matrix[k][k];
#pragma GCC unroll 8
      for (int i = k + 1; i < kSize; ++i) {
        const R share = matrix[i][k] * inverse_[k];
        lower_[i][k] = share;
#pragma GCC unroll 8
        for (int j = k + 1; j < kSize; ++j) matrix[i][j] -= share * matrix[k][j];
      }
#pragma GCC unroll 8
      for (int j = k + 1; j < kSize; ++j) upper_[k][j] = matrix[k][j] * inverse_[k];
    }
  }

  /// Solves in place: right-hand side [W] in, temperatures [K] out.
  OVENDAYS_INLINE void solve(R* r) const {
    gather(r, wall_, 4, kNodeWall1, kWallAnchor);
    gather(r, floor_, 4, kNodeFloor1, kFloorAnchor);
    if (S::kShells && m_.shells) gather(r, shell_, 4, kNodeShell1, kShellAnchor);
    if (S::kPanes && m_.panes >= 3) gather(r, pane_, 1, kNodePane2, kPaneAnchor);
    R x[kSize];
    for (int i = 0; i < kSize; ++i) {
      R sum = r[kCoreNode[S::place(i)]];
      for (int j = 0; j < i; ++j) sum -= lower_[i][j] * x[j];
      x[i] = sum;
    }
    for (int i = kSize - 1; i >= 0; --i) {
      R sum = x[i] * inverse_[i];
      for (int j = kSize - 1; j > i; --j) sum -= upper_[i][j] * x[j];
      x[i] = sum;
      r[kCoreNode[S::place(i)]] = sum;
    }
    spread(r, wall_, 4, kNodeWall1, kWallAnchor);
    spread(r, floor_, 4, kNodeFloor1, kFloorAnchor);
    if (S::kShells && m_.shells) spread(r, shell_, 4, kNodeShell1, kShellAnchor);
    if (S::kPanes && m_.panes >= 3) spread(r, pane_, 1, kNodePane2, kPaneAnchor);
  }

 private:
  struct Folded {
    R inverse[4], inward[4], outward[4];  ///< both ways times the inverse
  };
  OVENDAYS_INLINE void fold(const Chain<R>& chain,
                            R rate,
                            int length,
                            int first,
                            int anchor,
                            Folded& out,
                            R (*matrix)[kSize]) {
    R carried = all<R>(0.0);
    for (int k = length - 1; k >= 0; --k) {
      out.inverse[k] =
          1.0 /
          (rate * m_.capacity_JK[static_cast<std::size_t>(first) + static_cast<std::size_t>(k)] -
           chain.diagonal[k] - carried);
      out.inward[k] = chain.to_inner[k] * out.inverse[k];
      out.outward[k] = chain.to_outer[k] * out.inverse[k];
      carried = out.inward[k] * chain.to_outer[k];
    }
    const int row = S::row_of(anchor);
    matrix[row][row] -= carried;
  }
  OVENDAYS_INLINE void gather(R* r, const Folded& chain, int length, int first, int anchor) const {
    for (int k = length - 1; k >= 0; --k) {
      r[k > 0 ? first + k - 1 : kCoreNode[anchor]] += chain.inward[k] * r[first + k];
    }
  }
  OVENDAYS_INLINE void spread(R* r, const Folded& chain, int length, int first, int anchor) const {
    R inner = r[kCoreNode[anchor]];
    for (int k = 0; k < length; ++k) {
      inner = r[first + k] * chain.inverse[k] + chain.outward[k] * inner;
      r[first + k] = inner;
    }
  }

  const ModelOf<R>& m_;
  R lower_[kSize][kSize], inverse_[kSize];
  R upper_[kSize][kSize];  ///< rows times their inverse pivots
  Folded wall_{}, floor_{}, shell_{}, pane_{};
};
}  // namespace ovendays::heat::OVENDAYS_ISA
