// SPDX-License-Identifier: MIT
#include <functional>

#include "commands.h"
#include "inputs.h"
#include "ovendays/base/calendar.h"
#include "ovendays/base/file.h"
#include "ovendays/report/day_report.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
using Make = std::string (*)(const season::DayTrace& trace, const report::ReportOptions& options);
struct DayTarget {
  const char* option;
  Make make;
};
constexpr DayTarget kTargets[] = {
    {"csv", report::day_csv}, {"svg", report::day_svg}, {"html", report::day_page}};

std::vector<std::string> names_of(const std::vector<task::Task>& tasks) {
  std::vector<std::string> names;
  names.reserve(tasks.size());
  for (const task::Task& each : tasks) names.push_back(each.name);
  return names;
}

season::DayQuestion question_of(const Arguments& arguments, const season::Case& c) {
  season::DayQuestion question;
  question.day_index = chosen_day(arguments);
  question.task = chosen_task(arguments, names_of(c.tasks));
  question.load_s = chosen_clock(arguments, "load");
  const double finish_by_s = c.tasks[question.task].finish_by_s;
  if (question.load_s && (*question.load_s < 60.0 || *question.load_s >= finish_by_s)) {
    throw UsageError("--load: " + *arguments.value("load") + ", allowed 00:01 to before " +
                     base::clock_text(finish_by_s) + ", when the task is to be done");
  }
  return question;
}

void check_day_targets(const Arguments& arguments, const season::Case& c) {
  Outputs outputs;
  add_inputs(arguments, c, outputs);
  for (const DayTarget& target : kTargets) {
    if (const auto file = arguments.value(target.option))
      outputs.add(std::string("--") + target.option, *file);
  }
  outputs.check();
}

void run_day(const Arguments& arguments) {
  const report::ReportOptions options = report_options(arguments);
  // A slip in the date is told before any file is read.
  (void)chosen_day(arguments);
  const season::Case c = chosen_case(arguments);
  const season::DayQuestion question = question_of(arguments, c);
  check_day_targets(arguments, c);
  const weather::WeatherYear year = chosen_weather(arguments, c);
  const season::DayTrace trace = season::trace_one_day(c, year, question, {});
  std::string text = report::day_table(trace, options);
  for (const DayTarget& target : kTargets) {
    const auto file = arguments.value(target.option);
    if (!file) continue;
    base::write_file(*file, target.make(trace, options));
    text += "Written: " + *file + "\n";
  }
  print(text);
}
}  // namespace

CommandSpec day_command() {
  return {.name = "day",
          .synopsis = {"day CASE.toml --date MM-DD [options]", "day --demo --date MM-DD [options]"},
          .summary = "follow one task through one day, minute by minute",
          .about =
              "The day behind a number: temperatures of oven, vessel and food, the light on the "
              "glass, shade, loading, target and finish, as a plot in the terminal and on request "
              "as a table with a row a minute, a picture or a page. The cook is the one that the "
              "season tells of, unless --load asks for another.",
          .options = {{"date", "MM-DD", "the day"},
                      {"task", "NAME", "of the case's tasks (the first); a part of it will do"},
                      {"load", "HH:MM", "load it then (when the season does), standard time"},
                      weather_option(),
                      {"csv", "FILE", "also a table with a row a minute"},
                      {"svg", "FILE", "also a picture"},
                      {"html", "FILE", "also a page that stands alone"},
                      units_option(),
                      demo_option()},
          .examples = {"ovendays day --demo --date 10-21 --task rice",
                       "ovendays day my-yard.toml --date 06-21 --load 10:15 --html midsummer.html"},
          .run = run_day};
}
}  // namespace ovendays::cli
