// SPDX-License-Identifier: MIT
#include "ovendays/study/draw_gains.h"

#include <algorithm>
#include <cmath>

#include "draw_seasons.h"
#include "ovendays/base/check.h"
#include "ovendays/season/parallel.h"

namespace ovendays::study {
namespace {
using results::StudyAlternative;

std::vector<bool> days_of_draw(std::size_t draw) {
  std::vector<bool> days(season::kDays, false);
  for (std::size_t d = draw % kDrawEvery_days; d < days.size(); d += kDrawEvery_days) {
    days[d] = true;
  }
  return days;
}

/// Days that `other` gains against `base` for a task, each day taken from where `from` says.
int resampled_net(const StudyAlternative& base,
                  const StudyAlternative& other,
                  std::size_t task,
                  const std::array<int, season::kDays>& from) {
  const auto works = [task](const StudyAlternative& each, int day) {
    return each.day(task, day).outcome == season::Outcome::kCooked ? 1 : 0;
  };
  int net = 0;
  for (const int day : from) net += works(other, day) - works(base, day);
  return net;
}
}  // namespace

void run_draws(const season::Case& c,
               const weather::WeatherYear& year,
               const SpreadOptions& options,
               const UseDraw& each) {
  OVENDAYS_CHECK(options.draws >= 1);
  const std::vector<Draw> draws =
      make_draws(static_cast<std::size_t>(options.draws), options.seed, 1);
  const season::SeasonCache own;
  const season::SeasonCache& cache = options.season.cache != nullptr ? *options.season.cache : own;
  season::Progress progress(options.draws, options.season.progress);
  season::parallel(options.draws, season::thread_count(options.season.threads), [&](int i) {
    const auto draw = static_cast<std::size_t>(i);
    season::SeasonOptions one = draw_options(options, cache);
    one.only_days = days_of_draw(draw);
    const season::Case changed = with_draw(c, draws[draw]);
    each(draw, changed, season::run_season(changed, year, one), one.only_days);
    progress.add();
  });
}

int days_gained(const season::SeasonResult& draw,
                const season::SeasonResult& as_given,
                std::size_t task,
                const std::vector<bool>& days) {
  int difference = 0;
  for (int d = 0; d < season::kDays; ++d) {
    if (!days[static_cast<std::size_t>(d)]) continue;
    difference += (cooked(draw, task, d) ? 1 : 0) - (cooked(as_given, task, d) ? 1 : 0);
  }
  return difference;
}

std::vector<std::int16_t> draw_gains(const season::Case& c,
                                     const weather::WeatherYear& year,
                                     const season::SeasonResult& as_given,
                                     const SpreadOptions& options) {
  const auto draws = static_cast<std::size_t>(options.draws);
  std::vector<std::int16_t> gains(c.tasks.size() * draws);
  // Each draw has its own slots, so the order of the threads does not matter.
  run_draws(c,
            year,
            options,
            [&](std::size_t draw,
                const season::Case& /*changed*/,
                const season::SeasonResult& result,
                const std::vector<bool>& days) {
              for (std::size_t t = 0; t < c.tasks.size(); ++t) {
                gains[t * draws + draw] =
                    static_cast<std::int16_t>(days_gained(result, as_given, t, days));
              }
            });
  return gains;
}

std::optional<NetRange> net_range(const results::StoredStudy& study,
                                  const StudyAlternative& base,
                                  const StudyAlternative& other,
                                  std::optional<std::size_t> task) {
  if (study.draws < 1 || !base.done() || !other.done()) return std::nullopt;
  const auto draws = static_cast<std::size_t>(study.draws);
  std::vector<double> net_days(draws, 0.0);
  for (std::size_t draw = 0; draw < draws; ++draw) {
    const auto from = resampled_days(weather_key(draw, study.seed));
    const std::vector<bool> days = days_of_draw(draw);
    const double number = static_cast<double>(std::count(days.begin(), days.end(), true));
    for (std::size_t t = 0; t < study.tasks.size(); ++t) {
      if (task ? t != *task : !study.tasks[t].counts) continue;
      const std::size_t slot = t * draws + draw;
      const int gained = other.draw_gains[slot] - base.draw_gains[slot];
      net_days[draw] += resampled_net(base, other, t, from) + gained * season::kDays / number;
    }
  }
  std::sort(net_days.begin(), net_days.end());
  return NetRange{std::round(percentile(net_days, 0.1)), std::round(percentile(net_days, 0.9))};
}
}  // namespace ovendays::study
