// SPDX-License-Identifier: MIT
// Missing values in a year of 8,760 hours: found, counted, filled or refused.
#pragma once

#include <vector>

#include "raw_year.h"

namespace ovendays::weather {

/// The 8,760 hours in the order of the file's clock, some without a row.
struct SlotYear {
  std::vector<ColumnValues> values;  ///< kMissing where not given
  std::vector<int> line;             ///< 0 where there was no row
  std::vector<int> line_before;      ///< line of the nearest row at or before, for messages
  std::vector<int> year;             ///< calendar year of the row
  std::vector<char> filled;          ///< some value was filled
};

/// Fills each required column. Runs of up to kLongestFilledGap_h hours are interpolated linearly
/// across the gap (the year taken as a ring); longer ones are faults, or with `allow_long` taken
/// as the mean of the same hour on the nearest days before and after that have a value.
/// Every fill is noted.
void fill_gaps(SlotYear& slots,
               bool allow_long,
               std::vector<WeatherNote>& notes,
               FaultList& faults);
}  // namespace ovendays::weather
