// SPDX-License-Identifier: MIT
// One file per study, HDF5 as for a season: the alternatives with what each consists of, the digest
// of all that went into it, and what became of every task on every day. The layout is told dataset
// by dataset in results/README.md.
//
// A study's file is good at any time between its first alternative and its last: what has not been
// run is marked so. The order in which alternatives were run leaves no trace, so that a study run
// in parts, or killed and begun again, ends in the same bytes as one run in one go.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "ovendays/season/season.h"

namespace ovendays::results {

/// The layout's number; a reader refuses any other.
inline constexpr int kStudyFormat = 1;

/// What an alternative may differ in. Each axis has a list of names, one or more.
enum Axis : std::size_t { kSite = 0, kSpot, kOven, kRoutine };
inline constexpr std::size_t kAxes = 4;
inline constexpr std::array<Axis, kAxes> kAllAxes = {kSite, kSpot, kOven, kRoutine};
/// "site", "spot", "oven", "routine": the arrays of a study file, and the dimensions of its result.
const char* axis_name(Axis axis);

/// A task and what it costs in the kitchen.
struct StudyTask {
  std::string name;
  bool counts = true;          ///< in totals, ranks and the order of changes
  double kitchen_J = 0.0;      ///< energy of one cook in the kitchen
  double cooks_a_year = 0.0;   ///< wanted
  std::string kitchen_source;  ///< where kitchen_J comes from
};

/// One thing that may be changed about the first combination.
struct StudyChange {
  std::string name;
  double price = 0.0;         ///< in the study's money, not negative
  std::vector<int> excludes;  ///< changes that touch the same part of the case
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
  std::string sha256;           ///< of all that went into it, the program's version included
  std::array<int, kAxes> at{};  ///< places in StoredStudy::axes
  std::vector<int> changes;     ///< made to it, ascending places in StoredStudy::changes
  std::vector<StudyDay> days;   ///< [task * 365 + day]; empty while not run

  [[nodiscard]] bool done() const { return !days.empty(); }
  [[nodiscard]] const StudyDay& day(std::size_t task, int day_index) const {
    return days[task * season::kDays + static_cast<std::size_t>(day_index)];
  }
};

/// All that tables and pictures of a study are made from.
struct StoredStudy {
  std::string program_version;
  std::string name;
  std::string study_file;     ///< name as given
  std::string study_text;     ///< as read, without the files it names
  std::string money;          ///< what prices are in, such as "EUR"
  double tariff_per_J = 0.0;  ///< of the kitchen's energy, in money
  bool causes = true;         ///< the runs looked for causes
  std::vector<StudyTask> tasks;
  std::vector<StudyChange> changes;
  std::array<std::vector<std::string>, kAxes> axes;  ///< names, one or more each
  std::vector<double> oven_prices;  ///< what each oven has cost, in money; 0: not told
  /// First every combination (the first of them is what all others are held against), then each
  /// change alone, then changes together in the order in which they were tried.
  std::vector<StudyAlternative> alternatives;

  /// How many alternatives do not depend on what others came to: combinations and single changes.
  [[nodiscard]] std::size_t planned() const;
  [[nodiscard]] std::size_t combinations() const;
};

/// Writes the file aside and renames it into place. Every numeric array of more than 64 bytes
/// carries a checksum, and the file ends with a seal, as a season's does.
/// @throws base::RunError with the file's name and HDF5's or the system's reason
/// Thread-safe: as the HDF5 library is; one call at a time.
void write_study(const std::string& file, const StoredStudy& study);

/// Reads a file of write_study.
/// @throws base::InputError where it is not one, is of another layout, damaged or incomplete
/// Thread-safe: as the HDF5 library is; one call at a time.
StoredStudy read_study_file(const std::string& file);

/// One study from files that hold parts of it: what any of them has run is run.
/// @param names of the files, for messages
/// @throws base::InputError where one is of another study, or of the same with other inputs
StoredStudy gathered(const std::vector<StoredStudy>& parts, const std::vector<std::string>& names);
}  // namespace ovendays::results
