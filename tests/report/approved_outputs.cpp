// SPDX-License-Identifier: MIT
#include "approved_outputs.h"

#include <regex>
#include <sstream>
#include <stdexcept>

#include "../cli/run_program.h"
#include "made_season.h"
#include "ovendays/report/report.h"
#include "ovendays/report/weather_report.h"

namespace ovendays::test {
namespace {

/// The heading and every 13th row: 365 and 13 share no factor, so that all tasks, months and
/// outcomes come by.
std::string some_rows(const std::string& csv) {
  constexpr int kEvery = 13;
  std::istringstream in(csv);
  std::string some;
  int row = 0;
  for (std::string line; std::getline(in, line); ++row) {
    if (row % kEvery == 0) some += line + "\n";
  }
  return some;
}

/// Numbers that depend on the model are not this test's concern: "0.097" becomes "#". Digits that
/// follow a letter belong to a name or a unit and stay: F1, P50, m2.
std::string without_figures(const std::string& text) {
  return std::regex_replace(text, std::regex("(^|[^A-Za-z0-9.])[0-9]+(\\.[0-9]+)?"), "$1#");
}

std::string said_by(const ScratchFolder& folder, const std::string& words) {
  const ProgramRun ran = folder.run(words);
  if (ran.code != 0) throw std::runtime_error("ovendays " + words + ": " + ran.err);
  return ran.out;
}

/// The check of a year whose irradiance does not fit the sun, so that it has findings, missing
/// columns and notes.
std::string weather_text(const weather::WeatherYear& year) {
  return report::weather_table(year, weather::check_weather(year), 80);
}
}  // namespace

std::map<std::string, std::string> outputs_to_approve() {
  const MadeSeason made = made_season();
  const results::StoredSeason season = results::stored_season(made.c, made.year, made.result);
  // Ranges and times of all tasks but the last, which has none.
  results::StoredSeason ranged = season;
  std::vector<season::TaskRange> ranges(ranged.tasks.size());
  for (std::size_t t = 0; t + 1 < ranges.size(); ++t) {
    const auto n = static_cast<double>(t);
    ranges[t] = {.draws = 12,
                 .low_days = 100 + n,
                 .median_days = 150 + n,
                 .high_days = 190 + n,
                 .typical_load_s = 36000,
                 .done_in_s = 5400 + 60 * n,
                 .slow_s = 9000 + 60 * n};
  }
  results::add_ranges(ranges, ranged);
  report::ReportOptions american;
  american.unit = report::TemperatureUnit::kFahrenheit;
  american.width = 110;
  const ScratchFolder folder;
  said_by(folder, "new my.toml");
  return {{"season_80_celsius.txt", report::season_table(season)},
          {"season_110_fahrenheit.txt", report::season_table(ranged, american)},
          {"season_celsius.csv", some_rows(report::season_csv(season))},
          {"season_fahrenheit.csv", some_rows(report::season_csv(season, american))},
          {"weather.txt", weather_text(made.year)},
          {"rate.txt", without_figures(said_by(folder, "rate my.toml"))}};
}
}  // namespace ovendays::test
