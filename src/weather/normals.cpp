// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "make_radiation.h"
#include "ovendays/base/calendar.h"
#include "ovendays/base/case_node.h"
#include "ovendays/base/constants.h"
#include "ovendays/weather/weather_make.h"
#include "text_scan.h"

namespace ovendays::weather {
namespace {
using base::CaseNode;
using base::Dimension;
using base::Range;
// Accepted range of a month's mean clearness index. The sunniest months on record reach about 0.75.
constexpr double kLeastMonth = 0.10;
constexpr double kMostMonth = 0.78;

// Reads a list of twelve. A missing list has its own message; otherwise only its length would be
// reported as wrong.
std::array<double, 12> months(const CaseNode& root,
                              const char* key,
                              Dimension dimension,
                              Range allowed) {
  std::array<double, 12> values{};
  if (!root.has(key)) {
    root.fault(key, "missing", "twelve values, January to December");
    return values;
  }
  const std::vector<double> list = root.quantities(key, dimension, allowed, values.size());
  std::copy_n(list.begin(), std::min(list.size(), values.size()), values.begin());
  return values;
}

// The daily course is scaled between minimum and maximum, which needs a difference between them.
void check_temperatures(const CaseNode& root, const MonthlyNormals& normals) {
  for (std::size_t m = 0; m < 12; ++m) {
    if (normals.dry_bulb_max_K[m] - normals.dry_bulb_min_K[m] < 1.0) {
      root.fault("dry_bulb_max",
                 std::string(base::month_name(static_cast<int>(m) + 1)) +
                     " less than 1 K above dry_bulb_min",
                 "a daily swing of at least 1 K");
    }
  }
}

// Checks that the radiation of each month is a plausible fraction of the extraterrestrial
// radiation.
void check_radiation(const CaseNode& root, const MonthlyNormals& normals) {
  const std::array<double, 12> clearness =
      month_clearness(normals.ghi_kWhm2day, sun_hours(normals.place));
  for (std::size_t m = 0; m < 12; ++m) {
    const double outside = clearness[m] > 0.0 ? normals.ghi_kWhm2day[m] / clearness[m] : 0.0;
    const bool night = clearness[m] == 0.0 && normals.ghi_kWhm2day[m] < 0.01;
    if (night || (clearness[m] >= kLeastMonth && clearness[m] <= kMostMonth)) continue;
    root.fault("ghi_kWhm2_day",
               std::string(base::month_name(static_cast<int>(m) + 1)) + " " +
                   number_text(normals.ghi_kWhm2day[m]),
               number_text(0.01 * std::ceil(100.0 * kLeastMonth * outside)) + " to " +
                   number_text(0.01 * std::floor(100.0 * kMostMonth * outside)) +
                   " at this latitude");
  }
}
}  // namespace

MonthlyNormals read_normals(const std::string& file) {
  base::CaseFile source(file);
  const CaseNode root = source.root();
  MonthlyNormals normals;
  normals.file = file;
  normals.place.name = root.required_text("name");
  normals.comment = root.text("comment", "");
  normals.place.latitude_rad =
      root.required_quantity("latitude", Dimension::kAngle, {-0.5 * base::kPi, 0.5 * base::kPi});
  normals.place.longitude_rad =
      root.required_quantity("longitude", Dimension::kAngle, {-base::kPi, base::kPi});
  normals.place.elevation_m =
      root.required_quantity("elevation", Dimension::kLength, {-500.0, 8900.0});
  normals.place.utc_offset_s =
      root.required_quantity("utc_offset", Dimension::kTime, {-43200.0, 50400.0});
  normals.ghi_kWhm2day = months(root, "ghi_kWhm2_day", Dimension::kNumber, {0.0, 12.0});
  normals.dry_bulb_max_K = months(root, "dry_bulb_max", Dimension::kTemperature, {203.0, 323.15});
  normals.dry_bulb_min_K = months(root, "dry_bulb_min", Dimension::kTemperature, {193.0, 313.15});
  normals.wind_ms = months(root, "wind", Dimension::kSpeed, {0.1, 15.0});
  normals.relative_humidity = months(root, "relative_humidity", Dimension::kNumber, {0.05, 0.98});
  normals.rain_given = root.has("rain") || root.has("rain_days");
  if (normals.rain_given) {
    normals.rain_m = months(root, "rain", Dimension::kLength, {0.0, 3.0});
    normals.rain_days = months(root, "rain_days", Dimension::kNumber, {0.0, 31.0});
  }
  normals.albedo.fill(0.2);
  if (root.has("albedo")) {
    normals.albedo = months(root, "albedo", Dimension::kNumber, {0.01, 0.95});
  }
  check_temperatures(root, normals);
  check_radiation(root, normals);
  source.finish();
  return normals;
}
}  // namespace ovendays::weather
