// SPDX-License-Identifier: MIT
// Turns the rows of a file into a weather year: checks their order, drops 29 February, fills gaps,
// and applies the time zone and what the case states about the site. Private to weather.
#pragma once

#include "raw_year.h"

namespace ovendays::weather {

/// Builds the year from the rows that a reader produced.
/// @param faults those the reader found; more are added
/// @throws base::InputError with all faults, if there are any
WeatherYear assemble(RawYear raw, const SiteOverrides& overrides, FaultList& faults);
}  // namespace ovendays::weather
