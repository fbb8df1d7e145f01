// SPDX-License-Identifier: MIT
// A season in words, numbers and pictures. All are made from results::StoredSeason, so that a
// report from a file and one straight from a run are the same. Nothing here prints or writes files:
// each function returns the whole text, UTF-8, lines ended by '\n'.
// Times are shown as HH:MM local standard time. Thread-safe: yes, all of it.
#pragma once

#include <string>
#include <vector>

#include "ovendays/results/results.h"

namespace ovendays::report {

enum class TemperatureUnit { kCelsius, kFahrenheit };

struct ReportOptions {
  TemperatureUnit unit = TemperatureUnit::kCelsius;
  int width = 80;  ///< columns of the terminal; fewer than 72 count as 72
};

/// The finding in one sentence that a cook would say, worked out from the days: which tasks are a
/// good bet (done on half of a month's days or more), how often and from which month to which.
std::string season_answer(const results::StoredSeason& season);

/// The season for a terminal: where and with what; days cooked by task and month; when to load and
/// how long it takes; days lost and to what; notes, energy bookkeeping and cautions. No line is
/// longer than options.width but for single words that are.
std::string season_table(const results::StoredSeason& season, const ReportOptions& options = {});

/// One row per task and day, RFC 4180 but for plain line ends, with a header row. Columns: task,
/// day_of_year (1..365), month, day, outcome, cause, load, finish, window_first, window_last
/// (HH:MM), window_count, duration_min, margin_min, peak_core_degC, short_by_degC (a difference),
/// hold_share, danger_min, evaporated_g. With Fahrenheit the two end in _degF. Times that do not
/// exist are empty.
std::string season_csv(const results::StoredSeason& season, const ReportOptions& options = {});

/// A picture that can be saved on its own.
struct PictureName {
  const char* name;      ///< "months", "calendar", ...
  const char* what;      ///< what it shows, in a few words
  bool of_task = false;  ///< one for each task
};
std::vector<PictureName> picture_names();

/// One of them as SVG 1.1 that needs nothing else and follows the reader's light or dark.
/// @param name of picture_names(); @param task for those that are of one task
std::string season_picture(const results::StoredSeason& season,
                           const std::string& name,
                           std::size_t task,
                           const ReportOptions& options = {});

/// The picture "months": a row a task, a cell a month with the number of days it gets done in it,
/// darker for a larger share of the month, and a bar for the year.
std::string season_svg(const results::StoredSeason& season);

/// A web page that stands alone and needs no script: the answer in a sentence; days by task and
/// month; for each task its calendar, reasons of lost days and loading times; the sky with what
/// hides it, the sun's hours, the beam hour by hour, the empty oven; cautions, inputs, bookkeeping.
/// Light or dark as the reader's device has it, light on paper; fit for a telephone.
std::string season_page(const results::StoredSeason& season, const ReportOptions& options = {});
}  // namespace ovendays::report
