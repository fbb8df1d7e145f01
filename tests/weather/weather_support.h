// SPDX-License-Identifier: MIT
// Weather files for the tests: real ones where a folder of shared files stands beside the
// repository, and years under a sky whose irradiance is known for every instant.
#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "ovendays/base/error.h"
#include "ovendays/weather/weather_year.h"

namespace ovendays::test {

/// The path of a shared file, "weather/723170TYA.CSV"; nullopt where there is none. OVENDAYS_SHARED
/// names the folder, otherwise a folder "shared" beside the repository is looked for.
std::optional<std::string> shared_file(const std::string& name);
/// True where the file is there; otherwise warns SKIPPED with the reason.
bool have_shared(const std::string& name);

/// The invented places of the folder weather/, each with normals (.toml) and a year (.epw).
inline constexpr std::array<const char*, 3> kDemos = {"cool_coast", "high_desert", "humid_coast"};

/// The site of the NSRDB file, which does not state it (figures of the shared README: a complete
/// file of the same request).
weather::SiteOverrides nsrdb_site();

/// A site in the middle latitudes whose clock is not at its own meridian.
sun::Place inland_place();

/// Beam 700, diffuse 60 W/m2 whenever the sun's centre is up: closes at every instant.
struct SkyInstant {
  double ghi_Wm2 = 0.0;
  double dni_Wm2 = 0.0;
  double dhi_Wm2 = 0.0;
};
SkyInstant plain_sky(base::UtcTime time, const sun::Place& place);

/// What a line of a made file holds; a test may change it, or leave the line out with skip.
struct FileRow {
  base::Date date;
  int hour = 0;  ///< 0..23, the hour that begins
  SkyInstant sky;
  std::string dry_bulb = "15.0";
  std::string dew_point = "5.0";
  std::string wind = "3.0";
  std::string pressure_hPa = "1000";
  std::string ghi, dni, dhi;  ///< where not empty these stand instead of sky
  bool skip = false;
};
using RowChange = std::function<void(FileRow&)>;

struct FilePlan {
  sun::Place place = inland_place();
  int year = 2001;  ///< a leap year gives 8784 rows
  double header_zone_h = -7.0;
  double rows_zone_h = -7.0;  ///< the clock the rows really keep
  double minute = 30.0;       ///< of the instant whose sun the row carries, after the hour begins
  RowChange change;
};

std::string epw_file(const FilePlan& plan);
std::string tmy3_file(const FilePlan& plan);
std::string nsrdb_file(const FilePlan& plan, bool site_lines = true);
std::string pvgis_file(const FilePlan& plan, std::optional<double> offset_h);

/// All messages of the InputError that reading throws; empty where it does not throw.
std::string fault_of(const std::string& text, const weather::SiteOverrides& overrides = {});
bool has_note(const weather::WeatherYear& year, const std::string& part);
/// Lines that a text has before the first row of each made format.
inline constexpr int kEpwHeaderLines = 8;
inline constexpr int kTmy3HeaderLines = 2;
}  // namespace ovendays::test
