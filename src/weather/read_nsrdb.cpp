// SPDX-License-Identifier: MIT
// Reader of CSV files of the US National Solar Radiation Database, physical solar model versions 3
// and 4: a line of site keys, a line of site values, the column names, then the rows. The two site
// lines may be absent, and an unnamed counter column may come first. Values belong to the instant
// at the file's own minute, so each interval is centred on that instant.
#include <algorithm>
#include <array>

#include "raw_year.h"
#include "text_scan.h"

namespace ovendays::weather {
namespace {
constexpr double kNsrdbCode = -9999.0;
// Each quantity is listed under the names that versions 3 and 4 use and under its short names.
constexpr std::array<ColumnSpec, 14> kNsrdbColumns = {{
    {kGhi, "GHI", 1.0, 0.0, kLeastIrradiance_Wm2, 1500.0, kInf, kNsrdbCode, -1},
    {kDni, "DNI", 1.0, 0.0, kLeastIrradiance_Wm2, 1500.0, kInf, kNsrdbCode, -1},
    {kDhi, "DHI", 1.0, 0.0, kLeastIrradiance_Wm2, 1500.0, kInf, kNsrdbCode, -1},
    {kDryBulb, "Temperature", 1.0, base::kZeroCelsius_K, -90.0, 65.0, kInf, kNsrdbCode, -1},
    {kDryBulb, "Air Temperature", 1.0, base::kZeroCelsius_K, -90.0, 65.0, kInf, kNsrdbCode, -1},
    {kDewPoint, "Dew Point", 1.0, base::kZeroCelsius_K, -100.0, 60.0, kInf, kNsrdbCode, -1},
    {kHumidity, "Relative Humidity", 0.01, 0.0, 0.0, 110.0, kInf, kNsrdbCode, -1},
    {kPressure, "Pressure", 100.0, 0.0, 310.0, 1200.0, kInf, kNsrdbCode, -1},
    {kPressure, "Surface Pressure", 100.0, 0.0, 310.0, 1200.0, kInf, kNsrdbCode, -1},
    {kWind, "Wind Speed", 1.0, 0.0, 0.0, 60.0, kInf, kNsrdbCode, -1},
    {kAlbedo, "Surface Albedo", 1.0, 0.0, 0.0, 1.0, kInf, kNsrdbCode, -1},
    {kAlbedo, "Albedo", 1.0, 0.0, 0.0, 1.0, kInf, kNsrdbCode, -1},
    {kSnowDepth, "Snow Depth", 1.0, 0.0, 0.0, 30.0, kInf, kNsrdbCode, -1},
    {kRain, "Precipitation", 0.001, 0.0, 0.0, 500.0, kInf, kNsrdbCode, -1},
}};
constexpr std::array<const char*, 5> kStampNames = {"year", "month", "day", "hour", "minute"};

struct NsrdbLayout {
  std::array<ColumnSpec, 14> specs = kNsrdbColumns;
  std::array<int, 5> stamp{};
  int fill_flag = -1;  ///< field that is not 0 if the publisher filled the row's irradiance
  std::size_t width = 0;
};

// Order and spelling of the columns vary (air_temperature, Air Temperature), so they are found by
// key.
std::vector<std::string> keys_of(const std::vector<std::string_view>& fields) {
  std::vector<std::string> keys;
  keys.reserve(fields.size());
  for (const std::string_view field : fields) keys.push_back(column_key(field));
  return keys;
}

int index_of(const std::vector<std::string>& keys, std::string_view key) {
  const auto found = std::find(keys.begin(), keys.end(), key);
  return found == keys.end() ? -1 : static_cast<int>(found - keys.begin());
}

// "Time Zone" is the clock of the rows. If it is 0 and "Local Time Zone" is not, they are in UTC.
void read_nsrdb_site(const std::vector<std::string>& keys,
                     const std::vector<std::string_view>& values,
                     int line,
                     RawYear& year,
                     FaultList& faults) {
  const auto number = [&](const char* key, const char* field) -> std::optional<double> {
    const int index = index_of(keys, key);
    if (index < 0 || static_cast<std::size_t>(index) >= values.size()) return std::nullopt;
    return header_number(values[static_cast<std::size_t>(index)], field, line, faults);
  };
  year.latitude_deg = number("latitude", "latitude");
  year.longitude_deg = number("longitude", "longitude");
  year.elevation_m = number("elevation", "elevation");
  const std::optional<double> rows_zone = number("time zone", "time zone");
  const std::optional<double> local_zone = number("local time zone", "time zone");
  year.utc_offset_h = rows_zone;
  if (rows_zone && local_zone && *rows_zone == 0.0 && *local_zone != 0.0) {
    year.rows_in_utc = true;
    year.utc_offset_h = local_zone;
  }
  const int id = index_of(keys, "location id");
  if (id >= 0 && static_cast<std::size_t>(id) < values.size()) {
    year.name = "NSRDB cell " + std::string(trim(values[static_cast<std::size_t>(id)]));
  }
}

// Finds the columns. Users choose them when they request a file, so a missing required one is
// named.
bool lay_out_nsrdb(const std::vector<std::string>& keys,
                   int line,
                   NsrdbLayout& layout,
                   FaultList& f) {
  find_columns(keys, layout.specs);
  layout.fill_flag = index_of(keys, "fill flag");
  layout.width = keys.size();
  for (std::size_t i = 0; i < kStampNames.size(); ++i) {
    layout.stamp[i] = index_of(keys, kStampNames[i]);
    if (layout.stamp[i] < 0) f.add(line, kStampNames[i], "column not found");
  }
  const auto has = [&](Column column) {
    return std::any_of(layout.specs.begin(), layout.specs.end(), [&](const auto& spec) {
      return spec.column == column && spec.index >= 0;
    });
  };
  for (const Column column : {kGhi, kDni, kDhi, kDryBulb, kWind}) {
    if (!has(column)) f.add(line, column_name(column), "column not found");
  }
  if (!has(kDewPoint) && !has(kHumidity)) {
    f.add(line, "dew point or humidity", "column not found");
  }
  return f.empty();
}

// Returns false if reading should stop because the rows are not one hour apart.
bool read_nsrdb_row(const std::vector<std::string_view>& fields,
                    const NsrdbLayout& layout,
                    int line,
                    RawYear& year,
                    FaultList& faults) {
  if (fields.size() < layout.width) {
    faults.add(line,
               "",
               std::to_string(fields.size()) + " fields",
               std::to_string(layout.width) + ", one for each column name");
    return true;
  }
  std::array<std::optional<int>, 5> stamp;
  for (std::size_t i = 0; i < stamp.size(); ++i) {
    stamp[i] = parse_integer(fields[static_cast<std::size_t>(layout.stamp[i])]);
  }
  const bool whole = std::all_of(stamp.begin(), stamp.end(), [](const auto& s) { return !!s; });
  const auto slot = whole ? leap_slot({*stamp[0], *stamp[1], *stamp[2]}, *stamp[3]) : std::nullopt;
  if (!slot || *stamp[4] < 0 || *stamp[4] > 59) {
    faults.add(line, "stamp", "not a date and time", "year, month, day, hour 0 to 23, minute");
    return true;
  }
  const double offset_s = 60.0 * *stamp[4] - 1800.0;
  if (year.rows.empty()) year.slot_offset_s = offset_s;
  if (offset_s != year.slot_offset_s) {
    faults.add(line,
               "minute",
               std::to_string(*stamp[4]) + " after rows at another minute",
               "hourly rows, all at one minute: ask the service for an interval of 60");
    return false;
  }
  RawRow row;
  row.line = line;
  row.year = *stamp[0];
  row.slot = *slot;
  read_columns(fields, layout.specs, row, year, faults);
  const auto flag = static_cast<std::size_t>(layout.fill_flag);
  if (layout.fill_flag >= 0 && parse_number(fields[flag]).value_or(0.0) != 0.0) {
    ++year.filled_by_publisher;
  }
  year.rows.push_back(row);
  return true;
}
}  // namespace

RawYear read_nsrdb(std::string_view text, FaultList& faults) {
  RawYear year;
  year.format = WeatherFormat::kNsrdb;
  year.sun_s = 1800.0;
  year.met_s = 1800.0;
  year.rows.reserve(kSlotsOfLeapYear);
  NsrdbLayout layout;
  LineScanner lines(text);
  std::vector<std::string_view> fields;
  std::vector<std::string> site_keys;
  while (lines.next()) {
    if (trim(lines.line()).empty()) continue;
    split_fields(lines.line(), fields);
    if (layout.width > 0) {
      if (!read_nsrdb_row(fields, layout, lines.number(), year, faults)) return year;
      continue;
    }
    std::vector<std::string> keys = keys_of(fields);
    if (index_of(keys, "ghi") >= 0 && index_of(keys, "month") >= 0) {
      if (!lay_out_nsrdb(keys, lines.number(), layout, faults)) return year;
    } else if (site_keys.empty()) {
      site_keys = std::move(keys);
    } else {
      read_nsrdb_site(site_keys, fields, lines.number(), year, faults);
    }
  }
  if (year.filled_by_publisher > 0) {
    year.notes.push_back({0,
                          "irradiance filled by the publisher (fill flag not 0) in " +
                              hours_text(year.filled_by_publisher)});
  }
  return year;
}
}  // namespace ovendays::weather
