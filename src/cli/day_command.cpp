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

season::DayQuestion question_of(const Arguments& arguments, const season::Case& c) {
  season::DayQuestion question;
  question.day_index = chosen_day(arguments);
  question.task = chosen_task(arguments, task_names(c));
  question.load_s = chosen_clock(arguments, "load");
  const double finish_by_s = c.tasks[question.task].finish_by_s;
  if (question.load_s && (*question.load_s < 60.0 || *question.load_s >= finish_by_s)) {
    throw UsageError("--load: " + *arguments.value("load") + ", allowed 00:01 to before " +
                     base::clock_text(finish_by_s) + ", when the task must be finished");
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
  // A wrong date is reported before any file is read.
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
  return {
      .name = "day",
      .synopsis = {"day CASE.toml --date MM-DD [options]", "day --demo --date MM-DD [options]"},
      .summary = "follow one task through one day, minute by minute",
      .about =
          "Follows one cook minute by minute: temperatures of oven, vessel and food, light on "
          "the glass, shade, loading, target and finish. It plots them in the terminal and can "
          "also write a table, a picture or a page. The cook is the one that the season reports "
          "for that day, unless --load gives another loading time.",
      .options = {{"date", "MM-DD", "day of the year (required)"},
                  {"task", "NAME", "a task of the case, or part of its name (default: the first)"},
                  {"load",
                   "HH:MM",
                   "loading time, local standard time (default: that of the season)"},
                  weather_option(),
                  {"csv", "FILE", "also write a table with one row a minute"},
                  {"svg", "FILE", "also write a picture"},
                  {"html", "FILE", "also write a self-contained HTML page"},
                  units_option(),
                  demo_option()},
      .examples = {"ovendays day --demo --date 10-21 --task rice",
                   "ovendays day my-yard.toml --date 06-21 --load 10:15 --html midsummer.html"},
      .run = run_day};
}
}  // namespace ovendays::cli
