// SPDX-License-Identifier: MIT
// Sun, sky and air over the weather year. Each of the 365 days is a chain of short segments, and
// every quantity is interpolated linearly between the ends of a segment. Times are local standard
// time of the day [s]; directions are in world axes (x east, y north, z up). All functions are
// thread-safe.
//
// Segments end on a regular grid (5 minutes) while the sun is up, at the ends of the weather file's
// intervals, at midnight, and at sunrise and sunset. Grid points within a minute of another end, or
// within a quarter of the grid step if that is less, are left out.
//
// Light. The mean DNI and DHI of an interval are distributed over the part of it with the sun up,
// in proportion to clear_beam_shape() and clear_diffuse_shape() times the extraterrestrial
// irradiance. The trapezoidal rule over the segments conserves the energy of the interval to 1e-9
// (relative). Where this would exceed the extraterrestrial irradiance (a sunrise with more energy
// than a few minutes of low sun can carry), the light is constant over the lit part instead. Energy
// that still cannot be placed (the sun is down during the whole interval, is up for less than a
// minute, or the light would exceed the extraterrestrial normal irradiance) is left out and counted
// in SkyDay::unplaced_*. The GHI of the file is not used for light, only for cloud.
//
// Sun. Its position is computed for the calendar year of the record, with refraction by the mean
// pressure and temperature of the day. In a lit segment, zenith angles above 90 deg count as 90
// deg.
//
// Air. Dry bulb, dew point, wind and horizontal infrared are interpolated linearly between the
// instants of the records. The year wraps around: 31 December precedes 1 January.
#pragma once

#include <vector>

#include "ovendays/base/vec.h"
#include "ovendays/sky/sky_model.h"
#include "ovendays/weather/weather_year.h"

namespace ovendays::sky {

/// Sun, sky and air at one end of a segment. All light is 0 if the sun is down.
struct SkyState {
  base::Direction to_sun;  ///< apparent; below the horizon at night
  double zenith_rad = 1.5707963267948966;
  double azimuth_rad = 0.0;
  double dni_Wm2 = 0.0;                 ///< beam normal
  double dhi_Wm2 = 0.0;                 ///< diffuse horizontal
  double ghi_Wm2 = 0.0;                 ///< dni cos z + dhi
  double circumsolar_normal_Wm2 = 0.0;  ///< this and the next two: the PerezParts of dni and dhi
  double isotropic_horizontal_Wm2 = 0.0;
  double horizon_Wm2 = 0.0;
  double clear_dni_Wm2 = 0.0;  ///< this and the next four: the same for clear_sky()
  double clear_dhi_Wm2 = 0.0;
  double clear_circumsolar_normal_Wm2 = 0.0;
  double clear_isotropic_horizontal_Wm2 = 0.0;
  double clear_horizon_Wm2 = 0.0;
  double dry_bulb_K = 288.15;
  double sky_K = 273.15;  ///< effective sky temperature for infrared
  double wind_ms = 0.0;   ///< at 10 m
  bool operator==(const SkyState&) const = default;
};

/// A time span over which everything is interpolated linearly.
struct SkySegment {
  double start_s = 0.0;  ///< local standard time of the day [s], 0..86400
  double end_s = 0.0;
  std::size_t state = 0;  ///< index of its start in SkyDay::states; its end is the next state
};

/// One day of the year.
struct SkyDay {
  int day_index = 0;  ///< 0..364
  base::Date date;    ///< with the calendar year that the sun was computed for
  sun::DayLight light;
  double pressure_Pa = 101325.0;     ///< mean of the day
  double albedo = 0.2;               ///< of the ground, mean of the day's hours, see SkyOptions
  double dew_point_K = 283.15;       ///< mean of the day
  double rain_m = 0.0;               ///< sum of the day, as far as the file has rain
  std::vector<SkySegment> segments;  ///< cover 0..86400 without gaps; one per hour at night
  /// In order of time. Where nothing is discontinuous, two segments share one state.
  std::vector<SkyState> states;
  /// Energy that could not be placed while the sun is up [J/m2], beam normal and diffuse
  /// horizontal, of the intervals that start on this day.
  double unplaced_beam_Jm2 = 0.0;
  double unplaced_diffuse_Jm2 = 0.0;

  /// The state at a segment's start_s (the right-hand limit).
  [[nodiscard]] const SkyState& start(const SkySegment& segment) const {
    return states[segment.state];
  }
  /// The state at a segment's end_s (the left-hand limit).
  [[nodiscard]] const SkyState& end(const SkySegment& segment) const {
    return states[segment.state + 1];
  }
};

/// Settings. The albedo of an hour is albedo_by_month if stated (>= 0), else that of the file, else
/// snow_albedo if the file has more than 1 cm of snow, else default_albedo.
struct SkyOptions {
  double step_s = 300.0;        ///< grid between sunrise and sunset; >= 1 and divides an hour
  double default_albedo = 0.2;  ///< common practice for ground without snow
  double snow_albedo = 0.6;     ///< of ground with more than 1 cm of snow
  double albedo_by_month[12] = {
      -1, -1, -1, -1, -1, -1, -1, -1, -1, -1, -1, -1};  ///< January to December; < 0: not stated
  double linke_turbidity = 3.0;                         ///< of the clear sky; 1..10
  bool operator==(const SkyOptions&) const = default;
};

/// Builds one day. Days may be built in any order and in parallel; the result depends on the
/// arguments only.
///
/// Sky temperature: between two records that both have horizontal infrared it follows from that.
/// Otherwise it is sky_temperature_K() with a cloud fraction by the clear-sky index of the hours
/// whose sun is above 5 deg. The cloud fraction is interpolated linearly between the middles of
/// these hours, and so at night between dusk and dawn; up to one day on either side is searched for
/// such hours. In the polar night a cloud fraction of 0.5 is assumed (no source).
///
/// @param year 8760 intervals of 3600 s that all start equally far from the full hour, checked
/// @param day_index 0..364, checked
SkyDay make_sky_day(const weather::WeatherYear& year,
                    int day_index,
                    const SkyOptions& options = {});
/// Builds all 365 days, one after the other.
std::vector<SkyDay> make_sky_year(const weather::WeatherYear& year, const SkyOptions& options = {});

/// Direction of the sun at a time of the day, interpolated within its segment.
/// @param day with at least one segment, checked
/// @param time_s [s]; times before or after the day count as its start or end
base::Direction sun_at(const SkyDay& day, double time_s);
}  // namespace ovendays::sky
