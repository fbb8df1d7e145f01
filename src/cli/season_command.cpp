// SPDX-License-Identifier: MIT
#include <algorithm>
#include <filesystem>

#include "commands.h"
#include "inputs.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/results/results.h"
#include "ovendays/season/parallel.h"
#include "spread_part.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
namespace fs = std::filesystem;

struct Inputs {
  season::Case c;
  weather::WeatherYear year;
};

struct SeasonTarget {
  const char* option;
  std::string file;
};

std::vector<SeasonTarget> targets_of(const Arguments& arguments) {
  std::vector<SeasonTarget> targets = {
      {"--out", arguments.value("out").value_or(target_beside(arguments, "-season.h5"))}};
  for (const char* option : {"csv", "svg", "html"}) {
    if (const auto file = arguments.value(option)) targets.push_back({option, *file});
  }
  return targets;
}

// The demo exists to be looked at, so its page is written even without --html, unless another
// output already has that name.
void add_demo_page(const Arguments& arguments, std::vector<SeasonTarget>& targets) {
  if (!arguments.has("demo") || arguments.has("html")) return;
  const std::string page = fs::path(targets.front().file).replace_extension(".html").string();
  const bool free = std::none_of(targets.begin(), targets.end(), [&](const SeasonTarget& target) {
    return target.file == page;
  });
  if (free) targets.push_back({"html", page});
}

void check_season_targets(const Arguments& arguments,
                          const season::Case& c,
                          const std::vector<SeasonTarget>& targets,
                          const SpreadPart& spread) {
  Outputs outputs;
  add_inputs(arguments, c, outputs);
  for (const SeasonTarget& target : targets) outputs.add(target.option, target.file);
  spread.add_to(outputs);
  outputs.check();
}

results::StoredSeason simulate_season(const Arguments& arguments,
                                      const Inputs& inputs,
                                      season::SeasonOptions options) {
  Progress progress;
  options.causes = !arguments.has("no-causes");
  if (!arguments.has("quiet")) {
    options.progress = [&progress](double share_done) { progress.show(share_done); };
  }
  return results::stored_season(
      inputs.c, inputs.year, season::run_season(inputs.c, inputs.year, options));
}

void write_targets(const results::StoredSeason& stored,
                   const report::ReportOptions& options,
                   const std::vector<SeasonTarget>& targets,
                   int threads) {
  // Side by side: one waits for the disk while another is made.
  season::parallel(static_cast<int>(targets.size()), threads, [&](int i) {
    const SeasonTarget& target = targets[static_cast<std::size_t>(i)];
    const std::string option = target.option;
    if (option == "--out") results::write_results(target.file, stored);
    if (option == "csv") base::write_file(target.file, report::season_csv(stored, options));
    if (option == "svg") base::write_file(target.file, report::season_svg(stored));
    if (option == "html") base::write_file(target.file, report::season_page(stored, options));
  });
}

void run_season(const Arguments& arguments) {
  // Check all input before the long computation starts.
  const report::ReportOptions options = report_options(arguments);
  (void)chosen_threads(arguments);
  Inputs inputs{chosen_case(arguments), {}};
  std::vector<SeasonTarget> targets = targets_of(arguments);
  SpreadPart spread(arguments);
  check_season_targets(arguments, inputs.c, targets, spread);
  add_demo_page(arguments, targets);
  const season::SeasonCache cache;
  season::SeasonOptions season_options;
  season_options.threads = chosen_threads(arguments);
  season_options.cache = &cache;
  season_options.cache_year = false;
  season::prepare_optics(
      inputs.c, season_options, [&] { inputs.year = chosen_weather(arguments, inputs.c); });
  spread.read_years(inputs.c, inputs.year);

  results::StoredSeason stored = simulate_season(arguments, inputs, season_options);
  const std::string how_sure = spread.run(inputs.c, inputs.year, stored, options.width);
  write_targets(stored, options, targets, season::thread_count(chosen_threads(arguments)));
  if (arguments.has("quiet")) return;
  std::string text = report::season_table(stored, options) + how_sure + "\n";
  for (const SeasonTarget& target : targets) text += "Written: " + target.file + "\n";
  print(text + spread.written());
}
}  // namespace

CommandSpec season_command() {
  CommandSpec command = {
      .name = "season",
      .synopsis = {"season CASE.toml [options]", "season --demo [options]"},
      .summary = "simulate a year and print on which days each task gets done",
      .about =
          "Reads a case and its weather year, simulates the oven on every day of the year, prints "
          "a summary and writes all results to an HDF5 file, which other programs can read (also "
          "as netCDF-4). --demo uses the starter case at an invented place and also writes the "
          "HTML page (demo-season.html, or beside --out). The year is simulated some more times, "
          "each "
          "time with other values of the uncertain inputs, and the days are printed with a likely "
          "range, which eight of ten such ovens and years fall into. --spread N makes the range "
          "from N whole seasons with other weather.",
      .options = {weather_option(),
                  {"out", "FILE.h5", "results file (default: CASE-season.h5 beside the case)"},
                  {"csv", "FILE", "also write a table with one row for each task and day"},
                  {"svg", "FILE", "also write a picture of the days by month"},
                  {"html", "FILE", "also write the report as a self-contained HTML page"},
                  units_option(),
                  threads_option(),
                  {"no-causes", "", "skip the search for the causes of lost days (faster)"},
                  demo_option(),
                  {"quiet", "", "print errors only"}},
      .examples = {"ovendays season --demo",
                   "ovendays season my-yard.toml --weather my-place.epw --units F",
                   "ovendays season my-yard.toml --no-causes --spread 60"},
      .run = run_season};
  command.options[0].repeats = true;
  for (OptionSpec& option : SpreadPart::options()) command.options.push_back(std::move(option));
  return command;
}
}  // namespace ovendays::cli
