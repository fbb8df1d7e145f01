// SPDX-License-Identifier: MIT
// Merges fine segments of a day where one straight line is close enough. The sky is cut finely for
// the sake of shadows and dawn, most of a day needs fewer segments, and every segment ends a step
// of the integrator.
//
// Why this stays although it only saves time: without it the demo season takes 1.09 times as long
// (measured), and a study runs hundreds of seasons. In return for its 350 lines nothing else has to
// know about it: it turns Segments into Segments, and its tolerances are far below the uncertainty
// of weather and design. Private to season.
#pragma once

#include "day_forcing.h"

namespace ovendays::season {

/// Merges neighbours under the same aim and flaps into one segment, whose lines keep the integral
/// and the first moment of every quantity and stay within 0.4 W of every surface's gain, 1 W of the
/// skin's, 0.05 K of the air, 0.3 K of the surroundings and 0.05 m/s of the wind at all ends of the
/// fine segments. A merged segment is at most an hour long.
/// @param merged receives the result; its vectors are reused
void merge_segments(const Segments& fine, Segments& merged);
}  // namespace ovendays::season
