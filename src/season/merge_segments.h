// SPDX-License-Identifier: MIT
// Merges fine segments where one straight line serves as well. The sky is cut finely for the sake
// of shadows and dawn; most of a day needs fewer segments, and the integrator's steps end at each.
// Without merging the demo season takes 1.09 times as long. Private to season.
#pragma once

#include "day_forcing.h"

namespace ovendays::season {

/// Neighbours under the same aim and flaps become one segment whose lines keep the integral and the
/// first moment of every quantity and stay within 0.4 W of every surface's gain, 1 W of the skin's,
/// 0.05 K of the air, 0.3 K of the surroundings and 0.05 m/s of the wind at all ends of the fine
/// segments. A merged segment is at most an hour long.
/// @param merged its vectors are reused
void merge_segments(const Segments& fine, Segments& merged);
}  // namespace ovendays::season
