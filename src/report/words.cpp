// SPDX-License-Identifier: MIT
#include "words.h"

#include <array>
#include <charconv>
#include <cmath>
#include <sstream>
#include <string_view>
#include <system_error>

#include "ovendays/base/calendar.h"
#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::report {
namespace {
// Whether a byte begins a UTF-8 code point; continuation bytes are 10xxxxxx.
bool starts_letter(char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }
}  // namespace

std::string fixed(double value, int decimals) {
  std::array<char, 512> room{};  // more than the longest double takes
  const auto [end, error] = std::to_chars(
      room.data(), room.data() + room.size(), value, std::chars_format::fixed, decimals);
  OVENDAYS_CHECK(error == std::errc());
  const std::string_view text(room.data(), static_cast<std::size_t>(end - room.data()));
  // A tiny negative number is no reason to show a minus before zeros.
  const bool all_zero = text.find_first_not_of("-0.") == std::string_view::npos;
  return std::string(all_zero && text[0] == '-' ? text.substr(1) : text);
}

// Commas rather than the locale's separator, so that the same season gives the same text
// everywhere.
std::string grouped(double value) {
  const std::string digits = fixed(value, 0);
  std::string text;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    const std::size_t left = digits.size() - i;
    if (!text.empty() && text.back() != '-' && left % 3 == 0) text += ',';
    text += digits[i];
  }
  return text;
}

double degrees_apart(double difference_K, TemperatureUnit unit) {
  return unit == TemperatureUnit::kCelsius ? difference_K : difference_K * 1.8;
}

double degrees(double kelvin, TemperatureUnit unit) {
  const double celsius = kelvin - base::kZeroCelsius_K;
  return unit == TemperatureUnit::kCelsius ? celsius : celsius * 1.8 + 32.0;
}

std::string temperature_text(double kelvin, TemperatureUnit unit) {
  return fixed(degrees(kelvin, unit), 0) + (unit == TemperatureUnit::kCelsius ? " °C" : " °F");
}

std::string duration_text(double seconds) {
  if (seconds < 0) return "-";
  const long minutes = std::lround(seconds / 60.0);
  if (minutes < 60) return std::to_string(minutes) + " min";
  const std::string rest = std::to_string(minutes % 60);
  return std::to_string(minutes / 60) + " h " + (rest.size() < 2 ? "0" : "") + rest + " min";
}

std::string chance_text(double chance) {
  if (chance > 0.0 && chance < 0.005) return "<1";
  if (chance >= 0.995 && chance < 1.0) return ">99";
  return fixed(100.0 * chance, 0);
}

std::string clock_or_dash(double seconds) { return seconds < 0 ? "-" : base::clock_text(seconds); }

std::string days_text(int days) { return std::to_string(days) + (days == 1 ? " day" : " days"); }

std::string date_text(int day_index) {
  const base::Date date = base::date_from_day_index_365(day_index % season::kDays);
  return std::to_string(date.day) + " " + base::month_name(date.month);
}

const char* long_month_name(int month) {
  constexpr std::array<const char*, 12> kNames = {"January",
                                                  "February",
                                                  "March",
                                                  "April",
                                                  "May",
                                                  "June",
                                                  "July",
                                                  "August",
                                                  "September",
                                                  "October",
                                                  "November",
                                                  "December"};
  return kNames.at(static_cast<std::size_t>(month - 1));
}

std::string place_text(const sun::Place& place) {
  const double latitude_deg = place.latitude_rad * base::kDegPerRad;
  const double longitude_deg = place.longitude_rad * base::kDegPerRad;
  const double offset_h = place.utc_offset_s / base::kSecondsPerHour;
  const bool whole = offset_h == std::round(offset_h);
  return fixed(std::abs(latitude_deg), 2) + (latitude_deg < 0 ? " S, " : " N, ") +
         fixed(std::abs(longitude_deg), 2) + (longitude_deg < 0 ? " W, " : " E, ") +
         fixed(place.elevation_m, 0) + " m, UTC" + (offset_h < 0 ? "-" : "+") +
         fixed(std::abs(offset_h), whole ? 0 : 2);
}

std::string lowered_target_text(const LoweredTarget& lowered, TemperatureUnit unit) {
  return "At " + grouped(lowered.elevation_m) + " m water boils at " +
         temperature_text(lowered.boiling_K, unit) + ", so the target was lowered from " +
         temperature_text(lowered.asked_K, unit) + " to " + temperature_text(lowered.used_K, unit) +
         ".";
}

std::size_t columns_of(const std::string& text) {
  std::size_t count = 0;
  for (const char c : text) count += starts_letter(c) ? 1 : 0;
  return count;
}

std::string pad_right(const std::string& text, std::size_t width) {
  const std::size_t has = columns_of(text);
  return has < width ? text + std::string(width - has, ' ') : text;
}

std::string pad_left(const std::string& text, std::size_t width) {
  const std::size_t has = columns_of(text);
  return has < width ? std::string(width - has, ' ') + text : text;
}

std::vector<std::string> wrap(const std::string& text, std::size_t width) {
  std::vector<std::string> lines;
  std::istringstream words(text);
  std::string line;
  for (std::string word; words >> word;) {
    if (!line.empty() && columns_of(line) + 1 + columns_of(word) > width) {
      lines.push_back(line);
      line.clear();
    }
    line += (line.empty() ? "" : " ") + word;
  }
  if (!line.empty() || lines.empty()) lines.push_back(line);
  return lines;
}

std::string shortened(const std::string& text, std::size_t width) {
  if (columns_of(text) <= width) return text;
  std::string kept;
  std::size_t columns = 0;
  for (const char c : text) {
    if (starts_letter(c) && ++columns >= width) break;
    kept += c;
  }
  return kept + "…";
}

std::string csv_cell(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string safe = "\"";
  for (const char c : text) safe += c == '"' ? std::string("\"\"") : std::string(1, c);
  return safe + "\"";
}

std::string escaped(const std::string& text) {
  std::string safe;
  for (const char c : text) {
    switch (c) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      default:
        if (static_cast<unsigned char>(c) >= 0x20U || c == '\n' || c == '\t') safe += c;
    }
  }
  return safe;
}
}  // namespace ovendays::report
