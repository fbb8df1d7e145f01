// SPDX-License-Identifier: MIT
// From the rows of a file to a weather year: order, 29 February, gaps, time zone, overrides.
#pragma once

#include "raw_year.h"

namespace ovendays::weather {

/// @throws base::InputError with everything that was found wrong, reading faults included.
WeatherYear assemble(RawYear raw, const SiteOverrides& overrides, FaultList& faults);
}  // namespace ovendays::weather
