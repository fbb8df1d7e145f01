// SPDX-License-Identifier: MIT
// Is a difference between two alternatives larger than what is not known about ovens, cooks and
// years? The uncertain inputs (spread.h) are drawn once, and every alternative is simulated with
// the same draws on the same days, so that what the alternatives share cancels in their difference
// (common random numbers). Thread-safe: yes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "ovendays/results/study_file.h"
#include "ovendays/study/spread.h"

namespace ovendays::study {

/// Calls `each` once for every draw, from several threads, with the season that the draw's case
/// gives on every fourth day of the year. Draw i starts at day i mod 4.
/// @param days marks the days that were simulated
/// @throws base::RunError as run_season does
using UseDraw = std::function<void(std::size_t draw,
                                   const season::Case& changed,
                                   const season::SeasonResult& result,
                                   const std::vector<bool>& days)>;
void run_draws(const season::Case& c,
               const weather::WeatherYear& year,
               const SpreadOptions& options,
               const UseDraw& each);

/// Days of a task by which a draw's season differs from the one as given, on the draw's days only.
int days_gained(const season::SeasonResult& draw,
                const season::SeasonResult& as_given,
                std::size_t task,
                const std::vector<bool>& days);

/// days_gained of every task and draw, [task * draws + draw], as results::StudyAlternative keeps
/// them. @param as_given run_season of this case and year
/// @throws base::RunError as run_season does
std::vector<std::int16_t> draw_gains(const season::Case& c,
                                     const weather::WeatherYear& year,
                                     const season::SeasonResult& as_given,
                                     const SpreadOptions& options);

/// Likely range of a difference in days a year: eight of ten draws lie in it.
struct NetRange {
  double low_days = 0.0;   ///< P10
  double high_days = 0.0;  ///< P90
  /// Whether the range holds no zero, so that the difference's sign is likely right.
  [[nodiscard]] bool clear() const { return low_days > 0.0 || high_days < 0.0; }
};

/// Range of the days that `other` gains against `base`. A draw's difference is the one as given on
/// resampled days (resampled_days, the same for both), plus what the draw adds to it on its quarter
/// of the days, times the days of the year by those simulated.
/// @param task index; without it, the sum over the tasks that count
/// @return none where the study has no draws
std::optional<NetRange> net_range(const results::StoredStudy& study,
                                  const results::StudyAlternative& base,
                                  const results::StudyAlternative& other,
                                  std::optional<std::size_t> task = std::nullopt);
}  // namespace ovendays::study
