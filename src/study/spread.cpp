// SPDX-License-Identifier: MIT
#include "ovendays/study/spread.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "draw_seasons.h"
#include "ovendays/base/calendar.h"
#include "ovendays/base/check.h"
#include "ovendays/base/random.h"
#include "ovendays/season/parallel.h"

namespace ovendays::study {

season::SeasonOptions draw_options(const SpreadOptions& options, const season::SeasonCache& cache) {
  season::SeasonOptions one = options.season;
  one.threads = 1;
  one.causes = false;
  one.days_only = one.outcomes_only = true;
  one.cache = &cache;
  one.progress = {};
  one.optics = coarse_optics(one.optics);
  return one;
}

optics::OpticsOptions coarse_optics(optics::OpticsOptions options) {
  options.rays = std::min(options.rays, 128);
  options.grid = std::min(options.grid, 25);
  return options;
}

std::vector<float> done_in_s(const season::SeasonResult& result, std::size_t task, double load_s) {
  std::vector<float> durations_s;
  for (int d = 0; d < season::kDays; ++d) {
    const season::DayTask& day = result.at(task, d);
    if (day.outcome != season::Outcome::kCooked) continue;
    if (std::abs(static_cast<double>(day.load_s) - load_s) > 1.0) continue;
    durations_s.push_back(day.finish_s - day.load_s);
  }
  return durations_s;
}

void add_times(const std::vector<std::vector<float>>& durations_s, season::TaskRange& range) {
  std::vector<double> all;
  for (const std::vector<float>& of_draw : durations_s)
    all.insert(all.end(), of_draw.begin(), of_draw.end());
  if (all.empty()) return;
  std::sort(all.begin(), all.end());
  range.done_in_s = std::round(percentile(all, 0.5));
  range.slow_s = std::round(percentile(all, 0.8));
}

void add_days(std::vector<double> days, season::TaskRange& range) {
  std::sort(days.begin(), days.end());
  range.draws = static_cast<double>(days.size());
  range.low_days = std::round(percentile(days, 0.1));
  range.median_days = std::round(percentile(days, 0.5));
  range.high_days = std::round(percentile(days, 0.9));
}

std::uint64_t weather_key(std::size_t index, std::uint64_t seed) {
  return base::KeyedRandom(seed, index).bits();
}

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
    spread.done_in_s.assign(c.tasks.size(), std::vector<std::vector<float>>(draws));
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
    const season::SeasonOptions one = draw_options(options_, cache_);
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
    const bool measured = years_.size() > 1;
    const season::SeasonResult result =
        measured ? season::run_season(changed, years_[draw.year], one)
                 : season::run_season(
                       changed, resampled_year(years_[0], weather_key(d, options_.seed)), one);
    for (std::size_t t = 0; t < c_.tasks.size(); ++t) {
      spread_.days[t][d] = season::cooked_by_month(result, t);
      spread_.done_in_s[t][d] = done_in_s(result, t, season::typical_load_s(changed, t));
    }
  }

  season::SeasonCache cache_;
  const season::Case& c_;
  const std::vector<weather::WeatherYear>& years_;
  const SpreadOptions& options_;
  Spread& spread_;
};
}  // namespace

std::array<int, season::kDays> resampled_days(std::uint64_t key) {
  std::array<int, season::kDays> from{};
  base::KeyedRandom random(key);
  for (int first = 0; first < season::kDays; first += kBlock_days) {
    const auto shift_days =
        static_cast<int>(random.uniform() * (2 * kWindow_days + 1)) - kWindow_days;
    const int last = std::min(first + kBlock_days, season::kDays);
    for (int d = first; d < last; ++d)
      from[static_cast<std::size_t>(d)] = (d + shift_days + season::kDays) % season::kDays;
  }
  return from;
}

// Hours are copied but keep their own dates, because the sun is computed from the date.
weather::WeatherYear resampled_year(const weather::WeatherYear& year, std::uint64_t key) {
  weather::WeatherYear made = year;
  const std::array<int, season::kDays> from = resampled_days(key);
  for (std::size_t d = 0; d < from.size(); ++d) {
    for (int h = 0; h < 24; ++h) {
      weather::WeatherHour& hour = made.hours[d * 24 + static_cast<std::size_t>(h)];
      const base::Date date = hour.date;
      hour = year.at(from[d], h);
      hour.date = date;
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

std::vector<season::TaskRange> task_ranges(const season::Case& c, const Spread& spread) {
  std::vector<season::TaskRange> ranges(c.tasks.size());
  for (std::size_t t = 0; t < c.tasks.size(); ++t) {
    ranges[t].typical_load_s = season::typical_load_s(c, t);
    std::vector<double> days;
    for (const MonthDays& draw : spread.days[t]) days.push_back(draw[12]);
    add_days(std::move(days), ranges[t]);
    add_times(spread.done_in_s[t], ranges[t]);
  }
  return ranges;
}

double day_chance(const Spread& spread, std::size_t task, std::size_t month) {
  double days = 0.0;
  for (const MonthDays& draw : spread.days[task]) days += draw[month];
  const int of =
      month == 12 ? season::kDays : base::days_in_month(2001, static_cast<int>(month) + 1);
  return days / (static_cast<double>(spread.days[task].size()) * of);
}
}  // namespace ovendays::study
