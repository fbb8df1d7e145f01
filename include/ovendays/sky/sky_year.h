// SPDX-License-Identifier: MIT
// The weather year as the sun and sky see it: for each of 365 days a chain of short segments, in
// each of which every quantity runs linearly from its value at the start to that at the end.
// Segment ends fall on a regular grid (10 minutes), on hour ends, and on sunrise and sunset. An
// hour's beam-normal and diffuse energy is kept to 1e-9 relative (trapezoid over its segments is
// exact for the linear run).
#pragma once

#include <span>
#include <vector>

#include "ovendays/base/vec.h"
#include "ovendays/sky/sky_model.h"
#include "ovendays/weather/weather_year.h"

namespace ovendays::sky {

/// Everything about sun, sky and air at one end of a segment.
struct SkyState {
  base::Direction to_sun;  ///< apparent
  double zenith_rad = 1.5707963267948966;
  double azimuth_rad = 0.0;
  double dni_Wm2 = 0.0;  ///< beam normal
  double dhi_Wm2 = 0.0;  ///< diffuse horizontal
  double ghi_Wm2 = 0.0;  ///< dni cos z + dhi
  double circumsolar_normal_Wm2 = 0.0;
  double isotropic_horizontal_Wm2 = 0.0;
  double horizon_Wm2 = 0.0;
  double clear_dni_Wm2 = 0.0;  ///< had there been no cloud
  double clear_dhi_Wm2 = 0.0;
  double clear_circumsolar_normal_Wm2 = 0.0;
  double clear_isotropic_horizontal_Wm2 = 0.0;
  double clear_horizon_Wm2 = 0.0;
  double dry_bulb_K = 288.15;
  double sky_K = 273.15;  ///< sky temperature for infrared
  double wind_ms = 0.0;   ///< at 10 m
};

struct SkySegment {
  double start_s = 0.0;  ///< local standard time of the day [s], 0..86400
  double end_s = 0.0;
  SkyState start;  ///< right-hand limit at start_s
  SkyState end;    ///< left-hand limit at end_s
};

struct SkyDay {
  int day_index = 0;  ///< 0..364
  base::Date date;    ///< with the year its sun was computed for
  sun::DayLight light;
  double pressure_Pa = 101325.0;     ///< mean of the day
  double albedo = 0.2;               ///< mean of the day (file, snow, or the case)
  double dew_point_K = 283.15;       ///< mean of the day
  double rain_m = 0.0;               ///< sum of the day where the file gives rain
  std::vector<SkySegment> segments;  ///< covers 0..86400 without gaps; at night one an hour
};

struct SkyOptions {
  double step_s = 600.0;  ///< grid between sunrise and sunset; divides an hour
  double default_albedo = 0.2;
  double snow_albedo = 0.6;  ///< where snow depth is given and above 1 cm
  double albedo_by_month[12] = {
      -1, -1, -1, -1, -1, -1, -1, -1, -1, -1, -1, -1};  ///< < 0: file, else default
  double linke_turbidity = 3.0;  ///< of the clear sky used to tell cloud from season
};

/// One day. Days can be built in any order and in parallel. @param day_index 0..364
SkyDay make_sky_day(const weather::WeatherYear& year,
                    int day_index,
                    const SkyOptions& options = {});
/// All 365 days, one after the other.
std::vector<SkyDay> make_sky_year(const weather::WeatherYear& year, const SkyOptions& options = {});

}  // namespace ovendays::sky
