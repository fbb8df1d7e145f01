// SPDX-License-Identifier: MIT
// Finds the missing values of a year and fills or rejects them. Private to weather.
#pragma once

#include <vector>

#include "raw_year.h"

namespace ovendays::weather {

/// The 8,760 hours in the order of the file's clock. Some slots may have no row.
struct SlotYear {
  std::vector<ColumnValues> values;  ///< kMissing where not given
  std::vector<int> line;             ///< 0 if there is no row
  std::vector<int> line_before;      ///< line of the nearest row at or before, for messages
  std::vector<int> year;             ///< calendar year of the row
  std::vector<char> filled;          ///< at least one value was filled
};

/// Fills the gaps of each required column. Gaps of up to kLongestFilledGap_h hours are interpolated
/// linearly; the year wraps around. Longer gaps are faults or, with `allow_long`, get the mean of
/// the same hour on the nearest days before and after that have a value. Every fill leaves a note.
void fill_gaps(SlotYear& slots,
               bool allow_long,
               std::vector<WeatherNote>& notes,
               FaultList& faults);
}  // namespace ovendays::weather
