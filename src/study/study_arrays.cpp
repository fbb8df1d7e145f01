// SPDX-License-Identifier: MIT
#include "ovendays/study/study_arrays.h"

#include <cmath>
#include <limits>
#include <numeric>

namespace ovendays::study {
namespace {
using results::ArrayDimension;
using results::ArrayFile;
using results::NamedArray;

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

// A dimension whose coordinates are consecutive numbers.
ArrayDimension numbered(const char* name, const char* long_name, std::size_t count, double first) {
  ArrayDimension dimension{name, long_name, "1", std::vector<double>(count), {}};
  std::iota(dimension.numbers.begin(), dimension.numbers.end(), first);
  return dimension;
}

ArrayDimension months() { return numbered("month", "month of the year", 12, 1.0); }

// A dimension whose coordinates are texts.
ArrayDimension worded(const char* name, const char* long_name, std::vector<std::string> words) {
  return {name, long_name, "", {}, std::move(words)};
}

/// Days cooked in two arrays: by month (the last dimension) and for the year.
struct DaysArrays {
  NamedArray by_month, year;
  void add(const MonthDays& days) {
    by_month.values.insert(by_month.values.end(), days.begin(), days.begin() + 12);
    year.values.push_back(days[12]);
  }
  void put(ArrayFile& file) {
    file.arrays.push_back(std::move(by_month));
    file.arrays.push_back(std::move(year));
  }
};

DaysArrays days_arrays(const std::string& name,
                       const std::string& what,
                       std::vector<std::string> dimensions) {
  DaysArrays arrays;
  arrays.year = {name + "_year", what + " of the year", "1", dimensions, {}};
  dimensions.emplace_back("month");
  arrays.by_month = {name, what + " of the month", "1", std::move(dimensions), {}};
  return arrays;
}

const std::vector<std::string> kPlane = {"y", "x"};

// Places without room are NaN in every array, so that plots leave them blank.
void add_places(const SpotMap& map, ArrayFile& file) {
  DaysArrays days = days_arrays("days_cooked", "days on which it is cooked", kPlane);
  NamedArray wind{"wind_factor", "wind at the oven over that at 10 m in the open", "1", kPlane, {}};
  NamedArray roofed{"roofed", "1 where rain does not reach the oven", "1", kPlane, {}};
  NamedArray facing{"facing_rad", "azimuth the oven faces for good", "rad", kPlane, {}};
  for (const MapPlace& place : map.places) {
    if (place.free) {
      days.add(place.days);
    } else {
      days.by_month.values.insert(days.by_month.values.end(), 12, kNone);
      days.year.values.push_back(kNone);
    }
    wind.values.push_back(place.free ? place.wind_factor : kNone);
    roofed.values.push_back(place.free ? (place.roofed ? 1.0 : 0.0) : kNone);
    facing.values.push_back(place.free ? place.facing_rad : kNone);
  }
  days.put(file);
  file.arrays.push_back(std::move(wind));
  file.arrays.push_back(std::move(roofed));
  if (!map.turns) file.arrays.push_back(std::move(facing));
}
}  // namespace

ArrayFile map_file(const SpotMap& map, const std::string& task_name) {
  ArrayFile file;
  file.title = "Days on which a task is cooked, by standing place: " + task_name;
  file.notes = {{"task", task_name}};
  file.dimensions = {{"y", "north of the plan's origin", "m", map.grid.y_m, {}},
                     {"x", "east of the plan's origin", "m", map.grid.x_m, {}},
                     months()};
  add_places(map, file);
  return file;
}

std::string turning_name(const Turning& turning) {
  switch (turning.kind) {
    case Turning::Kind::kOnce:
      return "once a day";
    case Turning::Kind::kNever:
      return "never";
    case Turning::Kind::kEvery:
      break;
  }
  return "every " + std::to_string(std::lround(turning.every_s / 60.0)) + " min";
}

ArrayFile turning_file(const std::vector<TurningDays>& rows,
                       const std::vector<std::string>& task_names) {
  ArrayFile file;
  file.title = "Days on which tasks are cooked, by how often the oven is turned";
  std::vector<std::string> names;
  NamedArray every{"every_s", "time from one turn to the next", "s", {"turning"}, {}};
  NamedArray turns{
      "turns_a_cook", "turns between loading and finish", "1", {"turning", "task"}, {}};
  DaysArrays days = days_arrays("days_cooked", "days on which it is cooked", {"turning", "task"});
  for (const TurningDays& row : rows) {
    const bool timed = row.turning.kind == Turning::Kind::kEvery;
    names.push_back(turning_name(row.turning));
    every.values.push_back(timed ? row.turning.every_s : kNone);
    for (const TaskTurning& task : row.tasks) {
      turns.values.push_back(timed ? task.turns_a_cook : kNone);
      days.add(task.days);
    }
  }
  file.dimensions = {worded("turning", "how often the oven is turned", names),
                     worded("task", "task", task_names),
                     months()};
  file.arrays = {std::move(every), std::move(turns)};
  days.put(file);
  return file;
}

ArrayFile spread_file(const Spread& spread) {
  ArrayFile file;
  file.title = "Days on which tasks are cooked, over draws of the uncertain inputs";
  std::vector<std::string> keys;
  for (const UncertainInput& input : uncertain_inputs()) {
    keys.emplace_back(input.key);
    file.notes.emplace_back(
        std::string("range_of_") + input.key,
        std::string(input.what) + "; P90 " + std::to_string(input.p90) +
            (std::string(input.unit) == "1" ? "" : std::string(" ") + input.unit) + "; " +
            input.reason);
  }
  NamedArray values{"value", "factor on an input, or shift of it", "1", {"draw", "input"}, {}};
  NamedArray taken{"draw_year", "weather year of the draw", "1", {"draw"}, {}};
  for (const Draw& draw : spread.draws) {
    values.values.insert(values.values.end(), draw.value.begin(), draw.value.end());
    taken.values.push_back(static_cast<double>(draw.year));
  }
  DaysArrays days = days_arrays("days_cooked", "days on which it is cooked", {"task", "draw"});
  DaysArrays years = days_arrays("year_days_cooked",
                                 "days on which it is cooked, the case as it is",
                                 {"task", "weather_year"});
  NamedArray range{"days_percentile", "days of the year", "1", {"task", "percentile"}, {}};
  NamedArray chance{"day_chance", "chance that a day works", "1", {"task", "month"}, {}};
  for (std::size_t t = 0; t < spread.task_names.size(); ++t) {
    for (const MonthDays& draw : spread.days[t]) days.add(draw);
    for (const MonthDays& year : spread.by_year[t]) years.add(year);
    const auto ends = days_range(spread, t, 12);
    range.values.insert(range.values.end(), ends.begin(), ends.end());
    for (std::size_t m = 0; m < 12; ++m) chance.values.push_back(day_chance(spread, t, m));
  }
  file.dimensions = {worded("task", "task", spread.task_names),
                     numbered("draw", "draw", spread.draws.size(), 0.0),
                     months(),
                     worded("input", "uncertain input", keys),
                     worded("weather_year", "file of the weather year", spread.year_files),
                     {"percentile", "percentile of the draws", "percent", {10.0, 50.0, 90.0}, {}}};
  file.arrays = {std::move(values), std::move(taken)};
  days.put(file);
  years.put(file);
  file.arrays.push_back(std::move(range));
  file.arrays.push_back(std::move(chance));
  return file;
}
}  // namespace ovendays::study
