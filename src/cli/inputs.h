// SPDX-License-Identifier: MIT
// Arguments that several commands share: a case with its weather or the demo, units, a date, a time
// of day, a task by name.
#pragma once

#include "arguments.h"
#include "ovendays/report/report.h"
#include "ovendays/season/case.h"
#include "terminal.h"

namespace ovendays::cli {
/// Report options from --units and the width of the terminal. @throws UsageError
report::ReportOptions report_options(const Arguments& arguments);

/// Reads the case named on the command line (with --weather, if given) or the demo case.
/// @throws UsageError; base::InputError
season::Case chosen_case(const Arguments& arguments);
/// Reads and checks the weather year of the case, or makes that of the demo.
/// @throws base::InputError
weather::WeatherYear chosen_weather(const Arguments& arguments, const season::Case& c);

/// Registers the input files with `outputs`, so that no output overwrites them.
void add_inputs(const Arguments& arguments, const season::Case& c, Outputs& outputs);
/// Default output file beside the case: the stem of the case file (or "demo") plus `ending`.
std::string target_beside(const Arguments& arguments, const std::string& ending);

/// Day index 0..364 of --date MM-DD; 29 February counts as the 28th. @throws UsageError
int chosen_day(const Arguments& arguments);
/// Time of day "HH:MM" of an option [s]; nullopt where it is missing. @throws UsageError
std::optional<double> chosen_clock(const Arguments& arguments, const std::string& option);
/// Names of the tasks of a case, in their order.
std::vector<std::string> task_names(const season::Case& c);
/// Index of the task that --task names by its whole name or by a part that no other name contains;
/// 0 where the option is missing. @throws UsageError
std::size_t chosen_task(const Arguments& arguments, const std::vector<std::string>& names);

/// Value of --threads; 0 (use all) where it is missing. @throws UsageError
int chosen_threads(const Arguments& arguments);

/// Options that several commands share.
OptionSpec weather_option();
OptionSpec units_option();
OptionSpec demo_option();
OptionSpec threads_option();
}  // namespace ovendays::cli
