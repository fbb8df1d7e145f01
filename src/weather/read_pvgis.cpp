// SPDX-License-Identifier: MIT
// Reader of CSV files of the EU's PVGIS typical-year service: "Name: value" lines, a table of the
// year that each month comes from, the column names, rows in UTC, a blank line and footnotes.
// Irradiance belongs to the instant of the stamp plus the "Irradiance Time Offset" that newer files
// state (0 otherwise), and each interval is centred on that instant. Temperature, wind and pressure
// belong to the stamp itself.
#include <array>
#include <cmath>

#include "raw_year.h"
#include "text_scan.h"

namespace ovendays::weather {
namespace {
constexpr double kPvgisCode = -9999.0;
constexpr std::array<ColumnSpec, 8> kPvgisColumns = {{
    {kGhi, "G(h)", 1.0, 0.0, kLeastIrradiance_Wm2, 1500.0, kInf, kPvgisCode, -1},
    {kDni, "Gb(n)", 1.0, 0.0, kLeastIrradiance_Wm2, 1500.0, kInf, kPvgisCode, -1},
    {kDhi, "Gd(h)", 1.0, 0.0, kLeastIrradiance_Wm2, 1500.0, kInf, kPvgisCode, -1},
    {kDryBulb, "T2m", 1.0, base::kZeroCelsius_K, -90.0, 65.0, kInf, kPvgisCode, -1},
    {kHumidity, "RH", 0.01, 0.0, 0.0, 110.0, kInf, kPvgisCode, -1},
    {kWind, "WS10m", 1.0, 0.0, 0.0, 60.0, kInf, kPvgisCode, -1},
    {kInfrared, "IR(h)", 1.0, 0.0, 0.0, 700.0, kInf, kPvgisCode, -1},
    {kPressure, "SP", 1.0, 0.0, 31000.0, 120000.0, kInf, kPvgisCode, -1},
}};
constexpr std::size_t kPvgisRequired = 6;

struct Stamp {
  int year = 0;
  int slot = 0;
  int minute = 0;
};

// Parses a time stamp such as "20050101:0010".
std::optional<Stamp> parse_stamp(std::string_view text) {
  text = trim(text);
  if (text.size() != 13 || text[8] != ':') return std::nullopt;
  const auto year = parse_integer(text.substr(0, 4));
  const auto month = parse_integer(text.substr(4, 2));
  const auto day = parse_integer(text.substr(6, 2));
  const auto hour = parse_integer(text.substr(9, 2));
  const auto minute = parse_integer(text.substr(11, 2));
  if (!year || !month || !day || !hour || !minute || *minute < 0 || *minute > 59)
    return std::nullopt;
  const auto slot = leap_slot({*year, *month, *day}, *hour);
  if (!slot) return std::nullopt;
  return Stamp{*year, *slot, *minute};
}

struct PvgisHeader {
  double irradiance_offset_h = 0.0;
  bool offset_stated = false;
};

void read_header_line(
    std::string_view line, int number, PvgisHeader& header, RawYear& year, FaultList& faults) {
  const std::size_t colon = line.find(':');
  if (colon == std::string_view::npos) return;  // the table of months and years
  const std::string key = column_key(line.substr(0, colon));
  const std::string_view value = line.substr(colon + 1);
  if (key == "latitude") year.latitude_deg = header_number(value, "latitude", number, faults);
  if (key == "longitude") year.longitude_deg = header_number(value, "longitude", number, faults);
  if (key == "elevation") year.elevation_m = header_number(value, "elevation", number, faults);
  if (key == "irradiance time offset") {
    const auto offset = header_number(value, "irradiance time offset", number, faults);
    header.offset_stated = offset.has_value();
    header.irradiance_offset_h = offset.value_or(0.0);
    if (std::fabs(header.irradiance_offset_h) > 1.0) {
      faults.add(number, "irradiance time offset", std::string(trim(value)), "-1 to 1 h");
    }
  }
}

bool lay_out_pvgis(const std::vector<std::string_view>& fields,
                   int line,
                   std::span<ColumnSpec> specs,
                   FaultList& faults) {
  // Names are compared with their brackets, which hold no unit here: G(h), Gb(n).
  for (ColumnSpec& spec : specs) {
    for (std::size_t i = 0; i < fields.size(); ++i) {
      if (trim(fields[i]) == spec.name) spec.index = static_cast<int>(i);
    }
  }
  for (std::size_t i = 0; i < kPvgisRequired; ++i) {
    if (specs[i].index < 0) faults.add(line, specs[i].name, "column not found");
  }
  return faults.empty();
}

// Returns false if reading should stop because the rows are not one hour apart.
bool read_pvgis_row(const std::vector<std::string_view>& fields,
                    std::span<const ColumnSpec> specs,
                    int line,
                    RawYear& year,
                    FaultList& faults) {
  const std::optional<Stamp> stamp = parse_stamp(fields[0]);
  if (!stamp) {
    faults.add(line, "stamp", std::string(trim(fields[0]).substr(0, 40)), "YYYYMMDD:HHMM");
    return true;
  }
  if (fields.size() <= kPvgisRequired) {
    faults.add(line, "", std::to_string(fields.size()) + " fields", "10 fields");
    return true;
  }
  const double minute_s = 60.0 * stamp->minute;
  if (year.rows.empty()) year.slot_offset_s = minute_s;
  if (minute_s != year.slot_offset_s) {
    faults.add(line, "stamp", "minute changes from row to row", "hourly rows, all at one minute");
    return false;
  }
  RawRow row;
  row.line = line;
  row.year = stamp->year;
  row.slot = stamp->slot;
  read_columns(fields, specs, row, year, faults);
  year.rows.push_back(row);
  return true;
}
}  // namespace

RawYear read_pvgis(std::string_view text, FaultList& faults) {
  RawYear year;
  year.format = WeatherFormat::kPvgis;
  year.rows_in_utc = true;
  year.rows.reserve(kSlotsOfLeapYear);
  std::array<ColumnSpec, 8> specs = kPvgisColumns;
  PvgisHeader header;
  LineScanner lines(text);
  std::vector<std::string_view> fields;
  bool in_data = false;
  while (lines.next()) {
    const std::string_view line = lines.line();
    if (in_data && trim(line).empty()) break;  // footnotes follow
    split_fields(line, fields);
    if (in_data) {
      if (!read_pvgis_row(fields, specs, lines.number(), year, faults)) return year;
    } else if (starts_with_ignoring_case(line, "time(UTC),")) {
      if (!lay_out_pvgis(fields, lines.number(), specs, faults)) return year;
      in_data = true;
    } else {
      read_header_line(line, lines.number(), header, year, faults);
    }
  }
  const double offset_s = 3600.0 * header.irradiance_offset_h;
  year.slot_offset_s += offset_s - 1800.0;
  year.sun_s = 1800.0;
  year.met_s = 1800.0 - offset_s;
  if (!header.offset_stated) {
    year.notes.push_back({0, "no irradiance time offset in the header; taken as 0"});
  }
  return year;
}
}  // namespace ovendays::weather
