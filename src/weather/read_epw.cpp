// SPDX-License-Identifier: MIT
// Reader of the EnergyPlus weather format: eight header records, then 35 fields per hour. Field
// order, units and missing-value codes follow the data dictionary of the format (EnergyPlus
// Auxiliary Programs).
#include <algorithm>
#include <array>

#include "raw_year.h"
#include "text_scan.h"

namespace ovendays::weather {
namespace {
// The limits are those of the dictionary where it states any. Exceptions are dry bulb, -90..65 C
// (the coldest and hottest air ever measured, with a margin), and irradiance, 1500 W/m2 (above the
// solar constant).
constexpr std::array<ColumnSpec, 12> kEpwColumns = {{
    {kDryBulb, "dry bulb", 1.0, base::kZeroCelsius_K, -90.0, 65.0, 99.9, kMissing, 6},
    {kDewPoint, "dew point", 1.0, base::kZeroCelsius_K, -100.0, 60.0, 99.9, kMissing, 7},
    {kHumidity, "relative humidity", 0.01, 0.0, 0.0, 110.0, 999.0, kMissing, 8},
    {kPressure, "pressure", 1.0, 0.0, 31000.0, 120000.0, 999999.0, kMissing, 9},
    {kInfrared, "horizontal infrared", 1.0, 0.0, 0.0, 700.0, 9999.0, kMissing, 12},
    {kGhi, "global horizontal", 1.0, 0.0, kLeastIrradiance_Wm2, 1500.0, 9999.0, kMissing, 13},
    {kDni, "direct normal", 1.0, 0.0, kLeastIrradiance_Wm2, 1500.0, 9999.0, kMissing, 14},
    {kDhi, "diffuse horizontal", 1.0, 0.0, kLeastIrradiance_Wm2, 1500.0, 9999.0, kMissing, 15},
    {kWind, "wind speed", 1.0, 0.0, 0.0, 60.0, 999.0, kMissing, 21},
    {kSnowDepth, "snow depth", 0.01, 0.0, 0.0, 998.0, 999.0, kMissing, 30},
    {kAlbedo, "albedo", 1.0, 0.0, 0.0, 1.0, 999.0, kMissing, 32},
    {kRain, "liquid precipitation depth", 0.001, 0.0, 0.0, 500.0, 999.0, kMissing, 33},
}};
constexpr std::size_t kLeastFields = 22;  // up to wind speed; older files have no more

void read_location(const std::vector<std::string_view>& fields,
                   int line,
                   RawYear& year,
                   FaultList& faults) {
  if (fields.size() < 10) {
    faults.add(line, "LOCATION", std::to_string(fields.size()) + " fields", "10 fields");
    return;
  }
  year.name = std::string(trim(fields[1]));
  year.latitude_deg = header_number(fields[6], "latitude", line, faults);
  year.longitude_deg = header_number(fields[7], "longitude", line, faults);
  year.utc_offset_h = header_number(fields[8], "time zone", line, faults);
  year.elevation_m = header_number(fields[9], "elevation", line, faults);
}

// The fifth field, the minute, is 60 in most files and 0 in some. Both mean the end of the hour
// that the fourth field names.
void read_epw_row(const std::vector<std::string_view>& fields,
                  int line,
                  RawYear& year,
                  FaultList& faults) {
  if (fields.size() < kLeastFields) {
    faults.add(line, "", std::to_string(fields.size()) + " fields", "35 fields");
    return;
  }
  std::array<std::optional<int>, 5> stamp;
  for (std::size_t i = 0; i < stamp.size(); ++i) stamp[i] = parse_integer(fields[i]);
  const bool whole = std::all_of(stamp.begin(), stamp.end(), [](const auto& s) { return !!s; });
  const std::optional<int> slot =
      whole ? leap_slot({*stamp[0], *stamp[1], *stamp[2]}, *stamp[3] - 1) : std::nullopt;
  if (!slot || (*stamp[4] != 0 && *stamp[4] != 60)) {
    std::string got;
    for (std::size_t i = 0; i < stamp.size(); ++i) {
      if (i > 0) got += ',';
      got += trim(fields[i]);
    }
    faults.add(line, "stamp", got, "year, month, day, hour 1 to 24, minute 0 or 60");
    return;
  }
  RawRow row;
  row.line = line;
  row.year = *stamp[0];
  row.slot = *slot;
  read_columns(fields, kEpwColumns, row, year, faults);
  year.rows.push_back(row);
}
}  // namespace

RawYear read_epw(std::string_view text, FaultList& faults) {
  RawYear year;
  year.format = WeatherFormat::kEpw;
  year.rows.reserve(kSlotsOfLeapYear);
  LineScanner lines(text);
  std::vector<std::string_view> fields;
  bool in_data = false;
  while (lines.next()) {
    const std::string_view line = lines.line();
    if (trim(line).empty()) continue;
    split_fields(line, fields);
    const bool digit = line.front() >= '0' && line.front() <= '9';
    if (in_data || digit) {
      in_data = true;
      read_epw_row(fields, lines.number(), year, faults);
    } else if (starts_with_ignoring_case(line, "LOCATION,")) {
      read_location(fields, lines.number(), year, faults);
    } else if (starts_with_ignoring_case(line, "DATA PERIODS,") && fields.size() > 2) {
      const std::optional<int> records = parse_integer(fields[2]);
      if (records && *records != 1) {
        faults.add(lines.number(), "records per hour", std::to_string(*records), "1");
        return year;
      }
    }
  }
  return year;
}
}  // namespace ovendays::weather
