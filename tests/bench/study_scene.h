// SPDX-License-Identifier: MIT
// Seasons as a study runs them: the starter case on the made high-desert year, one oven after the
// other that differs in insulation and leaks, or in its panes; sky, spot and optics are kept.
#pragma once

#include <array>
#include <cstddef>

#include "made_case.h"

namespace ovendays::bench {

inline season::Case starter() {
  return season::read_case_text(season::starter_case(),
                                std::string(OVENDAYS_SOURCE_DIR) + "/weather/starter.toml");
}

enum class Varied { kInsulation, kPanes };

/// Oven `i` of `count`, the better insulated (or the clearer) the later; `i` = 0 is the poorest.
inline season::Case varied_case(season::Case c, Varied varied, int i, int count) {
  const double share = count > 1 ? static_cast<double>(i) / (count - 1) : 0.0;
  if (varied == Varied::kPanes) {
    for (oven::Pane& pane : c.oven.panes) pane.extinction_1m = 30.0 - 26.0 * share;
    return c;
  }
  for (oven::Layer& layer : c.oven.box.wall) layer.material.conductivity_WmK *= 1.5 - share;
  for (oven::Layer& layer : c.oven.box.floor) layer.material.conductivity_WmK *= 1.5 - share;
  c.oven.box.leak_area_m2 *= 2.0 - 1.5 * share;
  return c;
}

struct StudyOutcome {
  int first_days = 0;  ///< days cooked, all tasks, of the poorest oven
  int last_days = 0;   ///< of the best
  int worst_fall = 0;  ///< most days lost from one oven to the next better one
};

inline int all_cooked_days(const season::SeasonResult& result) {
  int days = 0;
  for (std::size_t t = 0; t < result.task_names.size(); ++t) days += test::cooked_days(result, t);
  return days;
}

/// One season after the other, on one thread; which days work, without causes.
inline StudyOutcome run_study(const season::Case& base,
                              const weather::WeatherYear& year,
                              Varied varied,
                              int count) {
  const season::SeasonCache cache;
  season::SeasonOptions options;
  options.threads = 1;
  options.causes = false;
  options.days_only = true;
  options.cache = &cache;
  StudyOutcome outcome;
  for (int i = 0; i < count; ++i) {
    const season::Case c = varied_case(base, varied, i, count);
    const int days = all_cooked_days(season::run_season(c, year, options));
    if (i == 0) outcome.first_days = days;
    if (i > 0) outcome.worst_fall = std::max(outcome.worst_fall, outcome.last_days - days);
    outcome.last_days = days;
  }
  return outcome;
}
}  // namespace ovendays::bench
