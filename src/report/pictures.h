// SPDX-License-Identifier: MIT
// The pictures of a season. Each is drawn from stored results; only counts, means and medians are
// computed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "drawing.h"
#include "season_summary.h"

namespace ovendays::report {
/// Days of each month on which each task gets done, one row for each task; 900 wide, for a screen.
Drawing months_picture(const results::StoredSeason& season, const SeasonSummary& summary);
/// Every day of the year: outcome by shape and colour, cause by letter.
Drawing calendar_picture(const results::StoredSeason& season, std::size_t task);
/// Days lost in each month, stacked by cause.
Drawing reasons_picture(const results::StoredSeason& season,
                        const SeasonSummary& summary,
                        std::size_t task);
/// Loading times that work, by month: medians over the days on which the task gets done.
Drawing windows_picture(const results::StoredSeason& season, std::size_t task);
/// Map of the sky, north up and east right, with obstructions and with the sun's paths at solstices
/// and equinoxes. @param mask that of January or of July
Drawing dome_picture(const results::StoredSeason& season, const spot::SpotMask& mask);
/// Whether the masks of January and July differ (leaves of trees).
bool masks_differ(const season::SeasonResult& result);
/// Hours of strong sun that reach the spot and that obstructions hide, by month.
Drawing sun_hours_picture(const results::StoredSeason& season);
/// Mean beam on the glass by month and hour of the day [W/m2].
Drawing beam_picture(const results::StoredSeason& season);
/// Highest air temperature of the empty oven and of the outside air on each day.
Drawing empty_oven_picture(const results::StoredSeason& season, TemperatureUnit unit);
}  // namespace ovendays::report
