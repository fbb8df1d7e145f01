// SPDX-License-Identifier: MIT
#include "ovendays/weather/weather_year.h"

#include <algorithm>
#include <array>

#include "assemble.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "text_scan.h"

namespace ovendays::weather {
namespace {
// Detects the format from the first three lines; nullopt if it is unknown.
std::optional<WeatherFormat> format_of(std::string_view text) {
  LineScanner lines(text);
  std::vector<std::string_view> fields;
  while (lines.next() && lines.number() <= 3) {
    const std::string_view line = lines.line();
    if (starts_with_ignoring_case(line, "LOCATION,")) return WeatherFormat::kEpw;
    if (starts_with_ignoring_case(line, "Latitude (decimal degrees)")) return WeatherFormat::kPvgis;
    if (starts_with_ignoring_case(line, "time(UTC),")) return WeatherFormat::kPvgis;
    if (starts_with_ignoring_case(line, "Date (MM/DD/YYYY),")) return WeatherFormat::kTmy3;
    split_fields(line, fields);
    const auto has = [&](std::string_view key) {
      return std::any_of(
          fields.begin(), fields.end(), [&](std::string_view f) { return column_key(f) == key; });
    };
    if (has("ghi") && has("dni") && has("month") && has("hour")) return WeatherFormat::kNsrdb;
  }
  return std::nullopt;
}

// The switch has no default, so that the compiler warns about a new format that is missing here.
RawYear read_rows(WeatherFormat format, std::string_view text, FaultList& faults) {
  switch (format) {
    case WeatherFormat::kEpw:
      return read_epw(text, faults);
    case WeatherFormat::kTmy3:
      return read_tmy3(text, faults);
    case WeatherFormat::kNsrdb:
      return read_nsrdb(text, faults);
    case WeatherFormat::kPvgis:
      break;
  }
  return read_pvgis(text, faults);
}
}  // namespace

const char* format_name(WeatherFormat format) {
  constexpr std::array<const char*, 4> names = {"EPW", "TMY3", "NSRDB", "PVGIS"};
  return names[static_cast<std::size_t>(format)];
}

WeatherYear read_weather(const std::string& file, const SiteOverrides& overrides) {
  return read_weather_text(base::read_file(file, kMostWeatherBytes), file, overrides);
}

WeatherYear read_weather_text(std::string_view text,
                              const std::string& file,
                              const SiteOverrides& overrides) {
  const std::optional<WeatherFormat> format = format_of(text);
  if (!format) {
    throw base::InputError({file,
                            1,
                            "",
                            text.empty() ? "an empty file" : "not a weather file of a known format",
                            "EPW, TMY3 CSV, NSRDB CSV or PVGIS typical-year CSV"});
  }
  FaultList faults(file);
  RawYear raw = read_rows(*format, text, faults);
  // Without rows the layout was not understood, and further messages would only confuse.
  if (raw.rows.empty()) faults.throw_if_any();
  WeatherYear year = assemble(std::move(raw), overrides, faults);
  year.file = file;
  year.sha256 = base::sha256_hex(text);
  return year;
}
}  // namespace ovendays::weather
