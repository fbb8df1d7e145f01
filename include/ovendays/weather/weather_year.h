// SPDX-License-Identifier: MIT
// A year of hours, whatever file it came from. Local standard time, never daylight saving; SI.
// Every hour's irradiance is the MEAN over the interval that starts at start_s and lasts length_s;
// temperature, humidity, wind and pressure are those of the instant met_s after its start.
//
// What a stamp means, by format:
//   EPW, TMY3  the END of the hour (24:00 exists and carries the date of the day that ends); air
//              values are those of the stamp. sun_s = 1800, met_s = 3600.
//   NSRDB      the instant at the file's own minute, for irradiance and air alike; the interval is
//              laid around it. sun_s = met_s = 1800. Minute 30 gives intervals from hour to hour.
//   PVGIS      UTC; irradiance of the instant at the stamp plus the header's irradiance time
//   offset,
//              air of the stamp itself; the interval is laid around the irradiance's instant.
//              sun_s = 1800, met_s = 1800 - offset.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ovendays/base/calendar.h"
#include "ovendays/sun/sun.h"

namespace ovendays::weather {

enum class WeatherFormat { kEpw, kTmy3, kNsrdb, kPvgis };
/// "EPW", "TMY3", "NSRDB", "PVGIS".
const char* format_name(WeatherFormat format);

/// One hour of the year.
struct WeatherHour {
  /// Local standard date of the day the hour belongs to (at() finds it there), with the record's
  /// own calendar year: the months of a typical year come from different years.
  base::Date date;
  /// Interval start [s] from 00:00 of that date, local standard time: hour * 3600 plus a rest of
  /// -1800 to 1800 (below) that is the same all year and 0 but for instants off the half hour, UTC
  /// files in zones with half hours, and clock shifts. Hour 0 may so start before midnight.
  double start_s = 0.0;
  double length_s = 3600.0;  ///< [s]
  double sun_s = 1800.0;     ///< [s] from start_s to the instant whose sun stands for the interval
  double met_s = 1800.0;     ///< [s] from start_s to the instant of temperature, wind, pressure
  double ghi_Wm2 = 0.0;      ///< global horizontal
  double dni_Wm2 = 0.0;      ///< direct normal
  double dhi_Wm2 = 0.0;      ///< diffuse horizontal
  double dry_bulb_K = 288.15;
  double dew_point_K = 283.15;
  double wind_ms = 0.0;  ///< at 10 m
  double pressure_Pa = 101325.0;
  std::optional<double> gust_ms;  ///< none of the four formats carries it
  std::optional<double> horizontal_ir_Wm2;
  std::optional<double> albedo;  ///< 0 in a file means "not given" and is nullopt here
  std::optional<double> snow_depth_m;
  std::optional<double>
      precipitation_m;  ///< depth over the hour, or over the hours that end with it
  int line = 0;         ///< line in the file, 1-based; 0 if the whole row was filled or made
  bool filled = false;  ///< some value was filled over a gap

  /// The instant whose sun stands for the interval.
  [[nodiscard]] base::UtcTime sun_time(double utc_offset_s) const {
    return base::utc_from_local(date, start_s + sun_s, utc_offset_s);
  }
  bool operator==(const WeatherHour&) const = default;
};

/// A note on what was done to, or is missing from, the file; printed to the user.
struct WeatherNote {
  int line = 0;  ///< of the first case; 0 where no line applies
  std::string text;
};

struct WeatherYear {
  WeatherFormat format = WeatherFormat::kEpw;
  std::string file;
  std::string sha256;
  sun::Place place;
  bool place_known = true;      ///< latitude, longitude, time zone came from the file's header
  bool elevation_known = true;  ///< from the header or the case; otherwise elevation is 0
  double clock_shift_s = 0.0;   ///< correction applied to stamps (case key site.clock_shift)
  /// 8760, 1 January 00:00 onward; 29 February dropped if there was one (rows of a UTC file that
  /// move across it take the sun of the day before, 0.4 deg of declination off for some hours).
  std::vector<WeatherHour> hours;
  int hours_in_file = 0;  ///< rows in the file; 8760 or 8784 where none is missing
  int filled_hours = 0;   ///< hours with some value filled
  std::vector<WeatherNote> notes;

  /// Hour of day index 0..364 and hour 0..23. It covers about hour .. hour + 1, see start_s.
  [[nodiscard]] const WeatherHour& at(int day_index, int hour) const {
    return hours[static_cast<std::size_t>(day_index) * 24 + static_cast<std::size_t>(hour)];
  }
};

/// What the case says about the site; each wins over the file's header.
struct SiteOverrides {
  std::optional<std::string> name;
  std::optional<double> latitude_rad;
  std::optional<double> longitude_rad;
  std::optional<double> elevation_m;
  /// Standard time of the site. Files in UTC (PVGIS; NSRDB with time zone 0 and another local time
  /// zone) are moved into it, by default into the whole hour nearest to longitude/15 or the
  /// header's local zone. For all others it says which zone the file's clock keeps; no row moves.
  std::optional<double> utc_offset_s;
  /// Added to every stamp. The intervals start later by that much; hours are then re-ordered by
  /// whole hours (the year taken as a ring) so that hour h of a day again starts within half an
  /// hour of h o'clock. The shift ClockCheck asks for can be given here as it is.
  std::optional<double> clock_shift_s;
  bool allow_long_gaps = false;  ///< longer gaps are filled from the days around; half the hours at
                                 ///< least must be there
  bool operator==(const SiteOverrides&) const = default;
};

/// Longest gap [h] that is filled by interpolation without being asked.
inline constexpr int kLongestFilledGap_h = 6;

/// Reads a weather year. The format is told by the content. Nothing is filled, dropped or computed
/// without a note. Missing: the codes of each format and column, empty fields, and 0 for albedo and
/// horizontal infrared. Irradiance from -10 to 0 W/m2 is set to 0 and noted. Dew point comes from
/// humidity where the file lacks it, pressure from the standard atmosphere where it has none at
/// all; infrared, albedo, snow and rain that are missing stay nullopt.
/// @throws base::InputError with file and line, all faults in one go (20 shown): unknown format,
/// wrong number of hours, rows not an hour apart, values that are not numbers or beyond physical
/// limits (temperature -90..65 C, irradiance -10..1500 W/m2, wind 0..60 m/s, pressure 310..1200
/// hPa), stamps repeated or out of order, gaps longer than kLongestFilledGap_h without
/// allow_long_gaps, no site in the file nor in the overrides.
/// Thread-safe: yes.
WeatherYear read_weather(const std::string& file, const SiteOverrides& overrides = {});
/// The same from text in memory; `file` is the name used in messages.
WeatherYear read_weather_text(std::string_view text,
                              const std::string& file,
                              const SiteOverrides& overrides = {});
}  // namespace ovendays::weather
