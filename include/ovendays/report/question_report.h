// SPDX-License-Identifier: MIT
// Answers to single questions about a case, as tables for a terminal and pictures (SVG 1.1 that
// needs nothing else and follows the reader's light or dark): where to put the oven, how often to
// turn it, how sure the days are, how long to wait for one. Nothing here prints or writes files.
// Thread-safe: yes.
#pragma once

#include <string>
#include <vector>

#include "ovendays/spot/spot.h"
#include "ovendays/study/spot_map.h"
#include "ovendays/study/spread.h"
#include "ovendays/study/turning.h"
#include "ovendays/study/waits.h"

namespace ovendays::report {

/// A map with the names that go with it.
struct MapStory {
  const study::SpotMap& map;
  const spot::Spot& spot;  ///< what stands on the plot
  std::string task;
  std::string place;  ///< the site in words
};

/// The case's own place and the best three of the year and of each season, with their facing where
/// the oven does not turn. @param width columns; fewer than 72 count as 72, here and below
std::string map_table(const MapStory& story, int width);
/// The plan, north up: the plot shaded by days of the year, with lines of equal days, what stands
/// on it, the best three places and the case's own; and the four seasons, smaller.
std::string map_svg(const MapStory& story);

/// Days of the year by task and interval; turns of the oven during a cook; for each task the
/// longest interval that costs no more than one day in fifty.
std::string turning_table(const std::vector<study::TurningDays>& rows,
                          const std::vector<std::string>& tasks,
                          int width);
/// A curve for each task.
std::string turning_svg(const std::vector<study::TurningDays>& rows,
                        const std::vector<std::string>& tasks);
/// The longest interval of those tried, once a day and never included, that costs no more than one
/// day in fifty against the most that any gives; nullptr where no day works with any.
const study::Turning* often_enough(const std::vector<study::TurningDays>& rows, std::size_t task);

/// For each task: by month and for the year, in percent, the chance that one of the next 1 to 7
/// days works, and the longest wait.
std::string waits_table(const std::vector<study::Waits>& waits,
                        const std::vector<std::string>& tasks,
                        int width);
/// One task's chances, months by days ahead.
std::string waits_svg(const study::Waits& waits, const std::string& task);

/// P10, P50, P90 of the days of the year; the chance that a day of each month works; what was drawn
/// and how the weather varied.
std::string spread_table(const study::Spread& spread, int width);
/// For each task its draws, their range and their middle.
std::string spread_svg(const study::Spread& spread);
}  // namespace ovendays::report
