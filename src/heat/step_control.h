// SPDX-License-Identifier: MIT
// Step-size control, for all lanes of a pack at once. Private to heat; see pack.h on OVENDAYS_ISA.
#pragma once

#include "pack.h"

namespace ovendays::heat::OVENDAYS_ISA {

/// First step after the lid opens or closes [s]: short enough to follow the air. For jumps of sun
/// and wind see linear_segments.cpp.
inline constexpr double kAfterLid_s = 15.0;
/// For kTransient_s after loading or after the lid moved, the errors of the thin parts (liner,
/// tray, vessel) are weighted by kTransientWeight. They even out among each other within seconds,
/// and a step conserves energy whatever its error. (The same after jumps of the sun would cost up
/// to 0.1 K under broken cloud.)
inline constexpr double kTransient_s = 100.0;
inline constexpr double kTransientWeight = 0.4;
/// Weight of the lid's error. Its convection has a kink where it passes the air's temperature,
/// which the embedded error shows only in part.
inline constexpr double kLidWeight = 1.5;
/// For so long after that the fast part of the transient decays [s]; see growth().
inline constexpr double kDiesOut_s = 500.0;
/// First step after the onset of boiling [s].
inline constexpr double kOnsetStep_s = 1.0;
/// A larger error estimate says nothing about the right step any more.
inline constexpr double kHuge = 1e12;
/// A step is accepted up to this multiple of the allowed error: repeating it costs more than it
/// gains.
inline constexpr double kAcceptedError = 1.2;

template <class Pack>
class StepControl {
 public:
  /// The step to try, given the time left to the next cut: all of that where the rest would be
  /// short, half of it where two steps are needed.
  OVENDAYS_INLINE static Pack first_of(Pack wanted_s, Pack left_s) {
    const Pack parted_s = select(left_s < 2.0 * wanted_s, 0.5 * left_s, wanted_s);
    return select(left_s < scalar<Pack>(1.15) * wanted_s, left_s, parted_s);
  }

  /// A step tried: its length, its error in multiples of the allowed one, whether it was accepted,
  /// and whether a transient still decays (both > 0 for yes).
  struct Tried {
    Pack h_s, error, accepted, dies_out;
  };
  /// Factor of the next step's length. The error grows with the cube of the step. Its coefficient
  /// changes from step to step, and predictive control (Gustafsson 1994, from memory) extrapolates
  /// that trend: always where the coefficient grows, and where it falls only while a transient
  /// decays. After a rejected step there is no extrapolation.
  OVENDAYS_INLINE Pack growth(const Tried& last) {
    const Pack none = broadcast<Pack>(0.0), one = broadcast<Pack>(1.0);
    const Pack bounded = min_of(max_of(last.error, broadcast<Pack>(scalar<Pack>(1e-3))),
                                broadcast<Pack>(scalar<Pack>(kHuge)));
    const Pack root = inverse_cube_root(bounded);
    const Pack reach_s = last.h_s * root;
    const Pack most = select(last.dies_out > none, broadcast<Pack>(scalar<Pack>(1.3)), one);
    const Pack trend =
        max_of(min_of(reach_s / past_reach_s_, most), broadcast<Pack>(scalar<Pack>(0.9)));
    const Pack foreseen = select(past_reach_s_ > none, trend, one);
    past_reach_s_ = select(last.accepted > none, reach_s, none);
    return min_of(max_of(scalar<Pack>(0.85) * foreseen * root, broadcast<Pack>(scalar<Pack>(0.2))),
                  broadcast<Pack>(4.0));
  }
  /// Forgets the trend of a lane: its next step has nothing to do with its last.
  OVENDAYS_INLINE void forget(int l) { past_reach_s_[l] = 0; }

 private:
  Pack past_reach_s_{};  ///< length of a step with just the allowed error; 0: unknown
};
}  // namespace ovendays::heat::OVENDAYS_ISA
