// SPDX-License-Identifier: MIT
// Pieces of a day joined where one straight line serves as well: the sky is cut finely for the sake
// of shadows and dawn, and most of a day needs less. Private to season.
#pragma once

#include "gains.h"

namespace ovendays::season {

/// Makes GainDay::joined from air and gains: neighbours under the same aim and flaps become one
/// piece whose lines keep the integral and the first moment of every quantity and stay within 0.4 W
/// of every surface's gain, 1 W of the skin's, 0.05 K of the air, 0.3 K of the surroundings and
/// 0.05 m/s of the wind at all ends of the pieces joined. At most an hour long.
void join_pieces(GainDay& day);
}  // namespace ovendays::season
