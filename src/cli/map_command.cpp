// SPDX-License-Identifier: MIT
#include "commands.h"
#include "inputs.h"
#include "ovendays/base/file.h"
#include "ovendays/report/question_report.h"
#include "ovendays/study/study_arrays.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
using base::Dimension;

constexpr double kUsualStep_m = 1.0, kFinest_m = 0.05, kCoarsest_m = 50.0, kFarthest_m = 5000.0;

/// The edges of the plot from the options; usual_plot gives those that are missing.
study::Plot chosen_plot(const Arguments& arguments, const spot::Spot& spot) {
  study::Plot plot = study::usual_plot(spot);
  const auto edge = [&arguments](const char* option, double& value_m) {
    value_m =
        arguments.quantity(option, Dimension::kLength, -kFarthest_m, kFarthest_m).value_or(value_m);
  };
  edge("west", plot.west_m);
  edge("east", plot.east_m);
  edge("south", plot.south_m);
  edge("north", plot.north_m);
  if (plot.west_m > plot.east_m) throw UsageError("--west lies to the east of --east");
  if (plot.south_m > plot.north_m) throw UsageError("--south lies to the north of --north");
  return plot;
}

/// The number of places is checked before the grid is made, because a small step could exhaust
/// memory.
study::MapGrid chosen_grid(const Arguments& arguments, const spot::Spot& spot) {
  const double step_m =
      arguments.quantity("grid", Dimension::kLength, kFinest_m, kCoarsest_m).value_or(kUsualStep_m);
  const study::Plot plot = chosen_plot(arguments, spot);
  const double places = study::count_places(plot, step_m);
  if (places > static_cast<double>(study::kMostPlaces)) {
    throw UsageError("--grid: this would make " + std::to_string(static_cast<long>(places)) +
                     " places, allowed at most " + std::to_string(study::kMostPlaces));
  }
  study::MapGrid grid = study::map_grid(plot, spot.mouth, step_m);
  if (grid.places() == 0) {
    throw UsageError("no place of the grid lies on the plot; give a finer --grid or a larger plot");
  }
  return grid;
}

study::SpotMap simulate_map(const Arguments& arguments,
                            const season::Case& c,
                            const weather::WeatherYear& year,
                            std::size_t task,
                            const study::MapGrid& grid) {
  Progress progress;
  study::MapOptions options;
  options.room_m = study::room_needed_m(c.oven);
  options.season.threads = chosen_threads(arguments);
  if (!arguments.has("quiet")) {
    options.season.progress = [&progress](double share_done) { progress.show(share_done); };
  }
  return study::map_places(c, year, task, grid, options);
}

void run_map(const Arguments& arguments) {
  (void)chosen_threads(arguments);
  const season::Case c = chosen_case(arguments);
  const std::vector<std::string> names = task_names(c);
  const std::size_t task = chosen_task(arguments, names);
  const study::MapGrid grid = chosen_grid(arguments, c.spot);
  const std::string out = arguments.value("out").value_or(target_beside(arguments, "-map.h5"));
  const std::string svg = arguments.value("svg").value_or(target_beside(arguments, "-map.svg"));
  Outputs outputs;
  add_inputs(arguments, c, outputs);
  outputs.add("--out", out);
  outputs.add("--svg", svg);
  outputs.check();
  const weather::WeatherYear year = chosen_weather(arguments, c);

  const study::SpotMap map = simulate_map(arguments, c, year, task, grid);
  const report::NamedMap story{map, c.spot, names[task], year.place.name};
  results::write_arrays(out, study::map_file(map, names[task]), c, year);
  base::write_file(svg, report::map_svg(story));
  if (arguments.has("quiet")) return;
  print(report::map_table(story, terminal_width()) + "\nWritten: " + out + "\nWritten: " + svg +
        "\n");
}
}  // namespace

CommandSpec map_command() {
  return {
      .name = "map",
      .synopsis = {"map CASE.toml [options]", "map --demo [options]"},
      .summary = "find the best place on the plot: days at each place of a grid",
      .about =
          "Simulates a season of one task at every place of a grid over the plot, lists the "
          "best places for the year and for each quarter, and draws a plan. Places inside or "
          "too close to a wall, a house or a trunk are left out. If the oven does not turn, the "
          "best facing is found for each place. By default the plot includes everything that "
          "stands within 12 m of the oven, and reaches at most 15 m.",
      .options = {{"task", "NAME", "a task of the case, or part of its name (default: the first)"},
                  {"grid", "LENGTH", "distance between places (default: '1 m')"},
                  {"west", "LENGTH", "western edge of the plot, x as in the case file"},
                  {"east", "LENGTH", "eastern edge, x"},
                  {"south", "LENGTH", "southern edge, y"},
                  {"north", "LENGTH", "northern edge, y"},
                  {"out",
                   "FILE.h5",
                   "results file, days of each place by month (default: CASE-map.h5)"},
                  {"svg", "FILE", "picture of the plan (default: CASE-map.svg)"},
                  weather_option(),
                  threads_option(),
                  demo_option(),
                  {"quiet", "", "print errors only"}},
      .examples = {"ovendays map my-yard.toml --task rice --grid '0.5 m'",
                   "ovendays map --demo --grid '2 m' --svg plan.svg"},
      .run = run_map};
}
}  // namespace ovendays::cli
