// SPDX-License-Identifier: MIT
// The forcing of an oven: sun, air and wind in segments of time, each linear from its start to its
// end.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "ovendays/oven/geometry.h"

namespace ovendays::heat {

/// Wind at the glass behind set flaps over the wind at the oven; judgement, no source.
inline constexpr double kFlapWindFactor = 0.6;

/// Air and surroundings at one end of a segment.
struct Surroundings {
  double ambient_K = 288.15;
  double pane_env_K4 = 0.0;  ///< mean T^4 of what the outermost pane radiates to
  double skin_env_K4 = 0.0;  ///< the same for the outer skin
  double skin_gain_W = 0.0;  ///< sun absorbed by the outer skin
  double wind_ms = 0.0;      ///< at the oven
};

struct AirSegment {
  double start_s = 0.0;
  double end_s = 0.0;
  Surroundings start;
  Surroundings end;
  double glazing_tilt_rad = 0.0;
  double vapour_Pa = 1000.0;      ///< of the outside air
  double pane_wind_factor = 1.0;  ///< wind at the glass over wind at the oven; below 1 behind flaps
  bool lid_open = false;
};

/// Sun absorbed by each surface [W] at both ends of the segment of the same index.
struct GainSegment {
  std::array<double, oven::kSurfaces> start_W{};
  std::array<double, oven::kSurfaces> end_W{};
};

/// Consecutive segments without gaps between them; both spans have the same length.
struct Forcing {
  std::span<const AirSegment> air;
  std::span<const GainSegment> gains;
};
}  // namespace ovendays::heat
