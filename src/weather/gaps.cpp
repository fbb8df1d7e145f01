// SPDX-License-Identifier: MIT
#include "gaps.h"

#include <cmath>
#include <span>
#include <utility>

#include "text_scan.h"

namespace ovendays::weather {
namespace {
constexpr std::array<Column, 7> kRequiredColumns = {
    kGhi, kDni, kDhi, kDryBulb, kDewPoint, kWind, kPressure};

struct Run {
  int begin = 0;  ///< first missing slot
  int length = 0;
};

std::size_t ring(int slot, int size) {
  return static_cast<std::size_t>(((slot % size) + size) % size);
}

// The year wraps around: a gap over New Year is filled between the end of December and the
// beginning of January.
bool missing_at(const SlotYear& slots, Column column, int slot) {
  return std::isnan(slots.values[ring(slot, static_cast<int>(slots.values.size()))][column]);
}

// Runs of consecutive missing values; a run across the end of the year counts as one. If the column
// has no value at all, `none` is set and the result is empty.
std::vector<Run> missing_runs(const SlotYear& slots, Column column, bool& none) {
  const int size = static_cast<int>(slots.values.size());
  int anchor = 0;  // the first slot that has a value, where the search starts
  while (anchor < size && missing_at(slots, column, anchor)) ++anchor;
  none = anchor == size;
  std::vector<Run> runs;
  if (none) return runs;
  for (int i = 1; i <= size; ++i) {
    const int slot = anchor + i;
    if (!missing_at(slots, column, slot)) continue;
    if (!runs.empty() && runs.back().begin + runs.back().length == slot) {
      ++runs.back().length;
    } else {
      runs.push_back({slot, 1});
    }
  }
  return runs;
}

// For long gaps. A straight line would have no daily course, but the neighbouring days have one.
double same_hour_nearby(const std::vector<ColumnValues>& original, Column column, int slot) {
  const int size = static_cast<int>(original.size());
  const auto nearest = [&](int direction) {
    for (int day = 1; day < 366; ++day) {
      const double value = original[ring(slot + direction * 24 * day, size)][column];
      if (!std::isnan(value)) return value;
    }
    return kMissing;
  };
  return 0.5 * (nearest(-1) + nearest(1));
}

// Fills a gap from original values only, so that no fill depends on that of another gap.
void fill_run(SlotYear& slots,
              const std::vector<ColumnValues>& original,
              Column column,
              const Run& run) {
  const int size = static_cast<int>(slots.values.size());
  const double before = original[ring(run.begin - 1, size)][column];
  const double after = original[ring(run.begin + run.length, size)][column];
  for (int k = 0; k < run.length; ++k) {
    const std::size_t slot = ring(run.begin + k, size);
    const double part = static_cast<double>(k + 1) / static_cast<double>(run.length + 1);
    const double linear = before + part * (after - before);
    const double nearby = run.length > kLongestFilledGap_h
                              ? same_hour_nearby(original, column, run.begin + k)
                              : kMissing;
    slots.values[slot][column] = std::isnan(nearby) ? linear : nearby;
    slots.filled[slot] = 1;
  }
}

// True if whole rows are missing. Such a gap is the same in every column and reported only once.
bool is_row_gap(const SlotYear& slots, const Run& run) {
  const int size = static_cast<int>(slots.values.size());
  for (int k = 0; k < run.length; ++k) {
    if (slots.line[ring(run.begin + k, size)] != 0) return false;
  }
  return true;
}

void fill_column(SlotYear& slots,
                 Column column,
                 bool allow_long,
                 std::vector<WeatherNote>& notes,
                 FaultList& faults) {
  bool none = false;
  const std::vector<Run> runs = missing_runs(slots, column, none);
  if (none) {
    faults.add(0, column_name(column), "no value in the whole file");
    return;
  }
  if (runs.empty()) return;
  const std::vector<ColumnValues> original = slots.values;
  const int size = static_cast<int>(slots.values.size());
  int short_hours = 0;
  int long_hours = 0;
  int first_line = 0;
  for (const Run& run : runs) {
    const int line = slots.line_before[ring(run.begin, size)];
    if (run.length > kLongestFilledGap_h && !allow_long) {
      const bool rows = is_row_gap(slots, run);
      if (rows && column != kGhi) continue;
      faults.add(line,
                 rows ? "rows" : column_name(column),
                 "missing for " + hours_text(run.length),
                 "gaps of at most " + hours_text(kLongestFilledGap_h) +
                     ", longer ones only with allow_long_gaps");
      continue;
    }
    fill_run(slots, original, column, run);
    (run.length > kLongestFilledGap_h ? long_hours : short_hours) += run.length;
    if (first_line == 0) first_line = line;
  }
  const std::string name = column_name(column);
  if (short_hours > 0) {
    notes.push_back(
        {first_line, name + ": " + hours_text(short_hours) + " filled by interpolation"});
  }
  if (long_hours > 0) {
    notes.push_back({first_line,
                     name + ": " + hours_text(long_hours) +
                         " in long gaps filled from the same hour of the days around"});
  }
}
}  // namespace

void fill_gaps(SlotYear& slots,
               bool allow_long,
               std::vector<WeatherNote>& notes,
               FaultList& faults) {
  for (const Column column : kRequiredColumns) {
    fill_column(slots, column, allow_long, notes, faults);
  }
}
}  // namespace ovendays::weather
