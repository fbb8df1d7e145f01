// SPDX-License-Identifier: MIT
// A season's likely ranges from few draws on a third of the days; see spread.h.
#include <algorithm>
#include <cmath>

#include "draw_seasons.h"
#include "ovendays/base/check.h"
#include "ovendays/season/parallel.h"
#include "ovendays/study/spread.h"
#include "ovendays/task/routine.h"

namespace ovendays::study {
namespace {

/// A draw simulates one day in so many; the next draw starts a day later.
constexpr std::size_t kEvery = 3;

std::vector<bool> days_of_draw(std::size_t draw) {
  std::vector<bool> days(season::kDays, false);
  for (std::size_t d = draw % kEvery; d < days.size(); d += kEvery) days[d] = true;
  return days;
}

bool cooked(const season::SeasonResult& result, std::size_t task, int day) {
  return result.at(task, day).outcome == season::Outcome::kCooked;
}

/// Days of the year by which a draw's oven differs from the one as given.
double days_gained(const season::SeasonResult& draw,
                   const season::SeasonResult& as_given,
                   std::size_t task,
                   const std::vector<bool>& days) {
  int difference = 0;
  int simulated = 0;
  for (int d = 0; d < season::kDays; ++d) {
    if (!days[static_cast<std::size_t>(d)]) continue;
    ++simulated;
    difference += (cooked(draw, task, d) ? 1 : 0) - (cooked(as_given, task, d) ? 1 : 0);
  }
  return static_cast<double>(difference) * season::kDays / simulated;
}

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
  const std::vector<Draw> draws = make_draws(count, options.seed, 1);
  const std::size_t tasks = c.tasks.size();
  std::vector<std::vector<double>> days(tasks, std::vector<double>(count));
  std::vector<std::vector<std::vector<float>>> durations_s(tasks,
                                                           std::vector<std::vector<float>>(count));
  const season::SeasonCache cache;
  season::Progress progress(options.draws, options.season.progress);
  // Each draw has its own slots, so the order of the threads does not matter.
  season::parallel(options.draws, season::thread_count(options.season.threads), [&](int i) {
    const auto draw = static_cast<std::size_t>(i);
    season::SeasonOptions one = draw_options(options, cache);
    one.only_days = days_of_draw(draw);
    const season::Case changed = with_draw(c, draws[draw]);
    const season::SeasonResult result = season::run_season(changed, year, one);
    const auto from = resampled_days(weather_key(draw, options.seed));
    for (std::size_t t = 0; t < tasks; ++t) {
      const double estimate =
          resampled_count(c, as_given, t, from) + days_gained(result, as_given, t, one.only_days);
      days[t][draw] = std::clamp(std::round(estimate), 0.0, double{season::kDays});
      durations_s[t][draw] = done_in_s(result, t, season::typical_load_s(changed, t));
    }
    progress.add();
  });
  std::vector<season::TaskRange> ranges(tasks);
  for (std::size_t t = 0; t < tasks; ++t) {
    ranges[t].typical_load_s = season::typical_load_s(c, t);
    add_days(std::move(days[t]), ranges[t]);
    add_times(durations_s[t], ranges[t]);
  }
  return ranges;
}
}  // namespace ovendays::study
