// SPDX-License-Identifier: MIT
// The file of a study, HDF5 like that of a season: the alternatives, what each consists of, the
// digest of its inputs, and what became of every task on every day. results/README.md describes
// every dataset.
//
// The file is valid at any time between the first alternative and the last; those that have not
// been run are marked. It does not depend on the order in which alternatives were run, so a study
// that is run in parts, or killed and resumed, ends with the same bytes as one that is run in one
// go.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "ovendays/season/season.h"

namespace ovendays::results {

/// Number of the layout; readers refuse any other.
inline constexpr int kStudyFormat = 3;

/// Ways in which alternatives may differ. Each axis has a list of one or more names.
enum Axis : std::size_t { kSite = 0, kSpot, kOven, kRoutine };
inline constexpr std::size_t kAxes = 4;
inline constexpr std::array<Axis, kAxes> kAllAxes = {kSite, kSpot, kOven, kRoutine};
/// "site", "spot", "oven", "routine": the arrays of a study file, and the dimensions of its result.
const char* axis_name(Axis axis);

/// A task and what it costs to cook it in the kitchen instead.
struct StudyTask {
  std::string name;
  bool counts = true;          ///< false: left out of totals, ranks and the order of changes
  double kitchen_J = 0.0;      ///< energy of cooking it once in the kitchen
  double cooks_a_year = 0.0;   ///< how often it is wanted
  std::string kitchen_source;  ///< where kitchen_J comes from
};

/// A change that may be made to the first combination.
struct StudyChange {
  std::string name;
  double price = 0.0;         ///< in the study's currency, not negative
  std::vector<int> excludes;  ///< changes of the same part of the case
};

/// What became of a task on a day; times as in season::DayTask.
struct StudyDay {
  season::Outcome outcome = season::Outcome::kNoGo;
  season::Cause cause = season::Cause::kNone;
  float load_s = -1;    ///< [s of the day]; < 0 none
  float finish_s = -1;  ///< [s of the day]; < 0 not done

  bool operator==(const StudyDay&) const = default;
};

struct StudyAlternative {
  std::string name;
  std::string sha256;           ///< of all inputs, the program's version included
  std::array<int, kAxes> at{};  ///< indices into StoredStudy::axes
  std::vector<int> changes;     ///< ascending indices into StoredStudy::changes
  std::vector<StudyDay> days;   ///< [task * 365 + day]; empty until it is run

  /// [task * StoredStudy::draws + draw]: days that the draw's season gains against `days`, on the
  /// days that the draw simulates; see study/draw_gains.h. Empty until it is run.
  std::vector<std::int16_t> draw_gains;

  /// Why it could not be run, in one line; empty if it was run or has not been tried.
  std::string failure;

  [[nodiscard]] bool done() const { return !days.empty(); }
  [[nodiscard]] bool failed() const { return !failure.empty(); }
  [[nodiscard]] const StudyDay& day(std::size_t task, int day_index) const {
    return days[task * season::kDays + static_cast<std::size_t>(day_index)];
  }
};

/// A study as tables and pictures see it.
struct StoredStudy {
  std::string program_version;
  std::string name;
  std::string study_file;     ///< name as given
  std::string study_text;     ///< as read, without included files
  std::string money;          ///< currency of the prices, such as "EUR"
  double tariff_per_J = 0.0;  ///< price of the kitchen's energy
  bool causes = true;         ///< the seasons looked for causes
  int draws = 0;              ///< of the uncertain inputs, for every alternative; 0: none
  std::uint64_t seed = 1;     ///< of the draws
  std::vector<StudyTask> tasks;
  std::vector<StudyChange> changes;
  std::array<std::vector<std::string>, kAxes> axes;  ///< names, one or more each
  std::vector<double> oven_prices;                   ///< by oven; 0: not given
  /// First all combinations, of which the first is the base of comparison; then each change alone;
  /// then changes together, in the order in which they were tried.
  std::vector<StudyAlternative> alternatives;

  /// Number of alternatives that are known beforehand: combinations and single changes.
  [[nodiscard]] std::size_t planned() const;
  [[nodiscard]] std::size_t combinations() const;
};

/// Writes the file under another name and renames it into place. Every numeric array of more than
/// 64 bytes carries a checksum, and the file ends with a seal like that of a season.
/// @throws base::RunError with the file's name and HDF5's or the system's reason
/// Thread-safe: as the HDF5 library is; one call at a time.
void write_study(const std::string& file, const StoredStudy& study);

/// Reads a file of write_study.
/// @throws base::InputError where the file is of another kind or layout, damaged or incomplete
/// Thread-safe: as the HDF5 library is; one call at a time.
StoredStudy read_study_file(const std::string& file);

/// Joins files of one study in which different alternatives have been run. One that failed in one
/// file and was run in another counts as run.
/// @param names of the files, for messages
/// @throws base::InputError where a file is of another study or was run with other inputs
StoredStudy gathered(const std::vector<StoredStudy>& parts, const std::vector<std::string>& names);
}  // namespace ovendays::results
