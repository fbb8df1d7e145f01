// SPDX-License-Identifier: MIT
// Runs the starter case over an installed weather year and prints on how many days each task gets
// done: the shortest useful program on top of the library.
#include <cstdio>
#include <exception>

#include "ovendays/season/case.h"
#include "ovendays/season/season.h"

int main() {
  using namespace ovendays;
  try {
    season::Case c = season::read_case_text(season::starter_case(), "starter case");
    c.weather_file = WEATHER;
    season::SeasonOptions options;
    options.causes = false;  // only how many days, not what spoilt the others
    const season::SeasonResult result = season::run_season(c, season::load_weather(c), options);
    for (std::size_t task = 0; task < result.task_names.size(); ++task) {
      const int days_of_year = season::cooked_by_month(result, task)[12];
      std::printf("%4d  %s\n", days_of_year, result.task_names[task].c_str());
    }
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "count_days: %s\n", error.what());
    return 1;
  }
}
