// SPDX-License-Identifier: MIT
// A weather year and what its check found, for a terminal. Nothing is printed here. Thread-safe.
#pragma once

#include <string>

#include "ovendays/weather/weather_check.h"

namespace ovendays::report {
/// Site, monthly sums (irradiation in kWh/m2, temperatures in degC, wind in m/s), how the clock
/// stands against the sun, closure, light at night, findings with their lines, what is missing, and
/// the reader's notes.
/// @param width columns; fewer than 72 count as 72
std::string weather_table(const weather::WeatherYear& year,
                          const weather::WeatherCheck& check,
                          int width);
}  // namespace ovendays::report
