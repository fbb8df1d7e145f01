// SPDX-License-Identifier: MIT
// The sections of the season's page.
#pragma once

#include "html.h"
#include "season_summary.h"

namespace ovendays::report {
/// Inputs of all sections.
struct PageInput {
  const results::StoredSeason& season;
  const SeasonSummary& summary;
  TemperatureUnit unit;
};
/// Table of days by task and month.
void month_table(Html& page, const PageInput& input);
/// One panel for each task, chosen by buttons without scripts; on paper all panels are printed.
void task_panels(Html& page, const PageInput& input);
/// Pictures of sky, sun and empty oven at the spot.
void spot_pictures(Html& page, const PageInput& input);
/// Cautions, notes, inputs and energy balance.
void small_print(Html& page, const PageInput& input);
/// CSS for the table and the panels, with rules for each task's button.
std::string season_style(std::size_t tasks);
}  // namespace ovendays::report
