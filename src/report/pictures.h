// SPDX-License-Identifier: MIT
// The pictures of a season. Each is made from what the file holds; nothing is computed anew but
// counts, means and medians.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "drawing.h"
#include "facts.h"

namespace ovendays::report {
/// Days of each month on which each task gets done: a row a task. 900 wide, for a screen.
Drawing months_picture(const results::StoredSeason& season, const Facts& facts);
/// Every day of the year: outcome by shape and colour, cause by letter.
Drawing calendar_picture(const results::StoredSeason& season, std::size_t task);
/// Days lost in each month, stacked by cause.
Drawing reasons_picture(const results::StoredSeason& season, const Facts& facts, std::size_t task);
/// Between which times loading works, month by month: medians over the days it gets done.
Drawing windows_picture(const results::StoredSeason& season, std::size_t task);
/// The sky as a map, north up and east right: what stands before it, and the sun's paths at
/// solstices and equinoxes. @param mask of January or July
Drawing dome_picture(const results::StoredSeason& season, const spot::SpotMask& mask);
/// True where the two masks of the file differ (trees in leaf).
bool masks_differ(const season::SeasonResult& result);
/// Hours of strong sun at the spot and lost to what stands around it, month by month.
Drawing sun_hours_picture(const results::StoredSeason& season);
/// Mean beam on the glass, month by hour of the day [W/m2].
Drawing beam_picture(const results::StoredSeason& season);
/// The empty oven's hottest air on each day and the outside air at that day's warmest hour.
Drawing empty_oven_picture(const results::StoredSeason& season, TemperatureUnit unit);
}  // namespace ovendays::report
