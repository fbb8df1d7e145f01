// SPDX-License-Identifier: MIT
// Numbers and texts as a reader expects them.
#pragma once

#include <string>
#include <vector>

#include "ovendays/report/report.h"

namespace ovendays::report {
/// Fixed point.
std::string fixed(double value, int decimals);
/// Whole number with thin groups of thousands: 12,345.
std::string grouped(double value);
/// "86 °C" or "187 °F".
std::string temperature_text(double kelvin, TemperatureUnit unit);
/// A temperature in degrees of the unit, as a bare number.
double degrees(double kelvin, TemperatureUnit unit);
/// A difference in degrees of the unit.
double degrees_apart(double difference_K, TemperatureUnit unit);
/// "2 h 40 min", "35 min"; a dash where negative.
std::string duration_text(double seconds);
/// A chance in percent, "43"; "<1" and ">99" where it is not quite none or all.
std::string chance_text(double chance);
/// "09:30"; a dash where negative.
std::string clock_or_dash(double seconds);
/// "1 day", "12 days".
std::string days_text(int days);
/// "January" .. "December". @param month 1..12
const char* long_month_name(int month);
/// "21 Oct". @param day_index 0 or above, 1 January again after a year of 365 days
std::string date_text(int day_index);
/// "39.25 N, 104.75 W, 1602 m, UTC-7".
std::string place_text(const sun::Place& place);

/// Number of columns a UTF-8 text takes (code points; wide letters count as one).
std::size_t columns_of(const std::string& text);
std::string pad_right(const std::string& text, std::size_t width);
std::string pad_left(const std::string& text, std::size_t width);
/// Breaks at blanks; words longer than a line stand alone.
std::vector<std::string> wrap(const std::string& text, std::size_t width);
/// At most `width` columns, the last an ellipsis where cut.
std::string shortened(const std::string& text, std::size_t width);
/// A cell of a CSV table, in quotes where it needs them (RFC 4180).
std::string csv_cell(const std::string& text);
/// For text and attribute values of XML and HTML. Control characters are dropped.
std::string escaped(const std::string& text);
}  // namespace ovendays::report
