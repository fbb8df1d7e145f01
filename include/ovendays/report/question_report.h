// SPDX-License-Identifier: MIT
// Reports on single questions about a case, as terminal tables and self-contained SVG 1.1 pictures
// that follow the reader's light or dark mode: where to put the oven, how often to turn it, how
// uncertain the days are, how long to wait for a day that works. Nothing here prints or writes
// files. Thread-safe: yes.
#pragma once

#include <string>
#include <vector>

#include "ovendays/spot/spot.h"
#include "ovendays/study/spot_map.h"
#include "ovendays/study/spread.h"
#include "ovendays/study/turning.h"
#include "ovendays/study/waiting.h"

namespace ovendays::report {

/// A map with its spot and the names of task and site.
struct NamedMap {
  const study::SpotMap& map;
  const spot::Spot& spot;  ///< obstructions on the plot
  std::string task;
  std::string place;  ///< name of the site
};

/// Table of the case's own place, the best three places of the year and the best of each quarter,
/// with their facing if the oven does not turn.
/// @param width columns of the terminal, at least 72; the same below
std::string map_table(const NamedMap& story, int width);
/// Plan of the plot, north up, shaded by days of the year, with lines of equal days, obstructions,
/// the best three places and the case's own; below it four smaller plans, one for each quarter.
std::string map_svg(const NamedMap& story);

/// Tables of the days of the year by task and interval, of the turns during a cook, and of the
/// often_enough() interval of each task.
std::string turning_table(const std::vector<study::TurningDays>& rows,
                          const std::vector<std::string>& tasks,
                          int width);
/// Picture with one curve for each task.
std::string turning_svg(const std::vector<study::TurningDays>& rows,
                        const std::vector<std::string>& tasks);
/// The rarest turning ("once a day" and "never" included) that costs at most one day in fifty of
/// the best turning's days; nullptr if no day works with any.
const study::Turning* often_enough(const std::vector<study::TurningDays>& rows, std::size_t task);

/// Table for each task, by month and for the year: the chance in percent that at least one of 1 to
/// 7 consecutive days works, and the longest wait.
std::string waiting_table(const std::vector<study::WaitingTimes>& waits,
                          const std::vector<std::string>& tasks,
                          int width);
/// Picture of one task's chances by month and number of days.
std::string waiting_svg(const study::WaitingTimes& waits, const std::string& task);

/// Tables of P10, P50 and P90 of the days of the year, of the chance that a day of each month
/// works, and of the uncertain inputs; a note on how the weather varied.
std::string spread_table(const study::Spread& spread, int width);
/// Picture of each task's draws with their P10 to P90 range and median.
std::string spread_svg(const study::Spread& spread);
}  // namespace ovendays::report
