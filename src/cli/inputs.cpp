// SPDX-License-Identifier: MIT
#include "inputs.h"

#include <charconv>
#include <filesystem>

#include "demo_weather.h"
#include "ovendays/base/calendar.h"

namespace ovendays::cli {
namespace {
// Parses two numbers of two digits with a mark between them; nullopt for anything else.
std::optional<std::pair<int, int>> two_and_two(const std::string& text, char mark) {
  if (text.size() != 5 || text[2] != mark) return std::nullopt;
  std::pair<int, int> found;
  const char* start = text.data();
  const auto first = std::from_chars(start, start + 2, found.first);
  const auto second = std::from_chars(start + 3, start + 5, found.second);
  if (first.ptr != start + 2 || second.ptr != start + 5 || found.first < 0 || found.second < 0)
    return std::nullopt;
  return found;
}
}  // namespace

report::ReportOptions report_options(const Arguments& arguments) {
  report::ReportOptions options;
  options.width = terminal_width();
  const std::string unit = arguments.value("units").value_or("C");
  if (unit == "F") {
    options.unit = report::TemperatureUnit::kFahrenheit;
  } else if (unit != "C") {
    throw UsageError("--units: '" + unit + "', allowed C or F");
  }
  return options;
}

season::Case chosen_case(const Arguments& arguments) {
  if (!arguments.has("demo")) {
    season::Case c = season::read_case(arguments.only_file("a case file, or --demo"));
    if (const auto weather = arguments.value("weather")) c.weather_file = *weather;
    return c;
  }
  if (!arguments.files().empty())
    throw UsageError("--demo brings its own case; leave out the file");
  if (arguments.has("weather"))
    throw UsageError("--demo brings its own weather; leave out --weather");
  return season::read_case_text(season::starter_case(), "demo.toml");
}

weather::WeatherYear chosen_weather(const Arguments& arguments, const season::Case& c) {
  if (!arguments.has("demo")) return season::load_weather(c);
  return weather::make_weather(demo_normals(), kDemoSeed);
}

void add_inputs(const Arguments& arguments, const season::Case& c, Outputs& outputs) {
  if (arguments.has("demo")) return;
  outputs.input(arguments.files().front());
  if (!c.weather_file.empty()) outputs.input(c.weather_file);
}

std::string target_beside(const Arguments& arguments, const std::string& ending) {
  if (arguments.has("demo")) return "demo" + ending;
  std::filesystem::path file = arguments.files().front();
  const std::string stem = file.stem().string();
  return file.replace_filename(stem + ending).string();
}

int chosen_day(const Arguments& arguments) {
  const auto text = arguments.value("date");
  if (!text) throw UsageError("--date is missing; give a day as MM-DD, such as --date 06-21");
  const auto date = two_and_two(*text, '-');
  // 29 February is accepted; a typical year has 365 days and answers with the 28th.
  constexpr int kLeapYear = 2000;
  const bool month = date && date->first >= 1 && date->first <= 12;
  if (!month || date->second < 1 || date->second > base::days_in_month(kLeapYear, date->first)) {
    throw UsageError("--date: '" + *text +
                     "', allowed month and day of the year as MM-DD, such as 06-21");
  }
  return base::day_index_365(date->first, date->second);
}

std::optional<double> chosen_clock(const Arguments& arguments, const std::string& option) {
  const auto text = arguments.value(option);
  if (!text) return std::nullopt;
  const auto time = two_and_two(*text, ':');
  if (!time || time->first > 23 || time->second > 59) {
    throw UsageError("--" + option + ": '" + *text +
                     "', allowed a time of the day as HH:MM, such as 09:30");
  }
  return 3600.0 * time->first + 60.0 * time->second;
}

std::vector<std::string> task_names(const season::Case& c) {
  std::vector<std::string> names;
  names.reserve(c.tasks.size());
  for (const task::Task& task : c.tasks) names.push_back(task.name);
  return names;
}

std::size_t chosen_task(const Arguments& arguments, const std::vector<std::string>& names) {
  const auto wanted = arguments.value("task");
  if (!wanted) return 0;
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (names[i] == *wanted) return i;
    if (names[i].find(*wanted) != std::string::npos) found.push_back(i);
  }
  // Part of a name is enough if only one task contains it.
  if (found.size() == 1) return found.front();
  if (found.empty())
    throw UsageError("--task: there is no '" + *wanted + "'" + suggestion(*wanted, names));
  throw UsageError("--task: '" + *wanted + "' could be '" + names[found[0]] + "' or '" +
                   names[found[1]] + "'");
}

int chosen_threads(const Arguments& arguments) {
  constexpr long kMostThreads = 1024;
  return static_cast<int>(arguments.integer("threads", 1, kMostThreads).value_or(0));
}

OptionSpec weather_option() {
  return {"weather", "FILE", "weather year to use in place of the one that the case names"};
}
OptionSpec units_option() {
  return {.name = "units",
          .value = "C|F",
          .help = "temperatures in degrees Celsius (default) or Fahrenheit",
          .choices = {"C", "F"}};
}
OptionSpec threads_option() {
  return {"threads", "N", "number of threads; it does not affect the results"};
}
OptionSpec demo_option() { return {"demo", "", "use the starter case at an invented place"}; }
}  // namespace ovendays::cli
