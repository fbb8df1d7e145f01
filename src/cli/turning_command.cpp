// SPDX-License-Identifier: MIT
#include <algorithm>
#include <sstream>

#include "commands.h"
#include "inputs.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/report/question_report.h"
#include "ovendays/study/study_arrays.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
using study::Turning;

constexpr double kLeast_s = 60.0, kMost_s = 12.0 * 3600.0;
constexpr std::size_t kMostIntervals = 40;

/// Reads the intervals of --every, separated by commas. "Once a day" and "never" are always added.
std::vector<Turning> chosen_turnings(const Arguments& arguments) {
  const auto list = arguments.value("every");
  if (!list) return study::usual_turnings();
  std::vector<Turning> turnings;
  std::istringstream parts(*list);
  for (std::string part; std::getline(parts, part, ',');) {
    const auto every_s = base::parse_quantity(part, base::Dimension::kTime);
    if (!every_s) {
      throw UsageError("--every: " + base::quantity_complaint(part, base::Dimension::kTime));
    }
    if (!(*every_s >= kLeast_s && *every_s <= kMost_s)) {
      throw UsageError("--every: " + part + ", allowed 1 min to 12 h");
    }
    turnings.push_back({Turning::Kind::kEvery, *every_s});
  }
  if (turnings.empty() || turnings.size() > kMostIntervals) {
    throw UsageError("--every: allowed 1 to 40 intervals, such as '15 min, 1 h'");
  }
  std::stable_sort(turnings.begin(), turnings.end(), [](const Turning& a, const Turning& b) {
    return a.every_s < b.every_s;
  });
  turnings.push_back({Turning::Kind::kOnce, 0.0});
  turnings.push_back({Turning::Kind::kNever, 0.0});
  return turnings;
}

/// Refuses an oven that cannot turn before the long run, which would print equal columns.
void require_turning(const season::Case& c) {
  if (!study::turning_is_idle(c.oven)) return;
  throw base::InputError(
      base::Fault{c.file,
                  0,
                  "oven.aim",
                  "the oven does not turn and has one notch",
                  "turns = true, or several notches; otherwise turning cannot change anything"});
}

void run_turning(const Arguments& arguments) {
  const std::vector<Turning> turnings = chosen_turnings(arguments);
  season::SeasonOptions options;
  options.threads = chosen_threads(arguments);
  const season::Case c = chosen_case(arguments);
  require_turning(c);
  const auto out = arguments.value("out");
  const auto svg = arguments.value("svg");
  Outputs outputs;
  add_inputs(arguments, c, outputs);
  if (out) outputs.add("--out", *out);
  if (svg) outputs.add("--svg", *svg);
  outputs.check();
  const weather::WeatherYear year = chosen_weather(arguments, c);

  const std::vector<std::string> names = task_names(c);
  Progress progress;
  options.progress = [&progress](double share_done) { progress.show(share_done); };
  const std::vector<study::TurningDays> rows = study::days_by_turning(c, year, turnings, options);
  std::string text = report::turning_table(rows, names, terminal_width()) + "\n";
  if (out) {
    results::write_arrays(*out, study::turning_file(rows, names), c, year);
    text += "Written: " + *out + "\n";
  }
  if (svg) {
    base::write_file(*svg, report::turning_svg(rows, names));
    text += "Written: " + *svg + "\n";
  }
  print(text);
}
}  // namespace

CommandSpec turning_command() {
  return {.name = "turning",
          .synopsis = {"turning CASE.toml [options]", "turning --demo [options]"},
          .summary = "find how often to turn the oven: days for each interval between turns",
          .about =
              "Simulates the season with the oven turned towards the sun at several intervals, "
              "once a day towards the noon sun, and never (facing as the routine says). For each "
              "task it prints the days, the number of turns during a cook, and the longest "
              "interval that costs at most one day in fifty.",
          .options = {{"every",
                       "LIST",
                       "intervals to try, such as '15 min, 1 h' (default: 10 min to 4 h)"},
                      {"out", "FILE.h5", "also write the days by month"},
                      {"svg", "FILE", "also write a picture with a curve for each task"},
                      weather_option(),
                      threads_option(),
                      demo_option()},
          .examples = {"ovendays turning my-yard.toml --svg turning.svg",
                       "ovendays turning --demo --every '15 min, 1 h, 3 h'"},
          .run = run_turning};
}
}  // namespace ovendays::cli
