// SPDX-License-Identifier: MIT
#include "raw_year.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "text_scan.h"

namespace ovendays::weather {
namespace {
constexpr std::array<const char*, kColumnCount> kColumnNames = {"global horizontal irradiance",
                                                                "direct normal irradiance",
                                                                "diffuse horizontal irradiance",
                                                                "dry bulb",
                                                                "dew point",
                                                                "humidity",
                                                                "wind speed",
                                                                "pressure",
                                                                "horizontal infrared",
                                                                "albedo",
                                                                "snow depth",
                                                                "rain"};

std::string range_text(double least, double most) {
  return number_text(least) + " to " + number_text(most);
}

struct HeaderLimit {
  std::string_view field;
  double least;
  double most;
};
constexpr std::array<HeaderLimit, 4> kHeaderLimits = {{{"latitude", -90.0, 90.0},
                                                       {"longitude", -180.0, 180.0},
                                                       {"time zone", -12.0, 14.0},
                                                       {"elevation", -500.0, 9000.0}}};

// Missing-value codes are runs of nines, at most nine of them in these formats. A larger number is
// damage, not a code.
constexpr double kLargestCode = 1e9;

// Files write 0 for a missing albedo or infrared: no ground is black, and no sky is at 0 K.
double without_false_zero(double value, Column column, RawYear& year) {
  if (value != 0.0) return value;
  if (column == kAlbedo) {
    ++year.zero_albedo;
    return kMissing;
  }
  if (column == kInfrared) {
    ++year.zero_infrared;
    return kMissing;
  }
  return 0.0;  // also turns -0.0 into 0.0
}
}  // namespace

// The names do not depend on the format, because gaps are reported after all formats look alike.
const char* column_name(Column column) { return kColumnNames[column]; }

// More faults are kept than listed, so that sorting by line finds the first ones. There is a limit,
// so that a damaged file cannot exhaust the memory.
void FaultList::add(int line, std::string field, std::string got, std::string allowed) {
  constexpr std::size_t kShown = 80;  // a field may be as long as the file
  if (got.size() > kShown) got = got.substr(0, kShown) + "...";
  ++count_;
  if (faults_.size() < 50 * kMostFaults) {
    faults_.push_back({file_, line, std::move(field), std::move(got), std::move(allowed)});
  }
}

// The sort is stable, which keeps the faults of a line in the order of its fields.
void FaultList::throw_if_any() {
  if (empty()) return;
  std::stable_sort(
      faults_.begin(), faults_.end(), [](const auto& a, const auto& b) { return a.line < b.line; });
  if (count_ > kMostFaults) {
    faults_.resize(kMostFaults);
    faults_.push_back(
        {file_, 0, "", "and " + std::to_string(count_ - kMostFaults) + " more faults", ""});
  }
  throw base::InputError(std::move(faults_));
}

void read_columns(std::span<const std::string_view> fields,
                  std::span<const ColumnSpec> specs,
                  RawRow& row,
                  RawYear& year,
                  FaultList& faults) {
  row.values.fill(kMissing);
  for (const ColumnSpec& spec : specs) {
    if (spec.index < 0 || static_cast<std::size_t>(spec.index) >= fields.size()) continue;
    const std::string_view text = trim(fields[static_cast<std::size_t>(spec.index)]);
    if (text.empty()) continue;
    const std::optional<double> number = parse_number(text);
    if (!number) {
      faults.add(row.line, spec.name, quoted(text) + " is not a number");
      continue;
    }
    double value = *number;
    const bool missing = value >= spec.missing_from && value <= kLargestCode;
    if (missing || value == spec.missing_code) continue;
    if (value < spec.least || value > spec.most) {
      if (spec.column >= kInfrared) {
        RawYear::Impossible& impossible = year.impossible[spec.column];
        if (impossible.count++ == 0) impossible = {1, row.line, value};
        continue;
      }
      faults.add(row.line, spec.name, std::string(text), range_text(spec.least, spec.most));
      continue;
    }
    if (spec.column <= kDhi && value < 0.0) {
      if (year.negative_irradiance++ == 0) year.negative_line = row.line;
      value = 0.0;
    }
    value = without_false_zero(value, spec.column, year);
    row.values[spec.column] = (value + spec.offset) * spec.scale;
  }
}

std::optional<int> leap_slot(const base::Date& date, int hour) {
  if (date.year < 1900 || date.year > 2200) return std::nullopt;
  if (date.month < 1 || date.month > 12 || hour < 0 || hour > 23) return std::nullopt;
  if (date.day < 1 || date.day > base::days_in_month(2000, date.month)) return std::nullopt;
  return (base::day_of_year({2000, date.month, date.day}) - 1) * 24 + hour;
}

// A name that is not found leaves its index at -1, and read_columns() skips it.
void find_columns(std::span<const std::string> names, std::span<ColumnSpec> specs) {
  for (ColumnSpec& spec : specs) {
    const auto found = std::find(names.begin(), names.end(), column_key(spec.name));
    if (found != names.end() && spec.index < 0) {
      spec.index = static_cast<int>(found - names.begin());
    }
  }
}

std::optional<double> header_number(std::string_view text,
                                    const char* field,
                                    int line,
                                    FaultList& faults) {
  const std::optional<double> number = parse_number(text);
  if (!number) {
    faults.add(line, field, quoted(text) + " is not a number");
    return std::nullopt;
  }
  const auto* limit = std::find_if(
      kHeaderLimits.begin(), kHeaderLimits.end(), [&](const auto& l) { return l.field == field; });
  if (limit != kHeaderLimits.end() && (*number < limit->least || *number > limit->most)) {
    faults.add(line, field, std::string(trim(text)), range_text(limit->least, limit->most));
    return std::nullopt;
  }
  return number;
}
}  // namespace ovendays::weather
