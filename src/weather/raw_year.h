// SPDX-License-Identifier: MIT
// What a reader hands on: the rows of a file in SI with the file's own clock, before order, gaps
// and time zone are dealt with (assemble.h).
#pragma once

#include <array>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ovendays/base/constants.h"
#include "ovendays/base/error.h"
#include "ovendays/weather/weather_year.h"

namespace ovendays::weather {

/// The quantities kept, in SI. The first three are irradiance.
enum Column : std::size_t {
  kGhi,
  kDni,
  kDhi,
  kDryBulb,
  kDewPoint,
  kHumidity,
  kWind,
  kPressure,
  kInfrared,
  kAlbedo,
  kSnowDepth,
  kRain,
  kColumnCount
};
const char* column_name(Column column);

inline constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();
/// As ColumnSpec::missing_from: no value is too large.
inline constexpr double kInf = std::numeric_limits<double>::infinity();
inline constexpr int kSlotsOfLeapYear = 8784;
inline constexpr int kSlotsOfYear = 8760;
using ColumnValues = std::array<double, kColumnCount>;

/// One row. `slot` counts hours of a 366-day year from 1 January 00:00 of the file's clock.
struct RawRow {
  int line = 0;
  int year = 2001;
  int slot = 0;
  ColumnValues values{};  ///< kMissing where not given
};

/// Faults of a file, gathered; at most kMostFaults are shown.
class FaultList {
 public:
  static constexpr std::size_t kMostFaults = 20;
  explicit FaultList(std::string file) : file_(std::move(file)) {}
  void add(int line, std::string field, std::string got, std::string allowed = "");
  [[nodiscard]] bool empty() const { return count_ == 0; }
  /// @throws base::InputError with the faults in file order, then "and N more".
  void throw_if_any();

 private:
  std::string file_;
  std::vector<base::Fault> faults_;
  std::size_t count_ = 0;
};

struct RawYear {
  WeatherFormat format = WeatherFormat::kEpw;
  std::string name;
  std::optional<double> latitude_deg;
  std::optional<double> longitude_deg;
  std::optional<double> elevation_m;
  std::optional<double> utc_offset_h;  ///< of the site's standard time
  bool rows_in_utc = false;            ///< the slots count UTC, not local standard time
  double slot_offset_s = 0.0;          ///< interval start minus the slot's own start
  double sun_s = 1800.0;               ///< from interval start, as in WeatherHour
  double met_s = 3600.0;
  std::vector<RawRow> rows;
  std::vector<WeatherNote> notes;
  int filled_by_publisher = 0;
  int negative_irradiance = 0;  ///< small negative values set to 0, and the first line
  int negative_line = 0;
  /// Values of the columns that may be missing (from kInfrared on) beyond their limits: not given.
  struct Odd {
    int count = 0;
    int line = 0;
    double value = 0.0;  ///< the first, in the file's unit
  };
  std::array<Odd, kColumnCount> odd{};
  int zero_infrared = 0;
  int zero_albedo = 0;
};

/// Where a column stands in a row, its unit, its limits and its codes.
struct ColumnSpec {
  Column column = kGhi;
  const char* name = "";  ///< as the file calls it
  double scale = 1.0;     ///< SI = (value + offset) scale
  double offset = 0.0;
  double least = 0.0;  ///< [file unit], inclusive
  double most = 0.0;
  double missing_from = kInf;      ///< this and above: missing
  double missing_code = kMissing;  ///< this very value: missing
  int index = -1;                  ///< field in the row
};

/// Irradiance a little below zero is an instrument's night offset; it is set to 0 and counted.
inline constexpr double kLeastIrradiance_Wm2 = -10.0;

/// Reads the columns of one row into SI. A value beyond its limits is a fault, but in the columns
/// that may be missing (infrared, albedo, snow, rain) it is taken as not given and noted: real
/// files carry nonsense there that no result hangs on. Faults carry the line and the file's own
/// column name.
void read_columns(std::span<const std::string_view> fields,
                  std::span<const ColumnSpec> specs,
                  RawRow& row,
                  RawYear& year,
                  FaultList& faults);

/// The slot of an hour 0..23 of a date; nullopt where the date does not exist or the year is not of
/// 1900..2200. 29 February exists in every year: months of a typical year may be mislabelled.
std::optional<int> leap_slot(const base::Date& date, int hour);

/// Sets the index of each spec from the column names. @param names keys by column_key()
void find_columns(std::span<const std::string> names, std::span<ColumnSpec> specs);

/// A number of the site header within limits; a fault and nullopt otherwise.
std::optional<double> header_number(std::string_view text,
                                    const char* field,
                                    int line,
                                    FaultList& faults);

RawYear read_epw(std::string_view text, FaultList& faults);
RawYear read_tmy3(std::string_view text, FaultList& faults);
RawYear read_nsrdb(std::string_view text, FaultList& faults);
RawYear read_pvgis(std::string_view text, FaultList& faults);
}  // namespace ovendays::weather
