// SPDX-License-Identifier: MIT
// An hour's mean beam and diffuse spread over the part of the hour when the sun is up.
#pragma once

#include <optional>
#include <vector>

#include "day_frame.h"
#include "sun_height.h"

namespace ovendays::sky {

/// The sun at one end of a piece.
struct HourPoint {
  double t_s = 0.0;
  sun::SunDirection sun;
  SunHeight height;            ///< the zenith held at 90 deg or less
  double extra_Wm2 = 0.0;      ///< extraterrestrial normal
  double beam_shape = 0.0;     ///< clear_beam_shape at that height
  double diffuse_shape = 0.0;  ///< clear_diffuse_shape, likewise
};

/// Between points `index` and `index` + 1; light runs linearly. Zeros where not lit.
struct HourPiece {
  bool lit = false;
  double start_dni_Wm2 = 0.0;
  double end_dni_Wm2 = 0.0;
  double start_dhi_Wm2 = 0.0;
  double end_dhi_Wm2 = 0.0;
};

struct HourLight {
  std::vector<HourPoint> points;
  std::vector<HourPiece> pieces;  ///< one fewer than points
  double unplaced_beam_Jm2 = 0.0;
  double unplaced_diffuse_Jm2 = 0.0;
};

struct HourQuestion {
  const DayFrame& frame;
  const sun::Place& place;
  const weather::WeatherHour& hour;
  double start_s;                         ///< of the interval, in the frame
  double step_s;                          ///< grid while the sun is up
  const std::optional<HourPoint>& known;  ///< the sun at start_s, where already computed
};

/// Each ends' light is scale x shape x extraterrestrial with one scale in the hour, chosen so that
/// the trapezoid over the lit pieces gives the hour's mean. Where that would pass the
/// extraterrestrial light at any end, the light is constant over the lit part instead; and where
/// even that would, the excess is not placed.
/// @param light is made anew; its room serves again
void spread_hour(const HourQuestion& question, HourLight& light);
}  // namespace ovendays::sky
