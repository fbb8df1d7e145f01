// SPDX-License-Identifier: MIT
// A weather year of hourly records, independent of the file format it came from. Everything is in
// SI and in local standard time; daylight saving time never occurs. Irradiance is the MEAN over the
// interval that starts at start_s and lasts length_s. Temperature, humidity, wind and pressure are
// values at the instant met_s after that start.
//
// Meaning of a time stamp in each format:
//   EPW, TMY3  the END of the hour. 24:00 exists and carries the date of the day that ends. Air
//              values belong to the stamp. sun_s = 1800, met_s = 3600.
//   NSRDB      an instant at the file's own minute, for irradiance and air alike; the interval is
//              centred on it. sun_s = met_s = 1800. Minute 30 gives intervals between full hours.
//   PVGIS      UTC. Irradiance belongs to the stamp plus the irradiance time offset of the header,
//              and the interval is centred on that instant; air values belong to the stamp itself.
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
/// The name of a format: "EPW", "TMY3", "NSRDB" or "PVGIS".
const char* format_name(WeatherFormat format);

/// One hour of the year.
struct WeatherHour {
  /// Local standard date of the day that the hour belongs to (WeatherYear::at() finds it there).
  /// The calendar year is the record's own, because months of a typical year come from different
  /// years.
  base::Date date;
  /// Interval start [s] from 00:00 of that date: hour * 3600 plus a remainder in [-1800, 1800). The
  /// remainder is the same all year. It differs from 0 only for instants that are not at the half
  /// hour, for UTC files in time zones with half hours, and for clock shifts. Hour 0 may therefore
  /// start before midnight.
  double start_s = 0.0;
  double length_s = 3600.0;  ///< [s]
  double sun_s = 1800.0;     ///< [s] from start_s to the instant whose sun represents the interval
  double met_s = 1800.0;     ///< [s] from start_s to the instant of temperature, wind and pressure
  double ghi_Wm2 = 0.0;      ///< global horizontal irradiance
  double dni_Wm2 = 0.0;      ///< direct normal irradiance
  double dhi_Wm2 = 0.0;      ///< diffuse horizontal irradiance
  double dry_bulb_K = 288.15;
  double dew_point_K = 283.15;
  double wind_ms = 0.0;  ///< at 10 m
  double pressure_Pa = 101325.0;
  std::optional<double> gust_ms;            ///< none of the four formats has it
  std::optional<double> horizontal_ir_Wm2;  ///< downward infrared on a horizontal surface
  std::optional<double> albedo;  ///< 0 in a file means "not given", which is nullopt here
  std::optional<double> snow_depth_m;
  /// Depth over the hour; in some EPW files over several hours that end with this one.
  std::optional<double> precipitation_m;
  int line = 0;         ///< line in the file, 1-based; 0 if the whole row was filled or synthesised
  bool filled = false;  ///< at least one value was filled over a gap

  /// The instant whose sun represents the interval.
  [[nodiscard]] base::UtcTime sun_time(double utc_offset_s) const {
    return base::utc_from_local(date, start_s + sun_s, utc_offset_s);
  }
  bool operator==(const WeatherHour&) const = default;
};

/// A remark for the user about something that was changed in the file or is missing from it.
struct WeatherNote {
  int line = 0;  ///< of the first occurrence; 0 where no line applies
  std::string text;
};

/// A year of hours with the site they belong to.
struct WeatherYear {
  WeatherFormat format = WeatherFormat::kEpw;
  std::string file;
  std::string sha256;  ///< digest of the file's content, in hexadecimal
  sun::Place place;
  bool place_known = true;      ///< the file's header has latitude, longitude and time zone
  bool elevation_known = true;  ///< from the header or the case; otherwise the elevation is 0
  double clock_shift_s = 0.0;   ///< correction that was added to the time stamps, see SiteOverrides
  /// 8760 hours from 1 January 00:00. A 29 February is dropped; rows of a UTC file that move across
  /// it then get the sun of the day before, which is wrong by 0.4 deg of declination for some
  /// hours.
  std::vector<WeatherHour> hours;
  int hours_in_file = 0;  ///< rows in the file; 8760 or 8784 if none is missing
  int filled_hours = 0;   ///< hours with at least one filled value
  std::vector<WeatherNote> notes;

  /// The hour with a given day index and hour of day. It covers about hour .. hour + 1, see
  /// start_s.
  /// @param day_index 0..364
  /// @param hour 0..23
  [[nodiscard]] const WeatherHour& at(int day_index, int hour) const {
    return hours[static_cast<std::size_t>(day_index) * 24 + static_cast<std::size_t>(hour)];
  }
};

/// What the case states about the site. Each value overrides the header of the file.
struct SiteOverrides {
  std::optional<std::string> name;
  std::optional<double> latitude_rad;
  std::optional<double> longitude_rad;
  std::optional<double> elevation_m;
  /// Standard time of the site minus UTC. Files in UTC (PVGIS, and NSRDB with time zone 0 and
  /// another local time zone) are moved to it; the default is the header's local time zone, or the
  /// whole hour nearest to longitude/15. For all other files it states the time zone of the file's
  /// clock, and no row moves.
  std::optional<double> utc_offset_s;
  /// Added to every time stamp, so that the intervals start later by that much. Whole hours of it
  /// reorder the records (the year wraps around), so that hour h of a day again starts within half
  /// an hour of h o'clock. ClockCheck::shift_s may be passed here as it is.
  std::optional<double> clock_shift_s;
  /// Fill gaps of more than kLongestFilledGap_h hours too, from the same hour of nearby days. At
  /// least half of the hours must be present in any case.
  bool allow_long_gaps = false;
  bool operator==(const SiteOverrides&) const = default;
};

/// Longest gap [h] that is filled, by interpolation, without the consent of the case.
inline constexpr int kLongestFilledGap_h = 6;

/// The largest weather file that is read [bytes]. A year of hours takes 1 to 3 MB.
inline constexpr std::size_t kMostWeatherBytes = std::size_t{1} << 28;

/// Reads a weather year. The format is detected from the content.
///
/// Whatever is filled, dropped or computed leaves a note. A value is missing if it is empty, has
/// the missing-value code of its format and column, or is an albedo or a horizontal infrared of 0.
/// Irradiance of -10 to 0 W/m2 is set to 0. The dew point is computed from humidity where the file
/// lacks it, and the pressure is that of the standard atmosphere if the file has none at all.
/// Missing infrared, albedo, snow and rain remain nullopt.
/// @throws base::InputError with file and line, and all faults at once (the first 20 are listed):
/// an unknown format; a wrong number of hours; rows that are not one hour apart; values that are
/// not numbers or beyond physical limits (temperature -90..65 C, irradiance -10..1500 W/m2, wind
/// 0..60 m/s, pressure 310..1200 hPa); repeated or unordered time stamps; gaps longer than
/// kLongestFilledGap_h without allow_long_gaps; a site stated neither by the file nor by the case
/// Thread-safe: yes.
WeatherYear read_weather(const std::string& file, const SiteOverrides& overrides = {});
/// The same for text in memory.
/// @param file the name to use in messages
WeatherYear read_weather_text(std::string_view text,
                              const std::string& file,
                              const SiteOverrides& overrides = {});
}  // namespace ovendays::weather
