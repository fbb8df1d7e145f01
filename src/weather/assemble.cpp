// SPDX-License-Identifier: MIT
#include "assemble.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "gaps.h"
#include "ovendays/base/air.h"
#include "ovendays/base/constants.h"
#include "text_scan.h"

namespace ovendays::weather {
namespace {
constexpr int kLeapDaySlot = 59 * 24;   // 29 February 00:00 in a 366-day year
constexpr int kFewestHours = 8760 / 2;  // with fewer rows, most of the year would be filled values
constexpr double kHour_s = base::kSecondsPerHour;

// The case overrides the header, because a header may be wrong and the case is where users correct
// it.
std::optional<double> header_value(const std::optional<double>& stated,
                                   const std::optional<double>& header,
                                   double si_per_unit) {
  if (stated) return stated;
  if (header) return *header * si_per_unit;
  return std::nullopt;
}

// Determines the time zone. A file in UTC needs a local time zone only to define its days, so the
// usual one, the whole hour nearest to the longitude, may be assumed with a note. In any other file
// the time zone says which instants the rows are, so a missing one is a fault.
void resolve_utc_offset(const RawYear& raw,
                        std::optional<double> offset_s,
                        WeatherYear& year,
                        FaultList& faults) {
  if (offset_s) {
    year.place.utc_offset_s = *offset_s;
  } else if (raw.rows_in_utc) {
    const double hours = std::round(year.place.longitude_rad * base::kDegPerRad / 15.0);
    year.place.utc_offset_s = hours * kHour_s;
    year.notes.push_back({0,
                          "no time zone given: local standard time taken as UTC" +
                              signed_text(hours) + ", the whole hour nearest to the longitude"});
  } else {
    faults.add(
        0, "site.utc_offset", "not in the file", "-12 to 14 h in the case: the file's time zone");
  }
}

// Determines the site. A missing latitude or longitude is a fault, because the sun's position
// depends on them. A missing elevation is only noted: it has a small effect on pressure and
// clear-sky light.
void resolve_place(const RawYear& raw,
                   const SiteOverrides& overrides,
                   WeatherYear& year,
                   FaultList& faults) {
  year.place_known = raw.latitude_deg && raw.longitude_deg && (raw.utc_offset_h || raw.rows_in_utc);
  year.elevation_known = raw.elevation_m || overrides.elevation_m;
  year.place.name = overrides.name.value_or(raw.name);
  constexpr std::size_t kLongestName = 120;
  if (year.place.name.size() > kLongestName) year.place.name.resize(kLongestName);
  const auto latitude = header_value(overrides.latitude_rad, raw.latitude_deg, base::kRadPerDeg);
  const auto longitude = header_value(overrides.longitude_rad, raw.longitude_deg, base::kRadPerDeg);
  if (!latitude) faults.add(0, "site.latitude", "not in the file", "-90 to 90 deg in the case");
  if (!longitude) faults.add(0, "site.longitude", "not in the file", "-180 to 180 deg in the case");
  year.place.latitude_rad = latitude.value_or(0.0);
  year.place.longitude_rad = longitude.value_or(0.0);
  year.place.elevation_m = overrides.elevation_m.value_or(raw.elevation_m.value_or(0.0));
  if (!year.elevation_known) {
    year.notes.push_back({0, "no elevation given: taken as 0 m (sea level)"});
  }
  resolve_utc_offset(
      raw, header_value(overrides.utc_offset_s, raw.utc_offset_h, kHour_s), year, faults);
  year.clock_shift_s = overrides.clock_shift_s.value_or(0.0);
}

// The time stamps must ascend, and may pass the end of the year once.
void check_order(const RawYear& raw, FaultList& faults) {
  std::vector<int> seen(kSlotsOfLeapYear, 0);
  int previous = -1;
  bool wrapped = false;
  for (const RawRow& row : raw.rows) {
    int& line = seen[static_cast<std::size_t>(row.slot)];
    if (line != 0) {
      faults.add(row.line, "stamp", "the same as in line " + std::to_string(line));
    } else if (row.slot < previous) {
      const bool at_year_end = previous >= kSlotsOfLeapYear - 24 && row.slot < 24;
      if (wrapped || !at_year_end) {
        faults.add(row.line, "stamp", "earlier than in the line before", "ascending time stamps");
      }
      wrapped = true;
    }
    if (line == 0) line = row.line;
    previous = row.slot;
  }
}

// Sorts the rows into hourly slots and drops 29 February, because a season has 365 days whichever
// year its months are from. Slots without a row take over the line and the year of the row before
// them, for messages and for their date.
SlotYear lay_out_slots(const RawYear& raw, std::vector<WeatherNote>& notes) {
  std::vector<int> row_of(kSlotsOfLeapYear, -1);
  int leap_line = 0;
  for (std::size_t i = 0; i < raw.rows.size(); ++i) {
    row_of[static_cast<std::size_t>(raw.rows[i].slot)] = static_cast<int>(i);
    const bool leap = raw.rows[i].slot / 24 == kLeapDaySlot / 24;
    if (leap && leap_line == 0) leap_line = raw.rows[i].line;
  }
  if (leap_line != 0) notes.push_back({leap_line, "29 February dropped"});
  row_of.erase(row_of.begin() + kLeapDaySlot, row_of.begin() + kLeapDaySlot + 24);

  ColumnValues nothing{};
  nothing.fill(kMissing);
  SlotYear slots;
  slots.values.assign(kSlotsOfYear, nothing);
  slots.line.assign(kSlotsOfYear, 0);
  slots.line_before.assign(kSlotsOfYear, raw.rows.front().line);
  slots.year.assign(kSlotsOfYear, raw.rows.front().year);
  slots.filled.assign(kSlotsOfYear, 0);
  for (std::size_t i = 0; i < row_of.size(); ++i) {
    if (row_of[i] < 0) {
      if (i > 0) {
        slots.line_before[i] = slots.line_before[i - 1];
        slots.year[i] = slots.year[i - 1];
      }
      continue;
    }
    const RawRow& row = raw.rows[static_cast<std::size_t>(row_of[i])];
    slots.values[i] = row.values;
    slots.line[i] = slots.line_before[i] = row.line;
    slots.year[i] = row.year;
  }
  return slots;
}

// Computes the dew point from humidity where the file lacks it, and uses the standard atmosphere if
// the file has no pressure at all.
void complete_air(SlotYear& slots, double elevation_m, std::vector<WeatherNote>& notes) {
  int dew_made = 0;
  bool any_pressure = false;
  for (ColumnValues& v : slots.values) {
    if (std::isnan(v[kDewPoint]) && !std::isnan(v[kHumidity]) && !std::isnan(v[kDryBulb])) {
      v[kDewPoint] = base::dew_point_K(v[kDryBulb], v[kHumidity]);
      ++dew_made;
    }
    any_pressure = any_pressure || !std::isnan(v[kPressure]);
  }
  if (dew_made > 0) {
    notes.push_back({0,
                     "dew point computed from temperature and humidity in " +
                         std::to_string(dew_made) + " hours"});
  }
  if (any_pressure) return;
  const double standard_Pa = base::standard_pressure_Pa(elevation_m);
  for (ColumnValues& v : slots.values) v[kPressure] = standard_Pa;
  notes.push_back({0,
                   "no pressure in the file: standard atmosphere at " + number_text(elevation_m) +
                       " m, " + number_text(std::round(standard_Pa)) + " Pa"});
}

// Optional values remain missing hour by hour, because the parts that use them have models of their
// own for that case.
std::optional<double> given(double value) {
  return std::isnan(value) ? std::nullopt : std::optional<double>(value);
}

WeatherHour hour_from(const ColumnValues& v) {
  WeatherHour hour;
  hour.ghi_Wm2 = v[kGhi];
  hour.dni_Wm2 = v[kDni];
  hour.dhi_Wm2 = v[kDhi];
  hour.dry_bulb_K = v[kDryBulb];
  hour.dew_point_K = v[kDewPoint];
  hour.wind_ms = v[kWind];
  hour.pressure_Pa = v[kPressure];
  hour.horizontal_ir_Wm2 = given(v[kInfrared]);
  hour.albedo = given(v[kAlbedo]);
  hour.snow_depth_m = given(v[kSnowDepth]);
  hour.precipitation_m = given(v[kRain]);
  return hour;
}

// Moves the rows by whole hours, such that hour h of a day starts within half an hour of h o'clock.
void lay_out_hours(const RawYear& raw, const SlotYear& slots, WeatherYear& year) {
  const double shift_s =
      raw.slot_offset_s + year.clock_shift_s + (raw.rows_in_utc ? year.place.utc_offset_s : 0.0);
  const int whole = static_cast<int>(std::floor(shift_s / kHour_s + 0.5));
  const double rest_s = shift_s - whole * kHour_s;
  year.hours.resize(kSlotsOfYear);
  for (int i = 0; i < kSlotsOfYear; ++i) {
    const auto from = static_cast<std::size_t>(i);
    const int to = ((i + whole) % kSlotsOfYear + kSlotsOfYear) % kSlotsOfYear;
    WeatherHour hour = hour_from(slots.values[from]);
    hour.date = base::date_from_day_index_365(to / 24, slots.year[from]);
    hour.start_s = (to % 24) * kHour_s + rest_s;
    hour.sun_s = raw.sun_s;
    hour.met_s = raw.met_s;
    hour.line = slots.line[from];
    hour.filled = slots.filled[from] != 0;
    year.filled_hours += hour.filled ? 1 : 0;
    year.hours[static_cast<std::size_t>(to)] = hour;
  }
  if (raw.rows_in_utc) {
    year.notes.push_back({0,
                          "rows are in UTC; re-ordered into local standard time, UTC" +
                              signed_text(year.place.utc_offset_s / kHour_s)});
  }
  if (year.clock_shift_s != 0.0) {
    year.notes.push_back({0,
                          "time stamps moved by " + number_text(year.clock_shift_s / 60.0) +
                              " min as the case states"});
  }
}

// Adds one note for each kind of peculiarity, with the first line, because thousands of hours may
// share it.
void note_peculiarities(const RawYear& raw, std::vector<WeatherNote>& notes) {
  if (raw.negative_irradiance > 0) {
    notes.push_back({raw.negative_line,
                     "irradiance below zero by up to 10 W/m2 set to 0 in " +
                         std::to_string(raw.negative_irradiance) + " values"});
  }
  for (std::size_t column = 0; column < kColumnCount; ++column) {
    const RawYear::Impossible& impossible = raw.impossible[column];
    if (impossible.count == 0) continue;
    notes.push_back({impossible.line,
                     std::string(column_name(static_cast<Column>(column))) + " of " +
                         number_text(impossible.value) +
                         " is not possible; treated as missing in " +
                         hours_text(impossible.count)});
  }
  if (raw.zero_albedo > 0) {
    notes.push_back({0, "albedo 0 treated as missing in " + hours_text(raw.zero_albedo)});
  }
  if (raw.zero_infrared > 0) {
    notes.push_back(
        {0, "horizontal infrared 0 treated as missing in " + hours_text(raw.zero_infrared)});
  }
}
}  // namespace

WeatherYear assemble(RawYear raw, const SiteOverrides& overrides, FaultList& faults) {
  WeatherYear year;
  year.format = raw.format;
  year.hours_in_file = static_cast<int>(raw.rows.size());
  year.notes = std::move(raw.notes);
  resolve_place(raw, overrides, year, faults);
  check_order(raw, faults);
  // A reader that stopped early has already said why; the number of hours would only confuse.
  if (faults.empty() && raw.rows.size() < static_cast<std::size_t>(kFewestHours)) {
    faults.add(0, "hours", std::to_string(raw.rows.size()), "8760, or 8784 with 29 February");
  }
  faults.throw_if_any();
  SlotYear slots = lay_out_slots(raw, year.notes);
  complete_air(slots, year.place.elevation_m, year.notes);
  fill_gaps(slots, overrides.allow_long_gaps, year.notes, faults);
  faults.throw_if_any();
  lay_out_hours(raw, slots, year);
  note_peculiarities(raw, year.notes);
  return year;
}
}  // namespace ovendays::weather
