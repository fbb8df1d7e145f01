// SPDX-License-Identifier: MIT
// Reports of a season: tables, CSV, pictures and a page. All are made from results::StoredSeason,
// so that the report of a saved file equals that of a fresh run. Each function returns the whole
// text (UTF-8, lines end with '\n') and neither prints nor writes files. Times are HH:MM in local
// standard time. Thread-safe: yes.
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

/// The result in one sentence: which tasks are a good bet (done on at least half of the days of a
/// month), how often, and from which month to which.
std::string season_answer(const results::StoredSeason& season);

/// The tables for a terminal: site, spot and oven; days cooked by task and month; when to load and
/// how long a cook takes; days lost by cause; notes, energy balance and cautions. No line is longer
/// than options.width, except for single words that are.
std::string season_table(const results::StoredSeason& season, const ReportOptions& options = {});

/// CSV with one row for each task and day (RFC 4180 with '\n' line ends) and a header row. Columns:
/// task, day_of_year (1..365), month, day, outcome, cause, load, finish, window_first, window_last
/// (HH:MM), window_count, duration_min, margin_min, peak_core_degC, short_by_degC (a difference),
/// hold_share, danger_min, evaporated_g. With Fahrenheit these two end in _degF. Times
/// that do not exist are empty.
std::string season_csv(const results::StoredSeason& season, const ReportOptions& options = {});

/// A picture that can be saved as a file.
struct PictureName {
  const char* name;      ///< "months", "calendar", ...
  const char* what;      ///< short description
  bool of_task = false;  ///< whether there is one picture for each task
};
/// All pictures of a season.
std::vector<PictureName> picture_names();

/// One picture as a self-contained SVG 1.1 file that follows the reader's light or dark mode.
/// @param name one of picture_names(); @param task for pictures that show one task
std::string season_picture(const results::StoredSeason& season,
                           const std::string& name,
                           std::size_t task,
                           const ReportOptions& options = {});

/// The picture "months": one row for each task, one cell for each month with the number of days on
/// which the task gets done, darker for a larger share of the month, and a bar for the year.
std::string season_svg(const results::StoredSeason& season);

/// A self-contained HTML page without scripts: the answer in a sentence; days by task and month;
/// for each task its calendar, causes of lost days and loading times; sky and obstructions, hours
/// of sun, the beam hour by hour, the empty oven; cautions, inputs and energy balance. It follows
/// the reader's light or dark mode, prints light, and fits a telephone.
std::string season_page(const results::StoredSeason& season, const ReportOptions& options = {});
}  // namespace ovendays::report
