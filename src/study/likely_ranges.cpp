// SPDX-License-Identifier: MIT
// A season's likely ranges from few draws on a quarter of the days; see spread.h.
#include <algorithm>
#include <cmath>

#include "draw_seasons.h"
#include "ovendays/base/check.h"
#include "ovendays/study/draw_gains.h"
#include "ovendays/study/spread.h"
#include "ovendays/task/routine.h"

namespace ovendays::study {
namespace {
/// Days of the year as given, its outcomes resampled. A day keeps its own outcome where nobody
/// cooks on it, or on the day that it would take.
int resampled_count(const season::Case& c,
                    const season::SeasonResult& as_given,
                    std::size_t task,
                    const std::array<int, season::kDays>& from) {
  int count = 0;
  for (int d = 0; d < season::kDays; ++d) {
    const int source = from[static_cast<std::size_t>(d)];
    const bool both = task::cooks_on(c.routine, d) && task::cooks_on(c.routine, source);
    count += cooked(as_given, task, both ? source : d) ? 1 : 0;
  }
  return count;
}
}  // namespace

std::vector<season::TaskRange> likely_ranges(const season::Case& c,
                                             const weather::WeatherYear& year,
                                             const season::SeasonResult& as_given,
                                             const SpreadOptions& options) {
  OVENDAYS_CHECK(options.draws >= 1);
  const auto count = static_cast<std::size_t>(options.draws);
  const std::size_t tasks = c.tasks.size();
  std::vector<std::vector<double>> days(tasks, std::vector<double>(count));
  std::vector<std::vector<std::vector<float>>> durations_s(tasks,
                                                           std::vector<std::vector<float>>(count));
  // Each draw has its own slots, so the order of the threads does not matter.
  const UseDraw use = [&](std::size_t draw,
                          const season::Case& changed,
                          const season::SeasonResult& result,
                          const std::vector<bool>& simulated) {
    const auto from = resampled_days(weather_key(draw, options.seed));
    const auto number = static_cast<double>(std::count(simulated.begin(), simulated.end(), true));
    for (std::size_t t = 0; t < tasks; ++t) {
      const double estimate = resampled_count(c, as_given, t, from) +
                              days_gained(result, as_given, t, simulated) * season::kDays / number;
      days[t][draw] = std::clamp(std::round(estimate), 0.0, double{season::kDays});
      durations_s[t][draw] = done_in_s(result, t, season::typical_load_s(changed, t));
    }
  };
  run_draws(c, year, options, use);
  std::vector<season::TaskRange> ranges(tasks);
  for (std::size_t t = 0; t < tasks; ++t) {
    ranges[t].typical_load_s = season::typical_load_s(c, t);
    add_days(std::move(days[t]), ranges[t]);
    add_times(durations_s[t], ranges[t]);
  }
  return ranges;
}
}  // namespace ovendays::study
