// SPDX-License-Identifier: MIT
// A study: one case, and what about it is to be compared. Read from a file of its own, which names
// the case, lists of sites, spots, ovens and routines that are crossed with one another, and single
// changes with their prices. Each alternative is a whole case again, made by
// base::CaseFile::edited.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ovendays/base/case_node.h"
#include "ovendays/results/study_file.h"
#include "ovendays/season/case.h"

namespace ovendays::study {

/// Whether the runs look for what spoilt each lost day.
enum class Causes { kLookedFor, kLeftOut };

/// One weather year at a time, kept while the next case asks for the same: memory does not grow
/// with the number of sites. Thread-safe: no.
class WeatherShelf {
 public:
  /// @throws base::InputError as season::load_weather
  const weather::WeatherYear& year_of(const season::Case& c);

 private:
  std::string file_;
  weather::SiteOverrides site_;
  std::optional<weather::WeatherYear> year_;
};

class Study {
 public:
  /// Reads the file, makes the case of every combination and of every single change, and reads
  /// their weather, so that all that can be wrong is found before anything runs.
  /// @throws base::InputError with every fault, each where it stands
  Study(const std::string& file, Causes causes);

  /// All alternatives that do not depend on what others come to, none of them run: combinations
  /// (sites outermost, then spots, ovens, routines), then each change alone.
  [[nodiscard]] const results::StoredStudy& plan() const { return plan_; }
  /// Whether changes are tried together too, in the best order.
  [[nodiscard]] bool together() const { return together_; }
  /// Its name; an alternative with several changes is the first combination with all of them.
  /// @param changes ascending
  [[nodiscard]] results::StudyAlternative with_changes(const std::vector<int>& changes) const;
  /// @throws base::InputError where three or more changes that are sound in pairs are not together
  [[nodiscard]] season::Case case_of(const results::StudyAlternative& alternative) const;
  /// SHA-256 of the program's version, the case and the weather as read.
  [[nodiscard]] std::string digest_of(const season::Case& c,
                                      const weather::WeatherYear& year) const;

 private:
  struct Reading;
  void read_head(Reading& reading);
  void read_axes(Reading& reading);
  void read_changes(Reading& reading);
  void read_kitchen(Reading& reading, const std::vector<task::Task>& tasks);
  void combine();
  void check_cases(Reading& reading);
  void check_pairs();

  std::string file_;
  std::string text_;
  bool together_ = true;
  std::array<bool, results::kAxes> listed_{};  // axes that the file has a list for
  results::StoredStudy plan_;
};

/// A commented study to start from, the manual of its own format; its case is "my-yard.toml".
std::string starter_study();
}  // namespace ovendays::study
