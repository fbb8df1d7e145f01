// SPDX-License-Identifier: MIT
// One file per season, HDF5 in netCDF-4's own shape with CF names: what went in (the case as text,
// the weather as used, digests of both), what came out (every task on every day, every hour of the
// empty oven), and how good it is (energy audit, error of the acceptance tables). The layout is
// told dataset by dataset in results/README.md.
//
// Times are seconds of the day, local standard time. Nothing in the file depends on when, where or
// on how many threads it was made: the same season gives the same bytes.
#pragma once

#include <string>
#include <vector>

#include "ovendays/optics/acceptance.h"
#include "ovendays/season/case.h"
#include "ovendays/season/season.h"
#include "ovendays/weather/weather_year.h"

namespace ovendays::results {

/// Version of this program, such as "0.2.0".
const char* program_version();

/// The layout's number; a reader refuses any other.
inline constexpr int kFormat = 1;

/// What reports need to know of a task besides its days.
struct StoredTask {
  std::string name;
  std::string vessel;           ///< name of the vessel
  std::string source;           ///< where the target comes from
  double food_kg = 0.0;         ///< mass of the food
  double start_K = 0.0;         ///< of food and vessel when loaded
  double target_K = 0.0;        ///< of the core, as used (lowered below boiling where needed)
  double asked_target_K = 0.0;  ///< of the core, as the case has it
  double hold_s = 0.0;          ///< time at or above target
  double finish_by_s = 0.0;     ///< [s of the day]
  bool spoils = false;          ///< time in the danger zone counts
  std::string rule;             ///< the rule's key; empty where the food does not spoil
  std::string rule_text;        ///< the rule in words, with its publisher
  double rule_limit_s = 0.0;    ///< longest time it allows in its danger zone
};

/// An acceptance table as numbers; directions by optics::AcceptanceTable::node_direction.
struct StoredTable {
  std::string load;                       ///< "empty" or a vessel's name
  int grid = 0;                           ///< nodes along one side
  double error = -1.0;                    ///< see optics::AcceptanceTable::error
  std::vector<optics::Acceptance> nodes;  ///< row-major
};

/// All that a report may be made from, whether fresh from a run or read from a file.
struct StoredSeason {
  std::string program_version;   ///< of the program that ran it
  std::string case_file;         ///< name as given
  std::string case_text;         ///< the case as read, includes appended
  std::string case_sha256;       ///< of case_text
  weather::WeatherYear weather;  ///< as used; from a file, values are rounded to single precision
  std::vector<StoredTask> tasks;
  season::SeasonResult result;      ///< `tables` is empty: they are in `tables` below
  std::vector<StoredTable> tables;  ///< from a file, rounded to single precision
};

/// The same as writing a file and reading it back, but for the rounding named above.
/// @param result of run_season for this case and year; its tasks are those of the case
/// Thread-safe: yes.
StoredSeason stored_season(const season::Case& c,
                           const weather::WeatherYear& year,
                           season::SeasonResult result);

/// Writes the file aside and renames it into place, so that an old file stays whole if this fails.
/// Every numeric array of more than 64 bytes carries a Fletcher-32 checksum.
/// @throws base::RunError with the file's name and HDF5's or the system's reason
/// Thread-safe: as the HDF5 library is; one call at a time.
void write_results(const std::string& file,
                   const season::Case& c,
                   const weather::WeatherYear& year,
                   const season::SeasonResult& result);
/// The same from what was stored: reading a file and writing it again gives the same bytes.
void write_results(const std::string& file, const StoredSeason& stored);

/// Reads a file of write_results.
/// @throws base::InputError where it is not one, is of another layout, is damaged (a checksum or a
/// digest does not agree) or lacks something, with HDF5's reason where there is one
/// Thread-safe: as the HDF5 library is; one call at a time.
StoredSeason read_results(const std::string& file);
}  // namespace ovendays::results
