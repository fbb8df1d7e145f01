// SPDX-License-Identifier: MIT
// Three measured typical years. They are no part of the repository: SKIPPED where not found.
// Source: NREL, TMY3 (Greensboro, Sand Point) and NSRDB PSM v4 tmy-2023 (north-west Colorado).
#include <cstdlib>
#include <vector>

#include "catch.h"
#include "degrees.h"
#include "made_case.h"
#include "shared_folder.h"

using namespace ovendays;
using namespace ovendays::test;

namespace {
season::Case case_on(const std::string& file) {
  season::Case c = small_case({"soup", "eggs", "rice", "bread"});
  c.weather_file = file;
  return c;
}

/// The Colorado file does not state its site: figures of a complete file of the same request.
season::Case colorado(const std::string& file) {
  season::Case c = case_on(file);
  c.site.name = "north-west Colorado";
  c.site.latitude_rad = 40.53 * kDeg;
  c.site.longitude_rad = -108.54 * kDeg;
  c.site.elevation_m = 2168.0;
  c.site.utc_offset_s = -7.0 * 3600.0;
  return c;
}

season::SeasonResult season_of(const season::Case& c) { return run(c, season::load_weather(c)); }
}  // namespace

TEST_CASE("at Greensboro summer cooks on more days than winter", "[season][reference]") {
  const auto file = want_shared("weather/723170TYA.CSV");
  if (!file) return;
  const season::Case c = case_on(*file);
  const season::SeasonResult r = season_of(c);
  for (std::size_t t = 0; t < c.tasks.size(); ++t) {
    INFO(c.tasks[t].name);
    const season::TaskCounts counts = season::count_task(r, t);
    const auto cooked = [&](std::size_t month) { return counts.outcomes[month][0]; };
    const int winter = cooked(11) + cooked(0) + cooked(1);
    const int summer = cooked(5) + cooked(6) + cooked(7);
    // Order only; how much is the model's to say. Two standard deviations of a count: 8 days.
    CHECK(summer > winter + 8);
  }
}

TEST_CASE("Colorado cooks on more days than Greensboro, Greensboro than Sand Point",
          "[season][reference]") {
  const auto west = want_shared("weather/test_psm4_tmy-2023.csv");
  const auto east = want_shared("weather/723170TYA.CSV");
  const auto north = want_shared("weather/703165TY.csv");
  if (!west || !east || !north) return;
  const season::Case c = colorado(*west);
  const season::SeasonResult high = season_of(c);
  const season::SeasonResult humid = season_of(case_on(*east));
  const season::SeasonResult foggy = season_of(case_on(*north));
  for (std::size_t t = 0; t < c.tasks.size(); ++t) {
    INFO(c.tasks[t].name << ": " << cooked_days(high, t) << ", " << cooked_days(humid, t) << ", "
                         << cooked_days(foggy, t));
    CHECK(cooked_days(high, t) > cooked_days(humid, t));
    CHECK(cooked_days(humid, t) > cooked_days(foggy, t));
  }
}

TEST_CASE("the starter case's seasons on the real years are those of this version",
          "[season][regression]") {
  // Computed by this program, to notice changes; these are no outside figures. Order of the tasks
  // as in the starter case. Two days of slack: shade edges and thresholds decide single days.
  struct Kept {
    const char* file;
    std::vector<int> days;
  };
  const std::vector<Kept> kept = {
      {"weather/test_psm4_tmy-2023.csv", {253, 318, 208, 172, 211, 125, 133, 277}},
      {"weather/723170TYA.CSV", {185, 265, 162, 140, 163, 82, 88, 202}},
      {"weather/703165TY.csv", {100, 170, 89, 59, 80, 28, 33, 110}}};
  for (const Kept& row : kept) {
    const auto file = want_shared(row.file);
    if (!file) return;
    season::Case c = season::read_case_text(season::starter_case(), "starter.toml");
    if (&row == &kept.front()) c.site = colorado(*file).site;
    c.weather_file = *file;
    season::SeasonOptions options;  // the program's own, not the tests' quicker ones
    options.causes = false;
    const season::SeasonResult r = season::run_season(c, season::load_weather(c), options);
    for (std::size_t t = 0; t < row.days.size(); ++t) {
      INFO(row.file << ", " << r.task_names[t] << ": " << cooked_days(r, t));
      CHECK(std::abs(cooked_days(r, t) - row.days[t]) <= 2);
    }
  }
}
