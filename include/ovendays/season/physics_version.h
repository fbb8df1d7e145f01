// SPDX-License-Identifier: MIT
// The number of the model, which tells results of an older model from those of this one.
#pragma once

namespace ovendays::season {

/// Raise it by one in every change after which some case may have another outcome, cause, loading
/// or finishing time: another formula, property, default, judgement or step of the solver. It
/// enters the digest of every alternative of a study, so that a rerun after such a change takes no
/// number of the older model over. A change that cannot move any of these, such as one of words,
/// pictures or pace, leaves it as it is.
inline constexpr int kPhysicsVersion = 1;
}  // namespace ovendays::season
