// SPDX-License-Identifier: MIT
// Reader of TMY3 CSV files of the US National Renewable Energy Laboratory (Wilcox and Marion,
// NREL/TP-581-43156, 2008): a site line, a line of column names, then hours that end at their
// stamp, 01:00 to 24:00. The number of columns differs between files, so they are found by name.
// The missing-value code is -9900.
#include <array>
#include <cmath>

#include "raw_year.h"
#include "text_scan.h"

namespace ovendays::weather {
namespace {
constexpr double kTmy3Code = -9900.0;
constexpr std::array<ColumnSpec, 10> kTmy3Columns = {{
    {kGhi, "GHI (W/m^2)", 1.0, 0.0, kLeastIrradiance_Wm2, 1500.0, kInf, kTmy3Code, -1},
    {kDni, "DNI (W/m^2)", 1.0, 0.0, kLeastIrradiance_Wm2, 1500.0, kInf, kTmy3Code, -1},
    {kDhi, "DHI (W/m^2)", 1.0, 0.0, kLeastIrradiance_Wm2, 1500.0, kInf, kTmy3Code, -1},
    {kDryBulb, "Dry-bulb (C)", 1.0, base::kZeroCelsius_K, -90.0, 65.0, kInf, kTmy3Code, -1},
    {kDewPoint, "Dew-point (C)", 1.0, base::kZeroCelsius_K, -100.0, 60.0, kInf, kTmy3Code, -1},
    {kHumidity, "RHum (%)", 0.01, 0.0, 0.0, 110.0, kInf, kTmy3Code, -1},
    {kPressure, "Pressure (mbar)", 100.0, 0.0, 310.0, 1200.0, kInf, kTmy3Code, -1},
    {kWind, "Wspd (m/s)", 1.0, 0.0, 0.0, 60.0, kInf, kTmy3Code, -1},
    {kAlbedo, "Alb (unitless)", 1.0, 0.0, 0.0, 1.0, kInf, kTmy3Code, -1},
    {kRain, "Lprecip depth (mm)", 0.001, 0.0, 0.0, 5000.0, kInf, kTmy3Code, -1},
}};
// The column heading says mm, but the published files count tenths of a millimetre, in whole
// numbers that increase in steps of 2.54 (a hundredth of an inch). In mm, Greensboro would have 8.3
// m of rain a year.
constexpr double kTenth = 0.1;
constexpr double kMostRainInAnHour_m = 0.305;  // the largest ever measured in an hour
constexpr std::size_t kTmy3Required = 8;       // the first columns of the table

void read_tmy3_site(const std::vector<std::string_view>& fields, RawYear& year, FaultList& faults) {
  if (fields.size() < 7) {
    faults.add(1, "site line", std::to_string(fields.size()) + " fields", "7 fields");
    return;
  }
  year.name = std::string(trim(fields[1]));
  year.utc_offset_h = header_number(fields[3], "time zone", 1, faults);
  year.latitude_deg = header_number(fields[4], "latitude", 1, faults);
  year.longitude_deg = header_number(fields[5], "longitude", 1, faults);
  year.elevation_m = header_number(fields[6], "elevation", 1, faults);
}

// Slot of a time stamp "MM/DD/YYYY" and "HH:MM". The 24:00 row has the date of the day that ends.
std::optional<int> stamp_slot(std::string_view date, std::string_view time, int& year) {
  date = trim(date);
  time = trim(time);
  const std::size_t slash = date.find('/');
  const std::size_t second = slash == std::string_view::npos ? slash : date.find('/', slash + 1);
  const std::size_t colon = time.find(':');
  if (second == std::string_view::npos || colon == std::string_view::npos) return std::nullopt;
  const auto month = parse_integer(date.substr(0, slash));
  const auto day = parse_integer(date.substr(slash + 1, second - slash - 1));
  const auto own_year = parse_integer(date.substr(second + 1));
  const auto hour = parse_integer(time.substr(0, colon));
  const auto minute = parse_integer(time.substr(colon + 1));
  if (!month || !day || !own_year || !hour || !minute || *minute != 0) return std::nullopt;
  year = *own_year;
  return leap_slot({*own_year, *month, *day}, *hour - 1);
}

// Counts the hours whose dry bulb was not observed at the station (any source code but A).
struct SourceRule {
  int index = -1;
  int not_observed = 0;

  void apply(const std::vector<std::string_view>& fields) {
    if (index >= 0 && trim(fields[static_cast<std::size_t>(index)]) != "A") ++not_observed;
  }
  void finish(RawYear& year) const {
    if (not_observed == 0) return;
    year.notes.push_back({0,
                          "dry bulb interpolated or modelled by the publisher (source code not A) "
                          "in " +
                              hours_text(not_observed)});
  }
};

bool find_tmy3_columns(std::string_view line,
                       std::vector<std::string_view>& fields,
                       std::span<ColumnSpec> specs,
                       FaultList& faults) {
  split_fields(line, fields);
  std::vector<std::string> names;
  names.reserve(fields.size());
  for (const std::string_view field : fields) names.push_back(column_key(field));
  find_columns(names, specs);
  for (std::size_t i = 0; i < kTmy3Required; ++i) {
    // Humidity and pressure can be computed if they are missing.
    if (specs[i].index < 0 && specs[i].column != kHumidity && specs[i].column != kPressure) {
      faults.add(2, specs[i].name, "column not found");
    }
  }
  return faults.empty();
}

// Keeps only rain depths over a single hour, because sums over 3, 6 and 24 hours overlap.
struct RainRule {
  int hours_index = -1;  ///< field with the number of hours that a depth covers
  bool whole_numbers = true;
  int overlapping = 0;

  void apply(const std::vector<std::string_view>& fields, RawRow& row) {
    double& depth = row.values[kRain];
    if (std::isnan(depth)) return;
    if (hours_index >= 0 && parse_integer(fields[static_cast<std::size_t>(hours_index)]) != 1) {
      depth = kMissing;
      ++overlapping;
      return;
    }
    const double millimetres = depth * 1000.0;
    if (std::fabs(millimetres - std::round(millimetres)) > 1e-6) whole_numbers = false;
  }

  void finish(RawYear& year) const {
    bool any = false;
    for (RawRow& row : year.rows) {
      double& depth = row.values[kRain];
      if (std::isnan(depth)) continue;
      if (whole_numbers) depth *= kTenth;
      any = any || depth > 0.0;
      if (depth <= kMostRainInAnHour_m) continue;
      RawYear::Impossible& impossible = year.impossible[kRain];
      if (impossible.count++ == 0) impossible = {1, row.line, depth * 1000.0};
      depth = kMissing;
    }
    if (whole_numbers && any) {
      year.notes.push_back({0, "rain depths are whole numbers: read as tenths of a millimetre"});
    }
    if (overlapping > 0) {
      year.notes.push_back({0,
                            "rain depths that cover more than one hour left out in " +
                                hours_text(overlapping) + " (such sums overlap)"});
    }
  }
};
}  // namespace

RawYear read_tmy3(std::string_view text, FaultList& faults) {
  RawYear year;
  year.format = WeatherFormat::kTmy3;
  year.rows.reserve(kSlotsOfLeapYear);
  std::array<ColumnSpec, 10> specs = kTmy3Columns;
  LineScanner lines(text);
  std::vector<std::string_view> fields;
  std::size_t width = 0;
  RainRule rain;
  SourceRule source;
  while (lines.next()) {
    const int line = lines.number();
    if (trim(lines.line()).empty()) continue;
    if (line == 2) {
      if (!find_tmy3_columns(lines.line(), fields, specs, faults)) return year;
      width = fields.size();
      for (std::size_t i = 0; i < width; ++i) {
        if (column_key(fields[i]) == "lprecip quantity") rain.hours_index = static_cast<int>(i);
        if (column_key(fields[i]) == "dry-bulb source") source.index = static_cast<int>(i);
      }
      continue;
    }
    split_fields(lines.line(), fields);
    if (line == 1) {
      read_tmy3_site(fields, year, faults);
      continue;
    }
    RawRow row;
    row.line = line;
    if (fields.size() != width) {
      faults.add(line,
                 "",
                 std::to_string(fields.size()) + " fields",
                 std::to_string(width) + ", one for each column name");
      continue;
    }
    const std::optional<int> slot = stamp_slot(fields[0], fields[1], row.year);
    if (!slot) {
      faults.add(line,
                 "stamp",
                 std::string(fields[0]) + "," + std::string(fields[1]),
                 "MM/DD/YYYY and 01:00 to 24:00");
      continue;
    }
    row.slot = *slot;
    read_columns(fields, specs, row, year, faults);
    rain.apply(fields, row);
    source.apply(fields);
    year.rows.push_back(row);
  }
  rain.finish(year);
  source.finish(year);
  return year;
}
}  // namespace ovendays::weather
