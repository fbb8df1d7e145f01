// SPDX-License-Identifier: MIT
// The weather as used.
#include <cmath>
#include <limits>

#include "columns.h"
#include "file_parts.h"
#include "ovendays/base/calendar.h"

namespace ovendays::results {
namespace {
using weather::WeatherHour;
const std::vector<std::string> kHourDim = {"hour"};

void write_weather_head(h5::Writer& out, const weather::WeatherYear& year) {
  const std::string group = "weather";
  out.attribute(group, "file", year.file);
  out.attribute(group, "file_sha256", year.sha256);
  out.attribute(group, "table_sha256", weather_digest(year));
  out.attribute(group, "format", std::string(weather::format_name(year.format)));
  out.attribute(group, "format_number", static_cast<std::int32_t>(year.format));
  out.attribute(group, "place_known", std::int32_t{year.place_known});
  out.attribute(group, "elevation_known", std::int32_t{year.elevation_known});
  out.attribute(group, "clock_shift_s", year.clock_shift_s);
  out.attribute(group, "hours_in_file", std::int32_t{year.hours_in_file});
  out.attribute(group, "filled_hours", std::int32_t{year.filled_hours});
  std::string notes;
  for (const weather::WeatherNote& note : year.notes) {
    notes += std::to_string(note.line) + "\t" + note.text + "\n";
  }
  out.text("weather/notes", notes, {"line of the file, tab, note; one a line", ""});
}

std::vector<weather::WeatherNote> notes_from(const std::string& text) {
  std::vector<weather::WeatherNote> notes;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    const std::size_t tab = text.find('\t', at);
    if (tab >= end) throw h5::Failure("weather/notes: a note without its line number");
    int line = 0;
    for (std::size_t i = at; i < tab; ++i) {
      if (text[i] < '0' || text[i] > '9') throw h5::Failure("weather/notes: not a line number");
      line = line * 10 + (text[i] - '0');
    }
    notes.push_back({.line = line, .text = text.substr(tab + 1, end - tab - 1)});
    at = end + 1;
  }
  return notes;
}

void read_weather_head(const h5::Reader& in, weather::WeatherYear& year) {
  const auto number = [&in](const char* name) { return in.number_attribute("weather", name); };
  const double format = number("format_number");
  if (!(format >= 0 && format <= 3)) throw h5::Failure("weather@format_number: unknown");
  year.format = static_cast<weather::WeatherFormat>(format);
  year.file = in.text_attribute("weather", "file");
  year.sha256 = in.text_attribute("weather", "file_sha256");
  year.place_known = number("place_known") != 0;
  year.elevation_known = number("elevation_known") != 0;
  year.clock_shift_s = number("clock_shift_s");
  year.hours_in_file = static_cast<int>(number("hours_in_file"));
  year.filled_hours = static_cast<int>(number("filled_hours"));
  year.notes = notes_from(in.text("weather/notes"));
}

void write_columns(h5::Writer& out, const weather::WeatherYear& year) {
  std::vector<float> numbers(year.hours.size());
  for (const WeatherColumn& column : weather_columns()) {
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      numbers[i] = static_cast<float>(year.hours[i].*column.member);
    }
    const h5::Label label{column.long_name, column.units};
    out.values<float>(std::string("weather/") + column.name, numbers, kHourDim, label);
  }
  for (const SparseColumn& column : sparse_columns()) {
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      const std::optional<double>& value = year.hours[i].*column.member;
      numbers[i] = value ? static_cast<float>(*value) : std::numeric_limits<float>::quiet_NaN();
    }
    const h5::Label label{column.long_name, column.units};
    out.values_or_none(std::string("weather/") + column.name, numbers, kHourDim, label);
  }
}

void write_row_facts(h5::Writer& out, const weather::WeatherYear& year) {
  std::vector<std::int32_t> years, lines;
  std::vector<std::uint8_t> filled;
  for (const WeatherHour& hour : year.hours) {
    years.push_back(hour.date.year);
    lines.push_back(hour.line);
    filled.push_back(hour.filled ? 1 : 0);
  }
  out.values<std::int32_t>("weather/calendar_year", years, kHourDim, {"year of the record", "1"});
  out.values<std::int32_t>(
      "weather/line", lines, kHourDim, {"line of the file; 0: made or filled whole", "1"});
  out.flags(
      "weather/filled", filled, kHourDim, {"some value was filled over a gap", ""}, {"no", "yes"});
}
}  // namespace

void write_weather(h5::Writer& out, const weather::WeatherYear& year) {
  out.group("weather", "the weather as used, hour by hour");
  write_weather_head(out, year);
  write_columns(out, year);
  write_row_facts(out, year);
}

void read_weather_group(const h5::Reader& in, weather::WeatherYear& year) {
  read_weather_head(in, year);
  year.hours.assign(kHours, {});
  for (const WeatherColumn& column : weather_columns()) {
    const auto numbers = in.values<float>(std::string("weather/") + column.name, kHours);
    for (std::size_t i = 0; i < kHours; ++i) {
      year.hours[i].*column.member = static_cast<double>(numbers[i]);
    }
  }
  for (const SparseColumn& column : sparse_columns()) {
    const auto numbers = in.values<float>(std::string("weather/") + column.name, kHours);
    for (std::size_t i = 0; i < kHours; ++i) {
      if (!std::isnan(numbers[i])) year.hours[i].*column.member = static_cast<double>(numbers[i]);
    }
  }
  const auto years = in.values<std::int32_t>("weather/calendar_year", kHours);
  const auto lines = in.values<std::int32_t>("weather/line", kHours);
  const auto filled = in.values<std::uint8_t>("weather/filled", kHours);
  for (std::size_t i = 0; i < kHours; ++i) {
    WeatherHour& hour = year.hours[i];
    hour.date = base::date_from_day_index_365(static_cast<int>(i / 24));
    hour.date.year = years[i];
    hour.line = lines[i];
    hour.filled = filled[i] != 0;
  }
  if (weather_digest(year) != in.text_attribute("weather", "table_sha256")) {
    throw h5::Failure("weather: the values do not agree with their SHA-256");
  }
}
}  // namespace ovendays::results
