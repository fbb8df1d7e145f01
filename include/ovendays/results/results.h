// SPDX-License-Identifier: MIT
// The file of a season: HDF5 in the layout of netCDF-4, with CF names. It holds the inputs (the
// case as text, the weather as used, digests of both), the results (every task on every day, every
// hour of the empty oven), and measures of their quality (energy audit, error of the acceptance
// tables). results/README.md describes every dataset.
//
// Times are seconds of the day, local standard time. The same season gives the same bytes,
// whenever, wherever and on however many threads the file is made.
#pragma once

#include <string>
#include <vector>

#include "ovendays/optics/acceptance.h"
#include "ovendays/season/case.h"
#include "ovendays/season/season.h"
#include "ovendays/task/notches.h"
#include "ovendays/weather/weather_year.h"

namespace ovendays::results {

/// Version of this program, such as "0.2.0".
const char* program_version();

/// Number of the layout; readers refuse any other.
inline constexpr int kFormat = 2;

/// What a file keeps of a task besides its days. `rule` is empty where the food does not spoil; the
/// range has no draws where none was made.
struct StoredTask : task::TaskGoal, season::TaskRange {
  double used_target_K = 0.0;  ///< target_K, lowered below boiling where needed
  double food_kg = 0.0;        ///< mass of the food
  std::string rule_text;       ///< the rule in words, with its publisher
  /// What keeps the vessel out of some notches: a key of notch_limit_key(); empty where nothing
  /// does
  std::string notch_limit;
  double rule_limit_s = 0.0;  ///< longest time it allows in its danger zone
};

/// "" for kNone, "fixed" for a vessel that tilts with the box (kRack), "clearance" for one that
/// lacks room on its level rack (kRoom), "settings" for a rack whose settings are too coarse.
const char* notch_limit_key(task::NotchHelp help);

/// An acceptance table as numbers; directions by optics::AcceptanceTable::node_direction.
struct StoredTable {
  std::string load;                       ///< "empty" or a vessel's name
  int grid = 0;                           ///< nodes along one side
  double error = -1.0;                    ///< see optics::AcceptanceTable::error
  std::vector<optics::Acceptance> nodes;  ///< row-major
};

/// A season as reports see it, whether fresh from a run or read from a file.
struct StoredSeason {
  std::string program_version;   ///< of the program that ran the season
  std::string case_file;         ///< name as given
  std::string case_text;         ///< the case as read, includes appended
  std::string case_sha256;       ///< of case_text
  weather::WeatherYear weather;  ///< as used; from a file, values are rounded to single precision
  std::vector<StoredTask> tasks;
  season::SeasonResult result;      ///< `tables` is empty: they are in `tables` below
  std::vector<StoredTable> tables;  ///< from a file, rounded to single precision
};

/// Equals a file that is written and read back, except for the rounding stated above.
/// @param result of run_season for this case and year; its tasks are those of the case
/// Thread-safe: yes.
StoredSeason stored_season(const season::Case& c,
                           const weather::WeatherYear& year,
                           season::SeasonResult result);
/// Adds the ranges of all tasks. @param ranges by task
void add_ranges(const std::vector<season::TaskRange>& ranges, StoredSeason& stored);

/// Writes the file under another name and renames it into place, so that an old file remains intact
/// if this fails. Every numeric array of more than 64 bytes carries a Fletcher-32 checksum.
/// @throws base::RunError with the file's name and HDF5's or the system's reason
/// Thread-safe: as the HDF5 library is; one call at a time.
void write_results(const std::string& file,
                   const season::Case& c,
                   const weather::WeatherYear& year,
                   const season::SeasonResult& result);
/// Reading a file and writing it again gives the same bytes.
void write_results(const std::string& file, const StoredSeason& stored);

/// Reads a file of write_results.
/// @throws base::InputError where the file is of another kind or layout, is damaged (a checksum or
/// a digest does not agree) or incomplete, with HDF5's reason where there is one Thread-safe: as
/// the HDF5 library is; one call at a time.
StoredSeason read_results(const std::string& file);
}  // namespace ovendays::results
