// SPDX-License-Identifier: MIT
#include <cmath>
#include <cstdint>

#include "columns.h"
#include "file_parts.h"
#include "h5.h"
#include "read_sealed.h"

namespace ovendays::results {
namespace {
using h5::Reader;

double read_scalar(const Reader& in, const std::string& name) {
  return in.values<double>(name, 1).front();
}

void read_season_head(const Reader& in, StoredSeason& stored) {
  const double format = in.number_attribute("/", "ovendays_format");
  if (format != kFormat) {
    throw h5::Failure("layout " + std::to_string(static_cast<long>(format)) +
                      ", this program reads layout " + std::to_string(kFormat));
  }
  stored.program_version = in.text_attribute("/", "ovendays_version");
  season::SeasonResult& r = stored.result;
  r.site_name = in.text_attribute("/", "site_name");
  r.spot_name = in.text_attribute("/", "spot_name");
  r.oven_name = in.text_attribute("/", "oven_name");
  r.place = {.name = in.text_attribute("/", "place_name"),
             .latitude_rad = read_scalar(in, "latitude_rad"),
             .longitude_rad = read_scalar(in, "longitude_rad"),
             .elevation_m = read_scalar(in, "elevation_m"),
             .utc_offset_s = read_scalar(in, "utc_offset_s")};
  r.boiling_K = read_scalar(in, "boiling_K");
  r.memory_K = read_scalar(in, "memory_K");
}

void read_inputs(const Reader& in, StoredSeason& stored) {
  stored.case_file = in.text_attribute("inputs", "case_file");
  stored.case_text = in.text("inputs/case_text");
  stored.case_sha256 = in.text_attribute("inputs/case_text", "sha256");
  // Texts carry no checksum of HDF5's own.
  if (base::sha256_hex(stored.case_text) != stored.case_sha256) {
    throw h5::Failure("inputs/case_text: the text does not agree with its SHA-256");
  }
  const std::string notes = in.text("inputs/notes");
  for (std::size_t at = 0; at < notes.size();) {
    const std::size_t end = std::min(notes.find('\n', at), notes.size());
    stored.result.notes.push_back(notes.substr(at, end - at));
    at = end + 1;
  }
}

void read_season_tasks(const Reader& in, StoredSeason& stored) {
  season::SeasonResult& r = stored.result;
  r.task_names = in.texts("task");
  const std::size_t count = r.task_names.size();
  stored.tasks.resize(count);
  const auto spoils = in.values<std::uint8_t>("task_spoils", count);
  for (std::size_t i = 0; i < count; ++i) {
    stored.tasks[i].name = r.task_names[i];
    stored.tasks[i].spoils = spoils[i] != 0;
  }
  for (const TaskText& column : task_texts()) {
    const std::vector<std::string> texts = in.texts(column.name);
    if (texts.size() != count) throw h5::Failure(std::string(column.name) + ": wrong length");
    for (std::size_t i = 0; i < count; ++i) stored.tasks[i].*column.member = texts[i];
  }
  for (const TaskColumn& column : task_columns()) {
    const auto numbers = in.values<double>(column.name, count);
    for (std::size_t i = 0; i < count; ++i) {
      const bool none = column.may_lack && std::isnan(numbers[i]);
      stored.tasks[i].*column.member = none ? -1.0 : numbers[i];
    }
  }
  for (const StoredTask& t : stored.tasks) r.task_target_K.push_back(t.used_target_K);
}

void read_outcomes(const Reader& in, season::SeasonResult& r) {
  const std::size_t count = r.task_names.size() * season::kDays;
  const auto outcomes = in.values<std::uint8_t>("outcome", count);
  const auto causes = in.values<std::uint8_t>("cause", count);
  const auto windows = in.values<std::uint16_t>("window_count", count);
  r.days.resize(count);
  for (std::size_t i = 0; i < count; ++i) {
    // A value outside the enumeration must not become one by a cast.
    if (outcomes[i] >= season::kOutcomes) throw h5::Failure("outcome: unknown value");
    if (causes[i] >= season::kCauses) throw h5::Failure("cause: unknown value");
    r.days[i].outcome = static_cast<season::Outcome>(outcomes[i]);
    r.days[i].cause = static_cast<season::Cause>(causes[i]);
    r.days[i].window_count = windows[i];
  }
  for (const TaskDayColumn& column : task_day_columns()) {
    const auto numbers = in.values<float>(column.name, count);
    for (std::size_t i = 0; i < count; ++i) {
      const bool none = column.may_lack && std::isnan(numbers[i]);
      r.days[i].*column.member = none ? -1.0F : numbers[i];
    }
  }
}

void read_oven_trace(const Reader& in, season::SeasonResult& r) {
  r.hours.assign(kHours, {});
  for (const HourColumn& column : hour_columns()) {
    const auto numbers = in.values<float>(column.name, kHours);
    for (std::size_t i = 0; i < kHours; ++i) r.hours[i].*column.member = numbers[i];
  }
  const auto absorbed = in.values<float>("absorbed_W", kHours * oven::kSurfaces);
  for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
    for (std::size_t i = 0; i < kHours; ++i) r.hours[i].absorbed_W[s] = absorbed[s * kHours + i];
  }
  for (const DayColumn& column : day_columns()) {
    const auto numbers = in.values<float>(column.name, r.day.size());
    for (std::size_t i = 0; i < r.day.size(); ++i) r.day[i].*column.member = numbers[i];
  }
}

season::AuditTotal read_audit(const Reader& in) {
  return {.worst_share = read_scalar(in, "audit/worst_share"),
          .in_J = read_scalar(in, "audit/in_J"),
          .out_J = read_scalar(in, "audit/out_J"),
          .stored_J = read_scalar(in, "audit/stored_J"),
          .residual_J = read_scalar(in, "audit/residual_J"),
          .runs = static_cast<long>(read_scalar(in, "audit/runs")),
          .steps = static_cast<long>(read_scalar(in, "audit/steps")),
          .rejected = static_cast<long>(read_scalar(in, "audit/rejected"))};
}

StoredSeason read_season_parts(const Reader& in) {
  StoredSeason stored;
  read_season_head(in, stored);
  read_inputs(in, stored);
  read_season_tasks(in, stored);
  read_outcomes(in, stored.result);
  read_oven_trace(in, stored.result);
  stored.result.audit = read_audit(in);
  stored.weather.place = stored.result.place;
  read_weather_group(in, stored.weather);
  // Seasons without optical tables or masks lack these groups.
  if (in.has("load")) stored.result.load_names = in.texts("load");
  if (in.has("acceptance")) stored.tables = read_tables(in);
  if (in.has("sky_mask")) {
    read_masks(in, stored.result.mask_january, stored.result.mask_july);
  }
  return stored;
}
}  // namespace

StoredSeason read_results(const std::string& file) {
  return read_sealed(file, "season", read_season_parts);
}
}  // namespace ovendays::results
