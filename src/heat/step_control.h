// SPDX-License-Identifier: MIT
// How long the steps are, for all lanes of a pack at once. Private to heat; see pack.h on
// OVENDAYS_ISA.
#pragma once

#include "pack.h"

namespace ovendays::heat::OVENDAYS_ISA {

/// First step after a move of the lid [s]: short enough to follow the air. After jumps of sun and
/// wind see ReadySegment.
inline constexpr double kAfterLid_s = 15.0;
/// For so long after loading or a move of the lid [s] the errors of what is thin (liner, tray,
/// vessel) count still less, by this: they even out among each other within seconds, and a step
/// keeps energy whatever its error. (After jumps of the sun too it would cost up to 0.1 K under
/// broken cloud.)
inline constexpr double kUnsettled_s = 100.0;
inline constexpr double kUnsettledWeight = 0.4;
/// For so long after that the fast part of what the move left dies out [s].
inline constexpr double kDiesOut_s = 500.0;
/// First step after boiling sets in [s].
inline constexpr double kOnsetStep_s = 1.0;
/// Errors beyond it are no numbers to go by.
inline constexpr double kHuge = 1e12;
/// Up to so many times the error allowed a step is taken: to try it again costs more than it mends.
inline constexpr double kTaken = 1.2;

template <class Pack>
class StepControl {
 public:
  /// The first step of those up to the next cut: all the way where little would be left over, half
  /// of it where it takes two.
  OVENDAYS_INLINE static Pack first_of(Pack wanted_s, Pack left_s) {
    const Pack parted_s = select(left_s < 2.0 * wanted_s, 0.5 * left_s, wanted_s);
    return select(left_s < num<Pack>(1.15) * wanted_s, left_s, parted_s);
  }

  /// A step: its length, its error in multiples of the one allowed; positive where it was taken,
  /// and where what makes the error dies out.
  struct Tried {
    Pack h_s, error, taken, dies_out;
  };
  /// By how much the next step may be longer. An error goes by the cube of its step. What makes it
  /// may rise or die out from one step to the next, and is foreseen to go on so (predictive
  /// control: Gustafsson 1994, from memory): a rise always, dying out where it does. After a step
  /// that is not taken nothing is foreseen.
  OVENDAYS_INLINE Pack growth(const Tried& last) {
    const Pack none = all<Pack>(0.0), one = all<Pack>(1.0);
    const Pack bounded =
        lesser_of(greater_of(last.error, all<Pack>(num<Pack>(1e-3))), all<Pack>(num<Pack>(kHuge)));
    const Pack root = inverse_cube_root(bounded);
    const Pack reach_s = last.h_s * root;
    const Pack most = select(last.dies_out > none, all<Pack>(num<Pack>(1.3)), one);
    const Pack trend =
        greater_of(lesser_of(reach_s / past_reach_s_, most), all<Pack>(num<Pack>(0.9)));
    const Pack foreseen = select(past_reach_s_ > none, trend, one);
    past_reach_s_ = select(last.taken > none, reach_s, none);
    return lesser_of(greater_of(num<Pack>(0.85) * foreseen * root, all<Pack>(num<Pack>(0.2))),
                     all<Pack>(4.0));
  }
  /// A lane's next step has nothing to do with its last.
  OVENDAYS_INLINE void forget(int l) { past_reach_s_[l] = 0; }

 private:
  Pack past_reach_s_{};  ///< of a step with just the error allowed; 0: not known
};
}  // namespace ovendays::heat::OVENDAYS_ISA
