// SPDX-License-Identifier: MIT
// Weather files for the tests: real ones, if a folder of shared files exists beside the repository,
// and synthetic ones under a sky whose irradiance is known at every instant.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "ovendays/base/error.h"
#include "ovendays/weather/weather_year.h"

namespace ovendays::test {

/// The path of a shared file such as "weather/723170TYA.CSV"; nullopt if it does not exist.
/// OVENDAYS_SHARED names the folder; the default is a folder "shared" beside the repository.
std::optional<std::string> shared_file(const std::string& name);
/// True if the file exists; otherwise prints SKIPPED with the reason.
bool have_shared(const std::string& name);

/// The invented places of the folder weather/, each with normals (.toml) and a year (.epw).
inline constexpr std::array<const char*, 3> kDemos = {"cool_coast", "high_desert", "humid_coast"};

/// The site of the NSRDB file, which does not state it (figures of the shared README: a complete
/// file of the same request).
weather::SiteOverrides nsrdb_site();

/// A site in the middle latitudes, off the meridian of its time zone.
sun::Place inland_place();

/// Beam 700 and diffuse 60 W/m2 whenever the centre of the sun is up; closes at every instant.
struct SkyInstant {
  double ghi_Wm2 = 0.0;
  double dni_Wm2 = 0.0;
  double dhi_Wm2 = 0.0;
};
SkyInstant plain_sky(base::UtcTime time, const sun::Place& place);

/// The content of one row of a synthetic file. A test may change it, or omit the row by `skip`.
struct FileRow {
  base::Date date;
  int hour = 0;  ///< 0..23, the hour that begins
  SkyInstant sky;
  std::string dry_bulb = "15.0";
  std::string dew_point = "5.0";
  std::string wind = "3.0";
  std::string pressure_hPa = "1000";
  std::string ghi, dni, dhi;  ///< if not empty, replace the values of the sky
  bool skip = false;
};
using RowChange = std::function<void(FileRow&)>;

struct FilePlan {
  sun::Place place = inland_place();
  int year = 2001;  ///< a leap year gives 8784 rows
  double header_zone_h = -7.0;
  double rows_zone_h = -7.0;  ///< the time zone that the rows are really in
  double minute = 30.0;       ///< instant of the row's irradiance, after the start of the hour
  RowChange change;
};

std::string epw_file(const FilePlan& plan);
std::string tmy3_file(const FilePlan& plan);
std::string nsrdb_file(const FilePlan& plan, bool site_lines = true);
std::string pvgis_file(const FilePlan& plan, std::optional<double> offset_h);

/// All messages of the InputError that reading throws; empty if it does not throw.
std::string fault_of(const std::string& text, const weather::SiteOverrides& overrides = {});
bool has_note(const weather::WeatherYear& year, const std::string& part);
/// Number of lines before the first row, for each format.
inline constexpr int kEpwHeaderLines = 8;
inline constexpr int kTmy3HeaderLines = 2;
}  // namespace ovendays::test
