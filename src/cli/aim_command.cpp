// SPDX-License-Identifier: MIT
#include <cmath>

#include "commands.h"
#include "inputs.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/file.h"
#include "ovendays/report/day_report.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
// Accepts "9E", "2.5 W", or a signed angle with east positive.
std::optional<double> declination_of(const Arguments& arguments) {
  const auto text = arguments.value("declination");
  if (!text) return std::nullopt;
  const char last = text->back();
  const bool lettered = last == 'E' || last == 'W';
  const std::string number = lettered ? text->substr(0, text->size() - 1) : *text;
  const auto angle_rad = base::parse_quantity(number, base::Dimension::kAngle);
  const bool sound =
      angle_rad && std::abs(*angle_rad) <= base::kPi && !(lettered && *angle_rad < 0.0);
  if (!sound)
    throw UsageError("--declination: '" + *text +
                     "', allowed degrees with E or W, such as 9E or 2.5W");
  return last == 'W' ? -*angle_rad : *angle_rad;
}

void run_aim(const Arguments& arguments) {
  const report::ReportOptions options = report_options(arguments);
  const int day = chosen_day(arguments);
  const auto declination_rad = declination_of(arguments);
  season::Case c = chosen_case(arguments);
  if (declination_rad) c.declination_rad = declination_rad;
  const auto target = arguments.value("html");
  Outputs outputs;
  add_inputs(arguments, c, outputs);
  if (target) outputs.add("--html", *target);
  outputs.check();
  std::optional<std::size_t> task;
  if (arguments.value("task")) task = chosen_task(arguments, task_names(c));
  const season::AimCard card = season::make_aim_card(c, chosen_weather(arguments, c), day, task);
  if (target) base::write_file(*target, report::aim_page(card, options));
  print(report::aim_table(card, options) + (target ? "Written: " + *target + "\n" : ""));
}
}  // namespace

CommandSpec aim_command() {
  return {
      .name = "aim",
      .synopsis = {"aim CASE.toml --date MM-DD [options]", "aim --demo --date MM-DD [options]"},
      .summary = "print an aiming card for one day: bearings, notches, shadow check",
      .about =
          "Lists when to turn the oven on one day and which way, following the routine of the "
          "case: true and compass bearing, tilt and notch of the prop, the hours in which the "
          "sun reaches the oven, and the length of a peg's shadow as a check.",
      .options = {{"date", "MM-DD", "day of the year (required)"},
                  {"task",
                   "NAME",
                   "a task whose notches to keep to (default: those that some task can use)"},
                  {"declination",
                   "9E|9W",
                   "magnetic declination at the site (default: [site] declination of the case)"},
                  weather_option(),
                  {"html", "FILE", "also write the card as a page that prints on one sheet"},
                  demo_option()},
      .examples = {"ovendays aim --demo --date 10-21 --declination 8E",
                   "ovendays aim my-yard.toml --date 06-21 --html card.html"},
      .run = run_aim};
}
}  // namespace ovendays::cli
