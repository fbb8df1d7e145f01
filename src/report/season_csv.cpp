// SPDX-License-Identifier: MIT
#include "ovendays/base/calendar.h"
#include "words.h"

namespace ovendays::report {
namespace {
std::string clock_or_nothing(float seconds) {
  return seconds < 0 ? "" : base::clock_text(static_cast<double>(seconds));
}

std::string minutes(double seconds) { return fixed(seconds / 60.0, 1); }

std::string row(const std::string& task,
                int day_index,
                const season::DayTask& d,
                TemperatureUnit unit) {
  const base::Date date = base::date_from_day_index_365(day_index);
  const bool done = d.finish_s >= 0;
  const bool loaded = d.load_s >= 0;
  const auto number = [](float value) { return static_cast<double>(value); };
  std::string line = csv_cell(task);
  const auto add = [&line](const std::string& cell) { line += "," + cell; };
  add(std::to_string(day_index + 1));
  add(std::to_string(date.month));
  add(std::to_string(date.day));
  add(season::outcome_name(d.outcome));
  add(season::cause_name(d.cause));
  add(clock_or_nothing(d.load_s));
  add(clock_or_nothing(d.finish_s));
  add(clock_or_nothing(d.window_first_s));
  add(clock_or_nothing(d.window_last_s));
  add(std::to_string(d.window_count));
  add(done ? minutes(number(d.finish_s) - number(d.load_s)) : "");
  add(done ? minutes(number(d.margin_s)) : "");
  add(loaded ? fixed(degrees(number(d.peak_core_K), unit), 1) : "");
  add(loaded ? fixed(degrees_apart(number(d.shortfall_K), unit), 1) : "");
  add(loaded ? fixed(number(d.hold_share), 3) : "");
  add(loaded ? minutes(number(d.danger_s)) : "");
  add(loaded ? fixed(1000.0 * number(d.evaporated_kg), 1) : "");
  return line + "\n";
}
}  // namespace

std::string season_csv(const results::StoredSeason& season, const ReportOptions& options) {
  const std::string unit = options.unit == TemperatureUnit::kCelsius ? "degC" : "degF";
  std::string text =
      "task,day_of_year,month,day,outcome,cause,load,finish,window_first,window_last,window_count,"
      "duration_min,margin_min,peak_core_" +
      unit + ",short_by_" + unit + ",hold_share,danger_min,evaporated_g\n";
  const season::SeasonResult& r = season.result;
  for (std::size_t task = 0; task < r.task_names.size(); ++task) {
    for (int day = 0; day < season::kDays; ++day) {
      text += row(r.task_names[task], day, r.at(task, day), options.unit);
    }
  }
  return text;
}
}  // namespace ovendays::report
