// SPDX-License-Identifier: MIT
// Formats numbers, times and texts for readers.
#pragma once

#include <string>
#include <vector>

#include "ovendays/report/report.h"

namespace ovendays::report {
/// Fixed-point number; never "-0".
std::string fixed(double value, int decimals);
/// Whole number with commas between groups of thousands: 12,345.
std::string grouped(double value);
/// "86 °C" or "187 °F".
std::string temperature_text(double kelvin, TemperatureUnit unit);
/// A temperature converted to the unit, as a number.
double degrees(double kelvin, TemperatureUnit unit);
/// A temperature difference converted to the unit.
double degrees_apart(double difference_K, TemperatureUnit unit);
/// "2 h 40 min", "35 min"; a dash for negative values.
std::string duration_text(double seconds);
/// A chance in percent, "43"; "<1" and ">99" are used so that 0 and 100 are exact.
std::string chance_text(double chance);
/// "09:30"; a dash for negative values.
std::string clock_or_dash(double seconds);
/// "1 day", "12 days".
std::string days_text(int days);
/// "January" .. "December". @param month 1..12
const char* long_month_name(int month);
/// "21 Oct". @param day_index 0 or above; counting continues on 1 January after 365 days
std::string date_text(int day_index);
/// Coordinates, height and time zone: "39.25 N, 104.75 W, 1602 m, UTC-7".
std::string place_text(const sun::Place& place);

/// A target of the core that lies above the boiling point of the site, and what was used instead.
struct LoweredTarget {
  double elevation_m, boiling_K, asked_K, used_K;
};
/// "At 3,050 m water boils at 90 °C, so the target was lowered from 95 °C to 89 °C."
std::string lowered_target_text(const LoweredTarget& lowered, TemperatureUnit unit);

/// Columns that a UTF-8 text takes (number of code points; wide letters count as one).
std::size_t columns_of(const std::string& text);
std::string pad_right(const std::string& text, std::size_t width);
std::string pad_left(const std::string& text, std::size_t width);
/// Breaks a text into lines at blanks; a word longer than a line gets its own line.
std::vector<std::string> wrap(const std::string& text, std::size_t width);
/// Cuts a text to `width` columns; the last column of a cut text is an ellipsis.
std::string shortened(const std::string& text, std::size_t width);
/// A cell of a CSV table, quoted if necessary (RFC 4180).
std::string csv_cell(const std::string& text);
/// Escapes a text for XML and HTML, also inside attributes; drops control characters.
std::string escaped(const std::string& text);
}  // namespace ovendays::report
