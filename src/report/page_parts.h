// SPDX-License-Identifier: MIT
// The larger parts of the season's page.
#pragma once

#include "facts.h"
#include "html.h"

namespace ovendays::report {
/// What a part is made from.
struct PageInput {
  const results::StoredSeason& season;
  const Facts& facts;
  TemperatureUnit unit;
};
/// Month x task, days in the cells.
void month_table(Html& page, const PageInput& input);
/// One task after the other behind a row of buttons that needs no script; on paper, all of them.
void task_panels(Html& page, const PageInput& input);
/// Sky, sun and heat at the spot.
void spot_pictures(Html& page, const PageInput& input);
/// Cautions, notes, bookkeeping, what it was made from.
void small_print(Html& page, const PageInput& input);
/// Rules for the first two, among them one for each task's button.
std::string season_style(std::size_t tasks);
}  // namespace ovendays::report
