// SPDX-License-Identifier: MIT
// A study: variants of one case. Its file names the case, lists of sites, spots, ovens and routines
// whose entries are combined, and single changes with their prices. Each alternative is a complete
// case, made by base::CaseEdits.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "ovendays/base/case_node.h"
#include "ovendays/results/study_file.h"
#include "ovendays/season/case.h"

namespace ovendays::study {

/// Whether the runs search for the causes of lost days.
enum class Causes { kLookedFor, kLeftOut };

/// Caches the last weather year read, so that cases with the same weather read it once and memory
/// does not grow with the number of sites. Thread-safe: no.
class WeatherCache {
 public:
  /// @param files gives the texts; never null
  explicit WeatherCache(std::shared_ptr<base::FileTexts> files) : files_(std::move(files)) {}
  /// The weather year of a case, valid until the next call.
  /// @throws base::InputError as season::load_weather
  const weather::WeatherYear& year_of(const season::Case& c);

 private:
  std::shared_ptr<base::FileTexts> files_;
  std::string file_;
  weather::SiteOverrides site_;
  std::optional<weather::WeatherYear> year_;
};

/// How a study is started.
struct StartOptions {
  int threads = 1;  ///< 1 or more; the result does not depend on it
  int draws = 0;    ///< of the uncertain inputs for every alternative (draw_gains.h); 0: none
  std::uint64_t seed = 1;  ///< of the draws
  /// Called with the share of the cases that have been checked; may be empty. One call at a time,
  /// from any of the threads.
  std::function<void(double share_done)> progress;
};

class Study {
 public:
  /// Reads the file, builds the case of every combination and every single change, and reads their
  /// weather, so that all their errors are found before anything runs. The time is proportional to
  /// the number of alternatives and of pairs of changes to the same key. Whether changes of
  /// different keys are valid together is only known when they are tried.
  /// @throws base::InputError with all faults, each with its file and line
  Study(const std::string& file, Causes causes, const StartOptions& options = {});

  /// All alternatives that do not depend on results, not yet run: first the combinations (sites
  /// outermost, then spots, ovens, routines), then each change alone.
  [[nodiscard]] const results::StoredStudy& plan() const { return plan_; }
  /// Whether changes are also combined, in the best order.
  [[nodiscard]] bool together() const { return together_; }
  /// The alternative that applies several changes to the first combination, not yet run.
  /// @param changes ascending indices
  [[nodiscard]] results::StudyAlternative with_changes(const std::vector<int>& changes) const;
  /// The case of an alternative. Thread-safe: yes.
  /// @throws base::InputError where changes that are valid alone are not valid together
  [[nodiscard]] season::Case case_of(const results::StudyAlternative& alternative) const;
  /// What the study's files held when they were first read. Cases are made of these texts at any
  /// time, so that what is simulated is what the digests are of.
  [[nodiscard]] const std::shared_ptr<base::FileTexts>& files() const { return files_; }
  /// SHA-256 of the program's version, the number of its model (season::kPhysicsVersion), the
  /// draws, the case and the weather as read.
  [[nodiscard]] std::string digest_of(const season::Case& c,
                                      const weather::WeatherYear& year) const;

 private:
  struct Reading;
  void read_head(Reading& reading);
  void read_axes(Reading& reading);
  void read_changes(Reading& reading);
  void read_kitchen(Reading& reading, const std::vector<task::Task>& tasks);
  void combine();
  void check_cases(Reading& reading, const StartOptions& options);
  [[nodiscard]] std::string digest_of(const season::Case& c,
                                      const std::string& weather_sha256) const;

  std::shared_ptr<base::FileTexts> files_ = std::make_shared<base::FileTexts>();
  std::string file_;
  std::string text_;
  std::optional<base::CaseEdits> edits_;
  bool together_ = true;
  std::array<bool, results::kAxes> listed_{};  // axes that the file lists
  results::StoredStudy plan_;
};

/// A commented study to start from, which documents its format; its case is "my-yard.toml".
std::string starter_study();
}  // namespace ovendays::study
