// SPDX-License-Identifier: MIT
// Runs the alternatives of a study, and none twice.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "ovendays/results/study_file.h"
#include "ovendays/season/season.h"
#include "ovendays/study/study.h"

namespace ovendays::study {

/// One of several equal parts of the planned alternatives: every count-th from the index-th on.
struct Share {
  std::size_t index = 1;  ///< 1..count
  std::size_t count = 1;

  [[nodiscard]] bool whole() const { return count == 1; }
  [[nodiscard]] bool has(std::size_t place) const { return place % count == index - 1; }
};

/// What a study keeps of an alternative's season: see results::StudyAlternative.
struct StudySeason {
  std::vector<results::StudyDay> days;
  std::vector<std::int16_t> draw_gains;
};
/// Runs one season, and those of the study's draws.
using Simulate = std::function<StudySeason(
    const season::Case&, const weather::WeatherYear&, const std::function<void(double)>&)>;
/// A Simulate that calls season::run_season with the given options, and draw_gains.
/// @param draws 0 or more; seed: as in Study::plan()
Simulate season_simulator(const season::SeasonOptions& options, int draws, std::uint64_t seed);

struct RunOptions {
  Share share;
  Simulate simulate;
  /// Called with the share of the known work that is done and the running alternative; may be
  /// empty.
  std::function<void(double share_done, const std::string& alternative)> progress;
  /// Called with the results so far after an alternative has finished, but not so often that saving
  /// takes more than a twentieth of the time, and once at the end. May be empty.
  std::function<void(const results::StoredStudy&)> save;
};

struct RunSummary {
  results::StoredStudy study;
  std::size_t run = 0;  ///< alternatives simulated now
  std::size_t kept =
      0;  ///< alternatives taken from earlier results, because their inputs are the same
  /// Alternatives tried now that could not be run; see StudyAlternative::failure. Changes that are
  /// not valid together are not among them: the order leaves them out, which is no error.
  std::size_t failed = 0;
};

/// Runs the alternatives one after the other, each on all threads. An alternative whose digest
/// occurs in `before` is taken from there. If the share is the whole study, combinations of changes
/// are then run as best_order asks for them. The result does not depend on `before` or on threads.
/// An alternative whose season fails, or whose inputs are refused, is marked with the reason, and
/// the others are run; a later call tries it again.
/// @throws what options.save throws
RunSummary run_study(const Study& study,
                     const std::vector<results::StoredStudy>& before,
                     const RunOptions& options);
}  // namespace ovendays::study
