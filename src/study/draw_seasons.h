// SPDX-License-Identifier: MIT
// What spreads and likely ranges share: the season of one draw, and quantiles over the draws.
// Private to study.
#pragma once

#include <cstdint>
#include <vector>

#include "ovendays/season/season_cache.h"
#include "ovendays/study/spread.h"

namespace ovendays::study {

/// Where draws simulate a part of the year, they simulate one day in so many; the next draw starts
/// a day later.
inline constexpr int kDrawEvery_days = 4;

inline bool cooked(const season::SeasonResult& result, std::size_t task, int day) {
  return result.at(task, day).outcome == season::Outcome::kCooked;
}

/// Options of one draw's season: only which days work, on one thread of many.
season::SeasonOptions draw_options(const SpreadOptions& options, const season::SeasonCache& cache);

/// Key of the weather of a draw. It is independent of the draw's other random numbers, and of how
/// many other draws there are.
std::uint64_t weather_key(std::size_t index, std::uint64_t seed);

/// Times from loading to done of the cooks that were loaded at a given time and worked.
std::vector<float> done_in_s(const season::SeasonResult& result, std::size_t task, double load_s);

/// Fills in the days of a range. @param days of the year, by draw; not empty
void add_days(std::vector<double> days, season::TaskRange& range);

/// Fills in the times of a range. @param durations_s by draw
void add_times(const std::vector<std::vector<float>>& durations_s, season::TaskRange& range);
}  // namespace ovendays::study
