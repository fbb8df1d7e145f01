// SPDX-License-Identifier: MIT
#include <charconv>
#include <cmath>
#include <string>

#include "entries.h"
#include "made_year.h"
#include "ovendays/weather/weather_check.h"
#include "ovendays/weather/weather_make.h"

namespace ovendays::fuzz {
namespace {
using weather::WeatherFormat;
using weather::WeatherYear;
constexpr std::size_t kHours = 8760;

// What the header of weather_year.h promises of every year that is read.
void require_sound_year(const WeatherYear& year) {
  require(year.hours.size() == kHours, "a year of another length");
  for (const weather::WeatherHour& hour : year.hours) {
    for (const double light : {hour.ghi_Wm2, hour.dni_Wm2, hour.dhi_Wm2}) {
      require(light >= 0.0 && light <= 1500.0, "light out of range");
    }
    require(hour.dry_bulb_K >= 183.0 && hour.dry_bulb_K <= 338.2, "dry bulb out of range");
    require(std::isfinite(hour.dew_point_K), "dew point");
    require(hour.wind_ms >= 0.0 && hour.wind_ms <= 60.0, "wind out of range");
    require(hour.pressure_Pa >= 3e4 && hour.pressure_Pa <= 1.21e5, "pressure out of range");
    require(std::isfinite(hour.start_s), "start");
  }
}

// A year that was read can be checked, written as EPW, and read again.
void read_and_check(const std::string& text, bool allow_long_gaps) {
  weather::SiteOverrides site;
  site.allow_long_gaps = allow_long_gaps;
  WeatherYear year;
  if (!accepted([&] { year = weather::read_weather_text(text, "year", site); })) return;
  require_sound_year(year);
  (void)weather::check_weather(year);
  const std::string written = weather::epw_text(year, "");
  require(accepted([&] { require_sound_year(weather::read_weather_text(written, "written")); }),
          "what was written is refused");
}

void read_after_header(WeatherFormat format, std::string_view bytes) {
  read_and_check(header_of(format) + std::string(bytes), true);
}

std::size_t take_number(std::string_view& text) {
  std::size_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  if (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  return error == std::errc{} ? value : 0;
}

// Where field `number` (modulo their count) of the line begins and how long it is.
std::pair<std::size_t, std::size_t> field_of(std::string_view line, std::size_t number) {
  std::size_t count = 1;
  for (const char c : line) count += c == ',' ? 1U : 0U;
  std::size_t at = 0;
  for (std::size_t i = 0; i < number % count; ++i) at = line.find(',', at) + 1;
  return {at, std::min(line.find(',', at), line.size()) - at};
}

void edit(std::vector<std::string>& lines, std::string_view change) {
  std::string& line = lines[take_number(change) % lines.size()];
  if (change == "-") {
    line.clear();
  } else if (change == "=") {
    line += "\n" + line;
  } else {
    const auto [at, length] = field_of(line, take_number(change));
    line.replace(at, length, change);
  }
}

// One line a string, without its end.
std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    lines.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}
}  // namespace

void read_any_weather(std::string_view bytes) { read_and_check(std::string(bytes), false); }
void read_epw_rows(std::string_view bytes) { read_after_header(WeatherFormat::kEpw, bytes); }
void read_tmy3_rows(std::string_view bytes) { read_after_header(WeatherFormat::kTmy3, bytes); }
void read_nsrdb_rows(std::string_view bytes) { read_after_header(WeatherFormat::kNsrdb, bytes); }
void read_pvgis_rows(std::string_view bytes) { read_after_header(WeatherFormat::kPvgis, bytes); }

void read_edited_year(std::string_view bytes) {
  constexpr std::string_view kFormats = "etnp";
  constexpr std::size_t kMostEdits = 200;
  const std::size_t format = bytes.empty() ? 0 : kFormats.find(bytes.front()) % kFormats.size();
  if (!bytes.empty()) bytes.remove_prefix(1);
  const bool long_gaps = !bytes.empty() && bytes.front() == '+';
  if (long_gaps) bytes.remove_prefix(1);
  std::vector<std::string> lines = lines_of(made_year(static_cast<WeatherFormat>(format)));
  const std::vector<std::string> edits = lines_of(bytes);
  for (std::size_t i = 0; i < std::min(edits.size(), kMostEdits); ++i) edit(lines, edits[i]);
  std::string text;
  for (const std::string& line : lines) {
    if (!line.empty()) text += line + "\n";
  }
  read_and_check(text, long_gaps);
}
}  // namespace ovendays::fuzz
