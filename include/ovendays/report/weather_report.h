// SPDX-License-Identifier: MIT
// Report of a weather year and its check, for a terminal. Nothing is printed here. Thread-safe:
// yes.
#pragma once

#include <string>

#include "ovendays/weather/weather_check.h"

namespace ovendays::report {
/// Site, monthly totals (irradiation in kWh/m2, temperatures in degC, wind in m/s), the clock
/// compared with the sun, closure, light at night, findings with their lines, missing columns, and
/// the reader's notes. @param width columns of the terminal, at least 72
std::string weather_table(const weather::WeatherYear& year,
                          const weather::WeatherCheck& check,
                          int width);
}  // namespace ovendays::report
