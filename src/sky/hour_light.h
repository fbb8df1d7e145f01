// SPDX-License-Identifier: MIT
// Distributes the mean beam and diffuse irradiance of an hour over the part of the hour with the
// sun up. Private to sky.
#pragma once

#include <optional>
#include <vector>

#include "day_frame.h"
#include "sun_height.h"

namespace ovendays::sky {

/// The sun at one end of a segment of the hour.
struct HourPoint {
  double t_s = 0.0;
  sun::SunDirection sun;
  SunHeight height;            ///< with the zenith angle limited to 90 deg
  double extra_Wm2 = 0.0;      ///< extraterrestrial normal irradiance
  double beam_shape = 0.0;     ///< clear_beam_shape() at that height
  double diffuse_shape = 0.0;  ///< clear_diffuse_shape() at that height
};

/// The light between two neighbouring points, linear in time. Zero if it is not lit.
struct HourSegment {
  bool lit = false;
  double start_dni_Wm2 = 0.0;
  double end_dni_Wm2 = 0.0;
  double start_dhi_Wm2 = 0.0;
  double end_dhi_Wm2 = 0.0;
};

/// The light of one hour.
struct HourLight {
  std::vector<HourPoint> points;
  std::vector<HourSegment> segments;  ///< one fewer than points
  double unplaced_beam_Jm2 = 0.0;
  double unplaced_diffuse_Jm2 = 0.0;
};

/// The input of spread_hour().
struct HourInput {
  const DayFrame& frame;
  const sun::Place& place;
  const weather::WeatherHour& hour;
  double start_s;                         ///< start of the interval, in the frame's time
  double step_s;                          ///< grid while the sun is up
  const std::optional<HourPoint>& known;  ///< the sun at start_s, if it is already computed
};

/// Distributes the energy of an hour. The light at each point is scale * profile * extraterrestrial
/// irradiance. The scale is the same for the whole hour and makes the trapezoidal rule over the lit
/// segments give the hour's mean. If that exceeds the extraterrestrial irradiance at any point, the
/// light is constant over the lit part instead; if even that is too much, the excess is not placed.
/// @param light receives the result; its vectors are reused to save allocations
void spread_hour(const HourInput& input, HourLight& light);
}  // namespace ovendays::sky
