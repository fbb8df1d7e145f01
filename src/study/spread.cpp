// SPDX-License-Identifier: MIT
#include "ovendays/study/spread.h"

#include <algorithm>

#include "ovendays/base/calendar.h"
#include "ovendays/base/check.h"
#include "ovendays/base/random.h"
#include "ovendays/season/parallel.h"
#include "ovendays/season/season_cache.h"

namespace ovendays::study {
namespace {

/// Runs all seasons of a spread: first each weather year with the case as given, then the draws.
class SpreadRun {
 public:
  SpreadRun(const season::Case& c,
            const std::vector<weather::WeatherYear>& years,
            const SpreadOptions& options,
            Spread& spread)
      : c_(c), years_(years), options_(options), spread_(spread) {
    const auto draws = static_cast<std::size_t>(options.draws);
    spread.draws = make_draws(draws, options.seed, years.size());
    spread.days.assign(c.tasks.size(), std::vector<MonthDays>(draws));
    spread.by_year.assign(c.tasks.size(), std::vector<MonthDays>(years.size()));
  }

  void run() {
    const int seasons = static_cast<int>(years_.size() + spread_.draws.size());
    season::Progress progress(seasons, options_.season.progress);
    season::parallel(seasons, season::thread_count(options_.season.threads), [&](int i) {
      run_one(static_cast<std::size_t>(i));
      progress.add();
    });
  }

 private:
  // Runs season i. Each result has its own slot, so the order of the threads does not matter.
  void run_one(std::size_t i) {
    season::SeasonOptions one = options_.season;
    one.threads = 1;
    one.causes = false;
    one.days_only = one.outcomes_only = true;
    one.cache = &cache_;
    one.progress = {};
    if (i < years_.size()) {
      const season::SeasonResult result = season::run_season(c_, years_[i], one);
      for (std::size_t t = 0; t < c_.tasks.size(); ++t) {
        spread_.by_year[t][i] = season::cooked_by_month(result, t);
      }
      return;
    }
    const std::size_t d = i - years_.size();
    const Draw& draw = spread_.draws[d];
    const season::Case changed = with_draw(c_, draw);
    // A resampled year has its own key, so that the weather of a draw does not depend on how many
    // other draws there are.
    const bool measured = years_.size() > 1;
    const season::SeasonResult result =
        measured ? season::run_season(changed, years_[draw.year], one)
                 : season::run_season(
                       changed, resampled_year(years_[0], weather_key(d, options_.seed)), one);
    for (std::size_t t = 0; t < c_.tasks.size(); ++t) {
      spread_.days[t][d] = season::cooked_by_month(result, t);
    }
  }

  // A key for the weather that is independent of the draw's other random numbers.
  static std::uint64_t weather_key(std::size_t index, std::uint64_t seed) {
    return base::KeyedRandom(seed, index).bits();
  }

  season::SeasonCache cache_;
  const season::Case& c_;
  const std::vector<weather::WeatherYear>& years_;
  const SpreadOptions& options_;
  Spread& spread_;
};
}  // namespace

// Hours are copied but keep their own dates, because the sun is computed from the date.
weather::WeatherYear resampled_year(const weather::WeatherYear& year, std::uint64_t key) {
  weather::WeatherYear made = year;
  base::KeyedRandom random(key);
  for (int first = 0; first < season::kDays; first += kBlock_days) {
    const auto shift_days =
        static_cast<int>(random.uniform() * (2 * kWindow_days + 1)) - kWindow_days;
    const int last = std::min(first + kBlock_days, season::kDays);
    for (int d = first; d < last; ++d) {
      const int from = (d + shift_days + season::kDays) % season::kDays;
      for (int h = 0; h < 24; ++h) {
        weather::WeatherHour& hour =
            made.hours[static_cast<std::size_t>(d) * 24 + static_cast<std::size_t>(h)];
        const base::Date date = hour.date;
        hour = year.at(from, h);
        hour.date = date;
      }
    }
  }
  return made;
}

Spread run_spread(const season::Case& c,
                  const std::vector<weather::WeatherYear>& years,
                  const SpreadOptions& options) {
  OVENDAYS_CHECK(!years.empty() && options.draws >= 1);
  Spread spread;
  for (const task::Task& t : c.tasks) spread.task_names.push_back(t.name);
  for (const weather::WeatherYear& year : years) spread.year_files.push_back(year.file);
  SpreadRun(c, years, options, spread).run();
  return spread;
}

// See the header for the definition; `at` is the fractional index.
double percentile(std::span<const double> sorted, double share) {
  OVENDAYS_CHECK(!sorted.empty() && share >= 0.0 && share <= 1.0);
  const double at = share * static_cast<double>(sorted.size() - 1);
  const auto low = std::min(static_cast<std::size_t>(at), sorted.size() - 1);
  const std::size_t high = std::min(low + 1, sorted.size() - 1);
  return sorted[low] + (at - static_cast<double>(low)) * (sorted[high] - sorted[low]);
}

std::array<double, 3> days_range(const Spread& spread, std::size_t task, std::size_t month) {
  std::vector<double> days;
  for (const MonthDays& draw : spread.days[task]) days.push_back(draw[month]);
  std::sort(days.begin(), days.end());
  return {percentile(days, 0.1), percentile(days, 0.5), percentile(days, 0.9)};
}

double day_chance(const Spread& spread, std::size_t task, std::size_t month) {
  double days = 0.0;
  for (const MonthDays& draw : spread.days[task]) days += draw[month];
  const int of =
      month == 12 ? season::kDays : base::days_in_month(2001, static_cast<int>(month) + 1);
  return days / (static_cast<double>(spread.days[task].size()) * of);
}
}  // namespace ovendays::study
