// SPDX-License-Identifier: MIT
// The output of the format readers: the rows of a file in SI, by the file's own clock, before their
// order, gaps and time zone are handled (assemble.h). Private to weather.
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

/// The quantities that are read, in SI. The first three are irradiances; from kInfrared on they are
/// optional.
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
/// The name of a quantity for messages.
const char* column_name(Column column);

inline constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();
/// As ColumnSpec::missing_from it disables that code.
inline constexpr double kInf = std::numeric_limits<double>::infinity();
inline constexpr int kSlotsOfLeapYear = 8784;
inline constexpr int kSlotsOfYear = 8760;
using ColumnValues = std::array<double, kColumnCount>;

/// One row of a file.
struct RawRow {
  int line = 0;
  int year = 2001;
  int slot = 0;           ///< hours since 1 January 00:00 by the file's clock, in a 366-day year
  ColumnValues values{};  ///< kMissing where not given
};

/// Collects the faults of a file. At most kMostFaults of them are listed.
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

/// Everything that a reader found in a file.
struct RawYear {
  WeatherFormat format = WeatherFormat::kEpw;
  std::string name;
  std::optional<double> latitude_deg;
  std::optional<double> longitude_deg;
  std::optional<double> elevation_m;
  std::optional<double> utc_offset_h;  ///< of the site's standard time
  bool rows_in_utc = false;            ///< the slots count UTC, not local standard time
  double slot_offset_s = 0.0;          ///< interval start minus start of the slot
  double sun_s = 1800.0;               ///< from interval start, as in WeatherHour
  double met_s = 3600.0;
  std::vector<RawRow> rows;
  std::vector<WeatherNote> notes;
  int filled_by_publisher = 0;
  int negative_irradiance = 0;  ///< number of small negative values that were set to 0
  int negative_line = 0;        ///< line of the first one
  /// Values of an optional column that are beyond its limits and count as missing.
  struct Impossible {
    int count = 0;
    int line = 0;        ///< of the first one
    double value = 0.0;  ///< the first one, in the file's unit
  };
  std::array<Impossible, kColumnCount> impossible{};
  int zero_infrared = 0;
  int zero_albedo = 0;
};

/// A column of a file: its name and position, unit, limits and missing-value codes.
struct ColumnSpec {
  Column column = kGhi;
  const char* name = "";  ///< as in the file
  double scale = 1.0;     ///< SI value = (value + offset) * scale
  double offset = 0.0;
  double least = 0.0;  ///< [unit of the file], inclusive
  double most = 0.0;
  double missing_from = kInf;      ///< this value and larger ones mean missing
  double missing_code = kMissing;  ///< exactly this value means missing
  int index = -1;                  ///< of the field in a row; -1 if the file lacks the column
};

/// Slightly negative irradiance is the night offset of an instrument. It is set to 0 and counted.
inline constexpr double kLeastIrradiance_Wm2 = -10.0;

/// Converts the columns of one row to SI. A value beyond its limits is a fault. In an optional
/// column (infrared, albedo, snow, rain) it counts as missing instead and is noted, because real
/// files have such values there and no result depends on them. Faults carry the line and the column
/// name of the file.
void read_columns(std::span<const std::string_view> fields,
                  std::span<const ColumnSpec> specs,
                  RawRow& row,
                  RawYear& year,
                  FaultList& faults);

/// The slot of an hour of a date, see RawRow. 29 February is accepted in every year, because months
/// of typical years may be mislabelled.
/// @param hour 0..23
/// @return nullopt if the date does not exist or its year is outside 1900..2200
std::optional<int> leap_slot(const base::Date& date, int hour);

/// Sets the index of each spec from the names of the columns.
/// @param names the names of the file's columns, as column_key() gives them
void find_columns(std::span<const std::string> names, std::span<ColumnSpec> specs);

/// Parses a number of the site header and checks its limits. Records a fault and returns nullopt if
/// it fails.
std::optional<double> header_number(std::string_view text,
                                    const char* field,
                                    int line,
                                    FaultList& faults);

/// The readers of the four formats. A reader that cannot follow the layout of a file records a
/// fault and returns early.
RawYear read_epw(std::string_view text, FaultList& faults);
RawYear read_tmy3(std::string_view text, FaultList& faults);
RawYear read_nsrdb(std::string_view text, FaultList& faults);
RawYear read_pvgis(std::string_view text, FaultList& faults);
}  // namespace ovendays::weather
