// SPDX-License-Identifier: MIT
// What several commands ask for alike: a case with its weather or the demo, units, a date, a time,
// a task by its name.
#pragma once

#include "arguments.h"
#include "ovendays/report/report.h"
#include "ovendays/season/case.h"
#include "terminal.h"

namespace ovendays::cli {
/// --units and the terminal's width. @throws UsageError
report::ReportOptions report_options(const Arguments& arguments);

/// The case of the command line, with --weather where given, or the demo's.
season::Case chosen_case(const Arguments& arguments);
/// The case's weather, checked, or the demo's.
weather::WeatherYear chosen_weather(const Arguments& arguments, const season::Case& c);

/// Tells `outputs` what is read, so that no output falls on it.
void add_inputs(const Arguments& arguments, const season::Case& c, Outputs& outputs);
/// A file beside the case: its name without its ending, and `ending`; "demo" for the demo.
std::string target_beside(const Arguments& arguments, const std::string& ending);

/// --date MM-DD as a day of the year, 0..364; 29 February counts as the 28th. @throws UsageError
int chosen_day(const Arguments& arguments);
/// A time of the day "HH:MM" [s]; nullopt where not given. @throws UsageError
std::optional<double> chosen_clock(const Arguments& arguments, const std::string& option);
/// --task: the whole name, or any part of it that is in one name only; the first task where not
/// given. @throws UsageError
std::size_t chosen_task(const Arguments& arguments, const std::vector<std::string>& names);

/// --threads, 0 where not given: as many as there are. @throws UsageError
int chosen_threads(const Arguments& arguments);

/// The options of the commands that take a case.
OptionSpec weather_option();
OptionSpec units_option();
OptionSpec demo_option();
OptionSpec threads_option();
}  // namespace ovendays::cli
