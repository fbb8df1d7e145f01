// SPDX-License-Identifier: MIT
#include <fstream>

#include "commands.h"
#include "inputs.h"
#include "ovendays/base/file.h"
#include "ovendays/report/question_report.h"
#include "ovendays/results/results.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {

/// The waits of every task, from the results file of a season or from a case that is run now.
struct Days {
  std::vector<std::string> tasks;
  std::vector<study::WaitingTimes> waits;
};

Days days_of(const season::SeasonResult& result) {
  Days days{result.task_names, {}};
  for (std::size_t t = 0; t < days.tasks.size(); ++t) {
    days.waits.push_back(study::waiting_times(study::days_cooked(result, t)));
  }
  return days;
}

/// Whether the file begins with the signature of HDF5.
bool is_results_file(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  std::string start(8, '\0');
  in.read(start.data(), static_cast<std::streamsize>(start.size()));
  return in && start == "\x89HDF\r\n\x1a\n";
}

/// Simulates outcomes only: waits need neither causes nor temperatures.
Days run_days(const Arguments& arguments, const season::Case& c) {
  Progress progress;
  season::SeasonOptions options;
  options.threads = chosen_threads(arguments);
  options.causes = false;
  options.days_only = true;
  options.progress = [&progress](double share_done) { progress.show(share_done); };
  return days_of(season::run_season(c, chosen_weather(arguments, c), options));
}

void check_outputs(const Arguments& arguments, Outputs& outputs) {
  if (const auto svg = arguments.value("svg")) outputs.add("--svg", *svg);
  outputs.check();
}

Days chosen_days(const Arguments& arguments) {
  Outputs outputs;
  if (!arguments.has("demo")) {
    const std::string& file =
        arguments.only_file("a case file, the results file of a season, or --demo");
    if (is_results_file(file)) {
      if (arguments.has("weather")) {
        throw UsageError("--weather is for a case; a results file contains its weather");
      }
      outputs.input(file);
      check_outputs(arguments, outputs);
      const results::StoredSeason stored = results::read_results(file);
      (void)chosen_task(arguments, stored.result.task_names);
      return days_of(stored.result);
    }
  }
  const season::Case c = chosen_case(arguments);
  (void)chosen_task(arguments, task_names(c));
  add_inputs(arguments, c, outputs);
  check_outputs(arguments, outputs);
  return run_days(arguments, c);
}

void run_wait(const Arguments& arguments) {
  (void)chosen_threads(arguments);
  Days days = chosen_days(arguments);
  const std::size_t task = chosen_task(arguments, days.tasks);
  const auto svg = arguments.value("svg");
  if (svg) base::write_file(*svg, report::waiting_svg(days.waits[task], days.tasks[task]));
  if (arguments.has("task")) days = {{days.tasks[task]}, {days.waits[task]}};
  print(report::waiting_table(days.waits, days.tasks, terminal_width()) +
        (svg ? "\nWritten: " + *svg + "\n" : ""));
}
}  // namespace

CommandSpec wait_command() {
  return {
      .name = "wait",
      .synopsis = {"wait RESULT.h5 [options]", "wait CASE.toml [options]", "wait --demo [options]"},
      .summary = "print the chance that one of the next days works, and the longest wait",
      .about =
          "Prints for each task and month the chance that at least one of the next one to seven "
          "days works, and the longest wait. The input is the results file of a season, or a case, "
          "which is then simulated. Days follow each other as in the weather year, and 31 December "
          "is followed by 1 January.",
      .options = {{"task", "NAME", "only this task; part of its name is enough"},
                  {"svg", "FILE", "also write a picture of the task (default: the first)"},
                  weather_option(),
                  threads_option(),
                  demo_option()},
      .examples = {"ovendays wait my-yard-season.h5 --task bread",
                   "ovendays wait --demo --task rice --svg rice.svg"},
      .run = run_wait};
}
}  // namespace ovendays::cli
