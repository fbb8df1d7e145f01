// SPDX-License-Identifier: MIT
// Made years and options for tests that run a season at many places or turnings.
#pragma once

#include "made_case.h"

namespace ovendays::test {

/// Clear days of a thin sun, so that shade and aiming cost days.
inline weather::WeatherYear thin_sun(double beam = 0.6) {
  MadeWeather made;
  made.beam = beam;
  return made_weather(made);
}

/// quick_options() with optics coarser still.
inline season::SeasonOptions quicker_options() {
  season::SeasonOptions options = quick_options();
  options.optics = {.rays = 64, .grid = 17};
  return options;
}
}  // namespace ovendays::test
