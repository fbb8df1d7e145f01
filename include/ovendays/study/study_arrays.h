// SPDX-License-Identifier: MIT
// Converts maps, turnings and spreads to arrays for results::write_arrays. Thread-safe: yes.
#pragma once

#include <string>
#include <vector>

#include "ovendays/results/array_file.h"
#include "ovendays/study/spot_map.h"
#include "ovendays/study/spread.h"
#include "ovendays/study/turning.h"

namespace ovendays::study {

/// A map. Dimensions y, x, month (1..12); arrays days_cooked (y, x, month), days_cooked_year (y,
/// x), wind_factor, roofed, and facing_rad if the oven does not turn. NaN where there is no room.
results::ArrayFile map_file(const SpotMap& map, const std::string& task_name);

/// The turnings. Dimensions turning (in words), task, month; arrays days_cooked, days_cooked_year,
/// turns_a_cook and every_s; the last two are NaN for "once a day" and "never".
results::ArrayFile turning_file(const std::vector<TurningDays>& rows,
                                const std::vector<std::string>& task_names);

/// A spread. Dimensions draw, task, month, input, weather_year, percentile; arrays of the inputs'
/// values, of days_cooked and days_cooked_year for each draw and for each weather year with the
/// case as given, of percentiles, and of day_chance.
results::ArrayFile spread_file(const Spread& spread);

/// The turning in words: "every 30 min", "once a day", "never".
std::string turning_name(const Turning& turning);
}  // namespace ovendays::study
