// SPDX-License-Identifier: MIT
// The weather year as the sun and sky see it: for each of 365 days a chain of short segments, in
// each of which every quantity runs linearly from its value at the start to that at the end.
// Times are local standard time of the day [s]; directions are in world axes (x east, y north, z
// up). Thread-safe: no state is kept between calls.
//
// Segment ends fall on a regular grid (5 minutes) while the sun is up, on the weather intervals'
// own ends, on midnight, and on sunrise and sunset; grid points within a minute of another cut are
// left out.
//
// Light. An interval's mean DNI and DHI are spread over the part of it when the sun is up, in
// proportion to clear_beam_shape and clear_diffuse_shape times the extraterrestrial light; the
// trapezoid over its segments gives back the interval's energy to 1e-9 relative. Where that would
// pass the extraterrestrial light (a sunrise with more energy than a few minutes of low sun can
// hold) the light is constant over the lit part. What even so cannot be placed (sun down all the
// interval, up for less than a minute, or above the extraterrestrial normal light) is left out and
// counted in SkyDay::unplaced_*. The file's GHI is not used for light, only for cloud.
//
// Sun. Computed for the record's own calendar year, with the refraction of the day's mean pressure
// and temperature. Above 90 deg the zenith counts as 90 deg in the light of a lit segment.
//
// Air. Dry bulb, dew point, wind and horizontal infrared run linearly between the instants the
// records refer to, the year being a ring (31 December precedes 1 January).
#pragma once

#include <vector>

#include "ovendays/base/vec.h"
#include "ovendays/sky/sky_model.h"
#include "ovendays/weather/weather_year.h"

namespace ovendays::sky {

/// Everything about sun, sky and air at one end of a segment. All light is 0 with the sun down.
struct SkyState {
  base::Direction to_sun;  ///< apparent; below the horizon at night
  double zenith_rad = 1.5707963267948966;
  double azimuth_rad = 0.0;
  double dni_Wm2 = 0.0;                 ///< beam normal
  double dhi_Wm2 = 0.0;                 ///< diffuse horizontal
  double ghi_Wm2 = 0.0;                 ///< dni cos z + dhi
  double circumsolar_normal_Wm2 = 0.0;  ///< these three: PerezParts of dni and dhi at the instant
  double isotropic_horizontal_Wm2 = 0.0;
  double horizon_Wm2 = 0.0;
  double clear_dni_Wm2 = 0.0;  ///< had there been no cloud: clear_sky() with the options' turbidity
  double clear_dhi_Wm2 = 0.0;
  double clear_circumsolar_normal_Wm2 = 0.0;
  double clear_isotropic_horizontal_Wm2 = 0.0;
  double clear_horizon_Wm2 = 0.0;
  double dry_bulb_K = 288.15;
  double sky_K = 273.15;  ///< sky temperature for infrared
  double wind_ms = 0.0;   ///< at 10 m
  bool operator==(const SkyState&) const = default;
};

struct SkySegment {
  double start_s = 0.0;  ///< local standard time of the day [s], 0..86400
  double end_s = 0.0;
  std::size_t state = 0;  ///< place of its start in SkyDay::states; its end is the next
};

struct SkyDay {
  int day_index = 0;  ///< 0..364
  base::Date date;    ///< with the year its sun was computed for
  sun::DayLight light;
  double pressure_Pa = 101325.0;     ///< mean of the day
  double albedo = 0.2;               ///< mean of the day's hours, see SkyOptions
  double dew_point_K = 283.15;       ///< mean of the day
  double rain_m = 0.0;               ///< sum of the day where the file gives rain
  std::vector<SkySegment> segments;  ///< covers 0..86400 without gaps; at night one an hour
  /// In order of time. Where nothing jumps one state ends a segment and starts the next.
  std::vector<SkyState> states;
  /// Energy of the intervals that start on this day for which the sun leaves no room [J/m2]:
  /// beam-normal, and diffuse horizontal.
  double unplaced_beam_Jm2 = 0.0;
  double unplaced_diffuse_Jm2 = 0.0;

  /// Right-hand limit at a segment's start_s.
  [[nodiscard]] const SkyState& start(const SkySegment& segment) const {
    return states[segment.state];
  }
  /// Left-hand limit at its end_s.
  [[nodiscard]] const SkyState& end(const SkySegment& segment) const {
    return states[segment.state + 1];
  }
};

/// Albedo of an hour: by month where stated (>= 0), else the file's, else snow_albedo where the
/// file tells of more than 1 cm of snow, else the default.
struct SkyOptions {
  double step_s = 300.0;  ///< grid between sunrise and sunset; >= 1 and divides an hour
  double default_albedo = 0.2;
  double snow_albedo = 0.6;  ///< where snow depth is given and above 1 cm
  double albedo_by_month[12] = {
      -1, -1, -1, -1, -1, -1, -1, -1, -1, -1, -1, -1};  ///< < 0: file, else default
  double linke_turbidity = 3.0;  ///< of the clear sky used to tell cloud from season
  bool operator==(const SkyOptions&) const = default;
};

/// One day. Days can be built in any order and in parallel; each is the same however it was asked
/// for.
///
/// Sky temperature: the file's horizontal infrared between two records that both have it; else
/// sky_temperature_K with the cloud_fraction of the hour's GHI over the clear sky's, linear between
/// the middles of hours whose sun is above 5 deg (nights thus hang between dusk and dawn, looking
/// one day either way). In the polar night half cover is assumed (no source).
///
/// @param year 8760 intervals of 3600 s, all starting equally far from the full hour
/// @param day_index 0..364
SkyDay make_sky_day(const weather::WeatherYear& year,
                    int day_index,
                    const SkyOptions& options = {});
/// All 365 days, one after the other.
std::vector<SkyDay> make_sky_year(const weather::WeatherYear& year, const SkyOptions& options = {});

/// The sun's direction at a time of the day [s], between the ends of the segment it falls in; times
/// before and after the day count as its ends. @param day with at least one segment
base::Direction sun_at(const SkyDay& day, double time_s);
}  // namespace ovendays::sky
