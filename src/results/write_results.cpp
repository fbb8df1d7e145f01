// SPDX-License-Identifier: MIT
#include <cstdint>
#include <limits>
#include <numeric>
#include <utility>

#include "columns.h"
#include "file_parts.h"
#include "h5.h"
#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "seal.h"
#include "study_layout.h"

namespace ovendays::results {
namespace {
using h5::Writer;
using Dims = std::vector<std::string>;

const Dims kTaskDayDims = {"task", "day"};

std::vector<std::int32_t> counting(std::size_t count, std::int32_t first) {
  std::vector<std::int32_t> numbers(count);
  std::iota(numbers.begin(), numbers.end(), first);
  return numbers;
}

void count_dimension(Writer& out,
                     const std::string& name,
                     const std::vector<std::int32_t>& numbers,
                     const h5::Label& label) {
  out.dimension<std::int32_t>(name, numbers, label);
}

void write_season_head(Writer& out, const StoredSeason& stored) {
  const season::SeasonResult& r = stored.result;
  out.attribute("/", "Conventions", std::string("CF-1.8"));
  out.attribute("/", "title", "A season of a box solar oven: " + r.site_name + ", " + r.spot_name);
  out.attribute("/", "source", "simulated by ovendays " + stored.program_version);
  out.attribute("/", "ovendays_version", stored.program_version);
  out.attribute("/", "ovendays_format", std::int32_t{kFormat});
  out.attribute("/",
                "comment",
                std::string("A typical year of 365 days, laid on the calendar of 2001. All times "
                            "are local standard time."));
  out.attribute("/", "site_name", r.site_name);
  out.attribute("/", "spot_name", r.spot_name);
  out.attribute("/", "oven_name", r.oven_name);
  out.attribute("/", "place_name", r.place.name);
}

void write_season_dimensions(Writer& out, const StoredSeason& stored) {
  out.dimension("task", stored.result.task_names, {"task", ""});
  count_dimension(
      out, "day", counting(season::kDays, 0), {"day of the year", "days since 2001-01-01"});
  count_dimension(
      out, "hour", counting(kHours, 0), {"start of the hour", "hours since 2001-01-01"});
  count_dimension(out, "month", counting(12, 1), {"month of the year", "1"});
  out.dimension("surface",
                {"pane 0 (outermost)", "pane 1", "pane 2", "liner", "tray", "vessel", "food"},
                {"surface that absorbs", ""});
  if (!stored.result.load_names.empty()) {
    out.dimension("load", stored.result.load_names, {"what stands in the oven", ""});
  }
}

void write_scalar(Writer& out, const std::string& name, double value, const h5::Label& label) {
  out.values<double>(name, std::span(&value, 1), {}, label);
}

void write_place(Writer& out, const StoredSeason& stored) {
  const sun::Place& place = stored.result.place;
  write_scalar(
      out, "latitude", place.latitude_rad * base::kDegPerRad, {"latitude", "degrees_north"});
  write_scalar(
      out, "longitude", place.longitude_rad * base::kDegPerRad, {"longitude", "degrees_east"});
  // Degrees are for readers of CF; converting them back would lose the last bit.
  write_scalar(out, "latitude_rad", place.latitude_rad, {"latitude, to the last bit", "rad"});
  write_scalar(out, "longitude_rad", place.longitude_rad, {"longitude, to the last bit", "rad"});
  write_scalar(out, "elevation_m", place.elevation_m, {"site above the sea", "m"});
  write_scalar(out, "utc_offset_s", place.utc_offset_s, {"local standard time less UTC", "s"});
  write_scalar(
      out, "boiling_K", stored.result.boiling_K, {"boiling point of water at the site", "K"});
}

void write_memory(Writer& out, const StoredSeason& stored) {
  write_scalar(out,
               "memory_K",
               stored.result.memory_K,
               {"what is left of one day on the oven at the next day's first loading", "K"});
}

void write_season_tasks(Writer& out, const StoredSeason& stored) {
  for (const TaskText& column : task_texts()) {
    std::vector<std::string> texts;
    for (const StoredTask& t : stored.tasks) texts.push_back(t.*column.member);
    out.texts(column.name, texts, "task", {column.long_name, column.units});
  }
  for (const TaskColumn& column : task_columns()) {
    std::vector<double> numbers;
    for (const StoredTask& t : stored.tasks) {
      const double value = t.*column.member;
      numbers.push_back(column.may_lack && value < 0 ? std::numeric_limits<double>::quiet_NaN()
                                                     : value);
    }
    const h5::Label label{column.long_name, column.units};
    if (column.may_lack) {
      // Whole days and seconds are exact in single precision.
      std::vector<float> whole;
      for (const double number : numbers) whole.push_back(static_cast<float>(number));
      out.values_or_none(column.name, whole, {"task"}, label);
    } else {
      out.values<double>(column.name, numbers, {"task"}, label);
    }
  }
  std::vector<std::uint8_t> spoils;
  for (const StoredTask& t : stored.tasks) spoils.push_back(t.spoils ? 1 : 0);
  out.flags("task_spoils", spoils, {"task"}, {"the food spoils", ""}, {"no", "yes"});
}

void write_flags(Writer& out, const std::vector<season::DayTask>& days) {
  std::vector<std::uint8_t> outcomes;
  std::vector<std::uint8_t> causes;
  std::vector<std::uint16_t> counts;
  for (const season::DayTask& day : days) {
    outcomes.push_back(static_cast<std::uint8_t>(day.outcome));
    causes.push_back(static_cast<std::uint8_t>(day.cause));
    counts.push_back(day.window_count);
  }
  out.flags("outcome", outcomes, kTaskDayDims, {"what became of the task", ""}, outcome_words());
  out.flags("cause", causes, kTaskDayDims, {"why it was not cooked", ""}, cause_words());
  out.values<std::uint16_t>(
      "window_count", counts, kTaskDayDims, {"number of loading times that work", "1"});
}

void write_outcomes(Writer& out, const StoredSeason& stored) {
  const std::vector<season::DayTask>& days = stored.result.days;
  write_flags(out, days);
  std::vector<float> numbers(days.size());
  for (const TaskDayColumn& column : task_day_columns()) {
    for (std::size_t i = 0; i < days.size(); ++i) {
      const float value = days[i].*column.member;
      numbers[i] = column.may_lack && value < 0 ? std::numeric_limits<float>::quiet_NaN() : value;
    }
    const h5::Label label{column.long_name, column.units};
    if (column.may_lack) {
      out.values_or_none(column.name, numbers, kTaskDayDims, label);
    } else {
      out.values<float>(column.name, numbers, kTaskDayDims, label);
    }
  }
}

// Redundant: saves users of the file the counting.
void write_month_counts(Writer& out, const StoredSeason& stored) {
  std::vector<std::int32_t> cooked;
  for (std::size_t t = 0; t < stored.tasks.size(); ++t) {
    const season::TaskCounts counts = season::count_task(stored.result, t);
    for (std::size_t month = 0; month < 12; ++month) {
      cooked.push_back(counts.outcomes[month][0]);
    }
  }
  out.values<std::int32_t>(
      "days_cooked", cooked, {"task", "month"}, {"days of the month on which it is cooked", "1"});
}

void write_oven_trace(Writer& out, const season::SeasonResult& result) {
  std::vector<float> numbers(result.hours.size());
  for (const HourColumn& column : hour_columns()) {
    for (std::size_t i = 0; i < numbers.size(); ++i) {
      numbers[i] = result.hours[i].*column.member;
    }
    out.values<float>(column.name, numbers, {"hour"}, {column.long_name, column.units});
  }
  // One surface after another, because similar numbers in a row compress better.
  std::vector<float> absorbed;
  for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
    for (const season::HourTrace& hour : result.hours) absorbed.push_back(hour.absorbed_W[s]);
  }
  out.values<float>("absorbed_W",
                    absorbed,
                    {"surface", "hour"},
                    {"sun absorbed by each surface of the empty oven, hour mean", "W"});
  std::vector<float> days(result.day.size());
  for (const DayColumn& column : day_columns()) {
    for (std::size_t i = 0; i < days.size(); ++i) days[i] = result.day[i].*column.member;
    out.values<float>(column.name, days, {"day"}, {column.long_name, column.units});
  }
}

void write_audit(Writer& out, const season::AuditTotal& audit) {
  out.group("audit", "energy bookkeeping of all runs");
  write_scalar(
      out, "audit/worst_share", audit.worst_share, {"largest residual over energy in", "1"});
  write_scalar(out, "audit/in_J", audit.in_J, {"energy taken in", "J"});
  write_scalar(out, "audit/out_J", audit.out_J, {"energy lost", "J"});
  write_scalar(out, "audit/stored_J", audit.stored_J, {"rise of energy stored", "J"});
  write_scalar(out, "audit/residual_J", audit.residual_J, {"sum of absolute residuals", "J"});
  write_scalar(out, "audit/runs", static_cast<double>(audit.runs), {"runs of the integrator", "1"});
  write_scalar(out, "audit/steps", static_cast<double>(audit.steps), {"accepted steps", "1"});
  write_scalar(out, "audit/rejected", static_cast<double>(audit.rejected), {"rejected steps", "1"});
}

void write_inputs(Writer& out, const StoredSeason& stored) {
  out.group("inputs", "what the season was run with");
  out.text("inputs/case_text", stored.case_text, {"the case as read, includes appended", ""});
  out.attribute("inputs/case_text", "sha256", base::sha256_hex(stored.case_text));
  out.attribute("inputs", "case_file", stored.case_file);
}

void write_notes(Writer& out, const StoredSeason& stored) {
  std::string notes;
  for (const std::string& note : stored.result.notes) notes += note + "\n";
  out.text("inputs/notes", notes, {"notes on the run, one a line", ""});
}

void write_parts(Writer& out, const StoredSeason& stored) {
  const season::SeasonResult& r = stored.result;
  write_season_head(out, stored);
  write_season_dimensions(out, stored);
  write_place(out, stored);
  write_season_tasks(out, stored);
  write_oven_trace(out, r);
  write_inputs(out, stored);
  write_weather(out, stored.weather);
  if (!stored.tables.empty()) write_tables(out, stored.tables);
  if (!r.mask_january.sky.empty()) write_masks(out, r.mask_january, r.mask_july);
  write_outcomes(out, stored);
  write_month_counts(out, stored);
  write_memory(out, stored);
  write_audit(out, r.audit);
  write_notes(out, stored);
}

// A season of days_only lacks hours, for instance: writing one is a programming error.
void check_complete(const StoredSeason& stored) {
  const season::SeasonResult& r = stored.result;
  OVENDAYS_CHECK(!stored.tasks.empty() && stored.tasks.size() == r.task_names.size());
  OVENDAYS_CHECK(stored.tables.empty() || stored.tables.size() == r.load_names.size());
  OVENDAYS_CHECK(r.hours.size() == kHours);
  OVENDAYS_CHECK(stored.weather.hours.size() == kHours);
  OVENDAYS_CHECK(r.days.size() == stored.tasks.size() * season::kDays);
}
}  // namespace

void write_results(const std::string& file, const StoredSeason& stored) {
  check_complete(stored);
  const h5::QuietErrors quiet;
  std::string bytes;
  try {
    Writer out;
    write_parts(out, stored);
    bytes = out.finish();
  } catch (const h5::Failure& failure) {
    throw base::RunError(file + ": cannot be made: " + failure.what());
  }
  // HDF5 ignores what follows its own end of file.
  bytes += seal_of(bytes);
  base::write_file(file, bytes);
}

void write_results(const std::string& file,
                   const season::Case& c,
                   const weather::WeatherYear& year,
                   const season::SeasonResult& result) {
  write_results(file, stored_season(c, year, result));
}
}  // namespace ovendays::results
