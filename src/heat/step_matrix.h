// SPDX-License-Identifier: MIT
// The linear systems of a step, (C / (gamma h) - J) k = r, where J has a dense core and chains (see
// network_types.h). The chains are eliminated first, from their far ends inwards, so that a
// solution costs little more than that of the core. There is no pivoting: J is the Jacobian of a
// dissipative network, and with the capacities added to its diagonal the matrix is diagonally
// dominant by columns. Private to heat; see pack.h on OVENDAYS_ISA.
#pragma once

#include "network.h"

namespace ovendays::heat::OVENDAYS_ISA {

/// Row order of the dense system: the food first, then the core's other nodes in their own order,
/// and the water last. Water acts on other nodes only where the food runs short of it; otherwise
/// its column is empty but for the diagonal, and skipping it saves work.
OVENDAYS_INLINE constexpr int core_place(int row) {
  return row == 0 ? kCoreFood : row <= kCoreFood ? row - 1 : row;
}
/// The row of a core index; the inverse of core_place().
OVENDAYS_INLINE constexpr int core_row(int place) {
  return place == kCoreFood ? 0 : place < kCoreFood ? place + 1 : place;
}

template <class R>
class StepMatrix {
 public:
  OVENDAYS_INLINE explicit StepMatrix(const ModelOf<R>& model) : m_(model) {}

  /// @param rate 1 / (gamma h) [1/s]
  /// @param dries whether some lane's food is short of water (see core_place)
  OVENDAYS_INLINE void factor(const Jacobian<R>& jacobian, R rate, bool dries) {
    R matrix[kCore][kCore];
#pragma GCC unroll 32
    for (int a = 0; a < kCore; ++a) {
      const int i = core_place(a);
#pragma GCC unroll 32
      for (int b = 0; b < kCore; ++b) matrix[a][b] = -jacobian.core[i][core_place(b)];
      matrix[a][a] =
          add_product(matrix[a][a], m_.capacity_JK[static_cast<std::size_t>(kCoreNode[i])], rate);
    }
    fold(jacobian.wall, rate, 4, kNodeWall1, kWallAnchor, wall_, matrix);
    fold(jacobian.floor, rate, 4, kNodeFloor1, kFloorAnchor, floor_, matrix);
    if (m_.shells) fold(jacobian.shell, rate, 4, kNodeShell1, kShellAnchor, shell_, matrix);
    if (m_.panes >= 3) fold(jacobian.pane, rate, 1, kNodePane2, kPaneAnchor, pane_, matrix);
      // Unrolled, so that the compiler can keep much of the matrix in registers.
#pragma GCC unroll 16
    for (int k = 0; k < kFull; ++k) {
      inverse_[k] = 1.0 / matrix[k][k];
#pragma GCC unroll 16
      for (int i = k + 1; i < kCore; ++i) {
        const R share = matrix[i][k] * inverse_[k];
        lower_[i][k] = share;
#pragma GCC unroll 16
        for (int j = k + 1; j < kFull; ++j)
          matrix[i][j] = subtract_product(matrix[i][j], share, matrix[k][j]);
      }
#pragma GCC unroll 16
      for (int j = k + 1; j < kFull; ++j) upper_[k][j] = matrix[k][j] * inverse_[k];
    }
    factor_water(matrix, dries);
  }

  /// Solves in place: right-hand side [W] in, temperatures [K] out. Not inlined: it runs four times
  /// a step, and one copy of it in the instruction cache is quicker than four.
  [[gnu::noinline]] void solve(R* r) const {
    gather(r, wall_, 4, kNodeWall1, kWallAnchor);
    gather(r, floor_, 4, kNodeFloor1, kFloorAnchor);
    if (m_.shells) gather(r, shell_, 4, kNodeShell1, kShellAnchor);
    if (m_.panes >= 3) gather(r, pane_, 1, kNodePane2, kPaneAnchor);
    R x[kCore];
#pragma GCC unroll 16
    for (int i = 0; i < kCore; ++i) {
      R sum = r[kCoreNode[core_place(i)]];
#pragma GCC unroll 16
      for (int j = 0; j < i; ++j) sum = subtract_product(sum, lower_[i][j], x[j]);
      x[i] = sum;
    }
#pragma GCC unroll 16
    for (int i = 0; i < kCore; ++i) x[i] = x[i] * inverse_[i];
    if (dries_) {
#pragma GCC unroll 16
      for (int i = 0; i < kFull; ++i)
        x[i] = subtract_product(x[i], upper_[i][kCore - 1], x[kCore - 1]);
    }
#pragma GCC unroll 16
    for (int i = kFull - 1; i >= 0; --i) {
      R sum = x[i];
#pragma GCC unroll 16
      for (int j = kFull - 1; j > i; --j) sum = subtract_product(sum, upper_[i][j], x[j]);
      x[i] = sum;
    }
#pragma GCC unroll 16
    for (int i = 0; i < kCore; ++i) r[kCoreNode[core_place(i)]] = x[i];
    spread(r, wall_, 4, kNodeWall1, kWallAnchor);
    spread(r, floor_, 4, kNodeFloor1, kFloorAnchor);
    if (m_.shells) spread(r, shell_, 4, kNodeShell1, kShellAnchor);
    if (m_.panes >= 3) spread(r, pane_, 1, kNodePane2, kPaneAnchor);
  }

 private:
  struct Folded {
    R inverse[4], inward[4], outward[4];  ///< to_inner and to_outer, times the inverse
  };
  /// Eliminates the water's column, the last.
  OVENDAYS_INLINE void factor_water(const R (*matrix)[kCore], bool dries) {
    R column[kCore];
#pragma GCC unroll 32
    for (int i = 0; i < kCore; ++i) column[i] = matrix[i][kCore - 1];
    dries_ = dries;
    if (dries) {
#pragma GCC unroll 16
      for (int k = 0; k < kFull; ++k) {
#pragma GCC unroll 16
        for (int i = k + 1; i < kCore; ++i)
          column[i] = subtract_product(column[i], lower_[i][k], column[k]);
        upper_[k][kCore - 1] = column[k] * inverse_[k];
      }
    }
    inverse_[kCore - 1] = 1.0 / column[kCore - 1];
  }

  // Elimination of a chain (fold), and its part of the forward (gather) and backward (spread)
  // substitution.
  OVENDAYS_INLINE void fold(const Chain<R>& chain,
                            R rate,
                            int length,
                            int first,
                            int anchor,
                            Folded& out,
                            R (*matrix)[kCore]) {
    R carried = broadcast<R>(0.0);
#pragma GCC unroll 32
    for (int k = length - 1; k >= 0; --k) {
      out.inverse[k] =
          1.0 /
          add_product(-(chain.diagonal[k] + carried),
                      m_.capacity_JK[static_cast<std::size_t>(first) + static_cast<std::size_t>(k)],
                      rate);
      out.inward[k] = chain.to_inner[k] * out.inverse[k];
      out.outward[k] = chain.to_outer[k] * out.inverse[k];
      carried = out.inward[k] * chain.to_outer[k];
    }
    const int row = core_row(anchor);
    matrix[row][row] -= carried;
  }
  OVENDAYS_INLINE void gather(R* r, const Folded& chain, int length, int first, int anchor) const {
#pragma GCC unroll 32
    for (int k = length - 1; k >= 0; --k) {
      R& to = r[k > 0 ? first + k - 1 : kCoreNode[anchor]];
      to = add_product(to, chain.inward[k], r[first + k]);
    }
  }
  OVENDAYS_INLINE void spread(R* r, const Folded& chain, int length, int first, int anchor) const {
    R inner = r[kCoreNode[anchor]];
#pragma GCC unroll 32
    for (int k = 0; k < length; ++k) {
      inner = add_product(r[first + k] * chain.inverse[k], chain.outward[k], inner);
      r[first + k] = inner;
    }
  }

  /// Rows and columns before the water's.
  static constexpr int kFull = kCore - 1;

  const ModelOf<R>& m_;
  bool dries_ = false;
  R lower_[kCore][kCore], inverse_[kCore];
  R upper_[kCore][kCore];  ///< rows times their inverse pivots
  Folded wall_{}, floor_{}, shell_{}, pane_{};
};
}  // namespace ovendays::heat::OVENDAYS_ISA
