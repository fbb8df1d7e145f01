// SPDX-License-Identifier: MIT
#include <array>
#include <cstdio>

#include "ovendays/base/air.h"
#include "ovendays/base/constants.h"
#include "ovendays/weather/weather_make.h"

namespace ovendays::weather {
namespace {
// Header fields have no quoting, so a comma in one would start the next field.
std::string header_field(std::string text) {
  for (char& c : text) {
    if (c == ',' || c == '\n' || c == '\r') c = ' ';
  }
  return text;
}

// Comment records extend to the end of the line and may contain commas.
std::string one_line(std::string text) {
  for (char& c : text) {
    if (c == '\n' || c == '\r') c = ' ';
  }
  return text;
}

// The eight header records in the order of the format. Records without content have a count of 0.
std::string header(const WeatherYear& year, const std::string& comment) {
  std::array<char, 160> numbers{};
  std::snprintf(numbers.data(),
                numbers.size(),
                "%.4f,%.4f,%.2f,%.1f\n",
                year.place.latitude_rad * base::kDegPerRad,
                year.place.longitude_rad * base::kDegPerRad,
                year.place.utc_offset_s / base::kSecondsPerHour,
                year.place.elevation_m);
  std::string notes;
  for (const WeatherNote& note : year.notes) {
    if (!notes.empty()) notes += "; ";
    notes += note.text;
  }
  std::string text("LOCATION,");
  text += header_field(year.place.name);
  text += ",-,-,ovendays,-,";
  text += numbers.data();
  text += "DESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\n";
  text += "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,";
  text += one_line(comment);
  text += "\nCOMMENTS 2,";
  text += one_line(notes);
  text += "\nDATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n";
  return text;
}

// The 35 fields of the data dictionary. Fields without a value get their missing-value codes.
void append_row(const WeatherHour& hour, int hour_of_day, std::string& text) {
  std::array<char, 400> row{};
  const auto given = [](const std::optional<double>& value, double scale, double code) {
    return value ? *value * scale : code;
  };
  const int length = std::snprintf(
      row.data(),
      row.size(),
      "%d,%d,%d,%d,60,?9,%.2f,%.2f,%.0f,%.0f,9999,9999,%.1f,%.1f,%.1f,%.1f,999999,999999,999999,"
      "9999,999,%.2f,99,99,9999,99999,9,999999999,999,0.999,%.1f,99,%.3f,%.2f,%s\n",
      hour.date.year,
      hour.date.month,
      hour.date.day,
      hour_of_day + 1,
      hour.dry_bulb_K - base::kZeroCelsius_K,
      hour.dew_point_K - base::kZeroCelsius_K,
      100.0 * base::relative_humidity(hour.dry_bulb_K, hour.dew_point_K),
      hour.pressure_Pa,
      given(hour.horizontal_ir_Wm2, 1.0, 9999.0),
      hour.ghi_Wm2,
      hour.dni_Wm2,
      hour.dhi_Wm2,
      hour.wind_ms,
      given(hour.snow_depth_m, 100.0, 999.0),
      given(hour.albedo, 1.0, 999.0),
      given(hour.precipitation_m, 1000.0, 999.0),
      hour.precipitation_m ? "1" : "99");
  text.append(row.data(), static_cast<std::size_t>(length));
}
}  // namespace

std::string epw_text(const WeatherYear& year, const std::string& comment) {
  std::string text = header(year, comment);
  text.reserve(text.size() + year.hours.size() * 160);
  for (std::size_t i = 0; i < year.hours.size(); ++i) {
    append_row(year.hours[i], static_cast<int>(i % 24), text);
  }
  return text;
}
}  // namespace ovendays::weather
