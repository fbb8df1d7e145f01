// SPDX-License-Identifier: MIT
// Runs what a study asks for and nothing twice.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "ovendays/results/study_file.h"
#include "ovendays/season/season.h"
#include "ovendays/study/study.h"

namespace ovendays::study {

/// One of several equal shares of the planned alternatives: every count-th, from the index-th on.
struct Share {
  std::size_t index = 1;  ///< 1..count
  std::size_t count = 1;

  [[nodiscard]] bool whole() const { return count == 1; }
  [[nodiscard]] bool has(std::size_t place) const { return place % count == index - 1; }
};

/// A season cut down to what a study keeps: [task * 365 + day].
using Simulate = std::function<std::vector<results::StudyDay>(
    const season::Case&, const weather::WeatherYear&, const std::function<void(double)>&)>;
/// Runs season::run_season, looking for causes as told by `options`.
Simulate season_simulator(const season::SeasonOptions& options);

struct RunOptions {
  Share share;
  Simulate simulate;
  /// Told how much of the work that is known of is done, and what is running; may be empty.
  std::function<void(double share_done, const std::string& alternative)> progress;
  /// Given the study as it stands whenever something has been added, though not so often that it
  /// takes more than a twentieth of the time; once more at the end. May be empty.
  std::function<void(const results::StoredStudy&)> save;
};

struct RunSummary {
  results::StoredStudy study;
  std::size_t run = 0;   ///< alternatives simulated now
  std::size_t kept = 0;  ///< alternatives taken over, since their inputs are the same
};

/// Alternatives run one after the other, each on all threads; what `before` holds with the same
/// digest is taken over. With a whole share, changes are then tried together as best_order asks.
/// The result does not depend on `before`, on the share's order or on threads.
/// @throws base::RunError where a season fails
RunSummary run_study(const Study& study,
                     const std::vector<results::StoredStudy>& before,
                     const RunOptions& options);
}  // namespace ovendays::study
