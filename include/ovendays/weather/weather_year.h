// SPDX-License-Identifier: MIT
// A year of hours, whatever file it came from. Local standard time; SI; every hour's irradiance is
// the MEAN over the interval that starts at start_s and lasts length_s.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ovendays/base/calendar.h"
#include "ovendays/sun/sun.h"

namespace ovendays::weather {

enum class WeatherFormat { kEpw, kTmy3, kNsrdb, kPvgis };
const char* format_name(WeatherFormat format);

struct WeatherHour {
  base::Date
      date;  ///< local standard date on which the interval starts, with the record's own year
  double start_s = 0.0;      ///< interval start [s] of that date, local standard time
  double length_s = 3600.0;  ///< [s]
  double sun_s = 1800.0;     ///< [s] from start_s to the instant whose sun stands for the interval
                             ///< (its middle, or the file's own minute)
  double met_s =
      1800.0;  ///< [s] from start_s to the instant to which temperature, wind, pressure refer
  double ghi_Wm2 = 0.0;
  double dni_Wm2 = 0.0;
  double dhi_Wm2 = 0.0;
  double dry_bulb_K = 288.15;
  double dew_point_K = 283.15;
  double wind_ms = 0.0;  ///< at 10 m
  double pressure_Pa = 101325.0;
  std::optional<double> gust_ms;
  std::optional<double> horizontal_ir_Wm2;
  std::optional<double> albedo;
  std::optional<double> snow_depth_m;
  std::optional<double> precipitation_m;
  int line = 0;         ///< line in the file, 1-based; 0 if filled or made
  bool filled = false;  ///< some value was interpolated over a gap

  /// The instant whose sun stands for the interval.
  [[nodiscard]] base::UtcTime sun_time(double utc_offset_s) const {
    return base::utc_from_local(date, start_s + sun_s, utc_offset_s);
  }
};

/// A note on what was done to, or is missing from, the file; printed to the user.
struct WeatherNote {
  int line = 0;
  std::string text;
};

struct WeatherYear {
  WeatherFormat format = WeatherFormat::kEpw;
  std::string file;
  std::string sha256;
  sun::Place place;
  bool place_known = true;  ///< latitude, longitude, time zone came from the file's header
  bool elevation_known = true;
  double clock_shift_s = 0.0;  ///< correction applied to stamps (case key site.clock_shift)
  std::vector<WeatherHour>
      hours;              ///< 8760, 1 January 00:00 onward; 29 February dropped if there was one
  int hours_in_file = 0;  ///< 8760 or 8784
  int filled_hours = 0;
  std::vector<WeatherNote> notes;

  /// Hour of day index 0..364 and hour 0..23.
  [[nodiscard]] const WeatherHour& at(int day_index, int hour) const {
    return hours[static_cast<std::size_t>(day_index * 24 + hour)];
  }
};

/// What the case says about the site; each wins over the file's header.
struct SiteOverrides {
  std::optional<std::string> name;
  std::optional<double> latitude_rad;
  std::optional<double> longitude_rad;
  std::optional<double> elevation_m;
  std::optional<double> utc_offset_s;
  std::optional<double> clock_shift_s;  ///< added to every stamp
  bool allow_long_gaps = false;
};

/// Longest gap [h] that is filled by interpolation without being asked.
inline constexpr int kLongestFilledGap_h = 6;

/// Reads a weather year. The format is told by the content.
/// @throws base::InputError with file and line: unknown format, wrong number of hours, values that
/// are not numbers or beyond physical limits, stamps repeated or out of order, gaps longer than
/// kLongestFilledGap_h without allow_long_gaps, no site in the file nor in the overrides.
WeatherYear read_weather(const std::string& file, const SiteOverrides& overrides = {});
/// The same from text in memory.
WeatherYear read_weather_text(std::string_view text,
                              const std::string& file,
                              const SiteOverrides& overrides = {});
}  // namespace ovendays::weather
