// SPDX-License-Identifier: MIT
// A sound year of invented weather in each of the four formats, for edits that spoil it.
#pragma once

#include <string>

#include "ovendays/weather/weather_year.h"

namespace ovendays::fuzz {
/// Header lines as the format has them, up to the first row.
std::string header_of(weather::WeatherFormat format);
/// Header and 8760 rows. The light follows the hour only, dim enough to pass for any season.
const std::string& made_year(weather::WeatherFormat format);
}  // namespace ovendays::fuzz
