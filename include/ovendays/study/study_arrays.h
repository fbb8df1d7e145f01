// SPDX-License-Identifier: MIT
// Maps, spreads and rows of seasons as arrays for results::write_arrays. Thread-safe: yes.
#pragma once

#include <string>
#include <vector>

#include "ovendays/results/array_file.h"
#include "ovendays/study/spot_map.h"
#include "ovendays/study/spread.h"
#include "ovendays/study/turning.h"

namespace ovendays::study {

/// Dimensions y, x, month (1..12); days_cooked (y, x, month), days_cooked_year (y, x), facing_rad
/// where the oven does not turn, wind_factor, roofed. NaN where there is no room.
results::ArrayFile map_file(const SpotMap& map, const std::string& task_name);

/// Dimensions turning (in words), task, month; days_cooked, days_cooked_year, turns_a_cook, and
/// every_s, NaN for once a day and never.
results::ArrayFile turning_file(const std::vector<TurningDays>& rows,
                                const std::vector<std::string>& task_names);

/// Dimensions draw, task, month, unknown, year, percentile; value of each unknown in each draw,
/// days_cooked and days_cooked_year of each draw, of each year with the case as it is, their
/// percentiles, and day_chance.
results::ArrayFile spread_file(const Spread& spread);

/// "every 30 min", "once a day", "never".
std::string turning_name(const Turning& turning);
}  // namespace ovendays::study
