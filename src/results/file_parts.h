// SPDX-License-Identifier: MIT
// Writing and reading of the groups that have dimensions of their own.
#pragma once

#include "h5.h"
#include "ovendays/results/results.h"

namespace ovendays::results {
void write_weather(h5::Writer& out, const weather::WeatherYear& year);
void write_tables(h5::Writer& out, const std::vector<StoredTable>& tables);
/// Both masks have the same patches.
void write_masks(h5::Writer& out, const spot::SpotMask& january, const spot::SpotMask& july);

void read_weather_group(const h5::Reader& in, weather::WeatherYear& year);
std::vector<StoredTable> read_tables(const h5::Reader& in);
void read_masks(const h5::Reader& in, spot::SpotMask& january, spot::SpotMask& july);
}  // namespace ovendays::results
