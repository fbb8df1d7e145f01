// SPDX-License-Identifier: MIT
#include <filesystem>

#include "commands.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/file.h"
#include "ovendays/report/weather_report.h"
#include "ovendays/weather/weather_make.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
using base::Dimension;

// Limits: the Dead Sea shore to the highest settlements, and the time zones in use.
weather::SiteOverrides site_of(const Arguments& arguments) {
  constexpr double kHour_s = base::kSecondsPerHour;
  weather::SiteOverrides site;
  site.latitude_rad =
      arguments.quantity("latitude", Dimension::kAngle, -0.5 * base::kPi, 0.5 * base::kPi);
  site.longitude_rad = arguments.quantity("longitude", Dimension::kAngle, -base::kPi, base::kPi);
  site.elevation_m = arguments.quantity("elevation", Dimension::kLength, -430.0, 6000.0);
  site.utc_offset_s =
      arguments.quantity("utc-offset", Dimension::kTime, -12.0 * kHour_s, 14.0 * kHour_s);
  site.clock_shift_s = arguments.quantity(
      "clock-shift", Dimension::kTime, -base::kSecondsPerDay, base::kSecondsPerDay);
  site.allow_long_gaps = arguments.has("allow-long-gaps");
  return site;
}

void run_check(const Arguments& arguments) {
  const std::string& file = arguments.only_file("a weather file");
  const weather::WeatherYear year = weather::read_weather(file, site_of(arguments));
  const weather::WeatherCheck check = weather::check_weather(year);
  print(report::weather_table(year, check, terminal_width()));
}

void run_make(const Arguments& arguments) {
  const std::string& file = arguments.only_file("a file of monthly normals");
  const auto seed =
      static_cast<std::uint64_t>(arguments.integer("seed", 0, 1'000'000'000).value_or(1));
  const std::string target =
      arguments.value("out").value_or(std::filesystem::path(file).stem().string() + ".epw");
  const weather::MonthlyNormals normals = weather::read_normals(file);
  Outputs outputs;
  outputs.input(file);
  outputs.add("--out", target);
  outputs.check();
  const weather::WeatherYear year = weather::make_weather(normals, seed);
  base::write_file(target, weather::epw_text(year, normals.comment));
  print("Written: " + target + " (made weather, seed " + std::to_string(seed) + ")\n");
}
}  // namespace

CommandSpec weather_command() {
  return {.name = "weather",
          .synopsis = {"weather FILE [options]"},
          .summary = "check a weather year: totals, clock, errors and gaps",
          .about =
              "Reads a weather year (EPW, TMY3, NSRDB or PVGIS, recognised by its content), "
              "compares its irradiance with the computed position of the sun and prints what it "
              "finds. Findings do not change the exit code.",
          .options =
              {{"latitude", "ANGLE", "latitude to use in place of the file's, north positive"},
               {"longitude", "ANGLE", "longitude, east positive"},
               {"elevation", "LENGTH", "height above sea level"},
               {"utc-offset", "TIME", "local standard time minus UTC, such as '-7 h'"},
               {"clock-shift", "TIME", "time to add to the file's time stamps, such as '10 min'"},
               {"allow-long-gaps", "", "fill gaps longer than six hours from other days"}},
          .examples = {"ovendays weather my-place.epw",
                       "ovendays weather tmy.csv --elevation '1200 m' --utc-offset '1 h'"},
          .run = run_check};
}

CommandSpec weather_make_command() {
  return {.name = "weather make",
          .synopsis = {"weather make NORMALS.toml [--seed N] [--out FILE.epw]"},
          .summary = "make hourly weather for a year from monthly normals",
          .about =
              "For places without a typical-year file. Draws a year of hourly weather whose "
              "monthly means are those of the normals, and writes it as EPW. The same seed gives "
              "the same year.",
          .options = {{"seed", "N", "seed of the random numbers (default: 1)"},
                      {"out", "FILE.epw", "file to write (default: NORMALS.epw in this folder)"}},
          .examples = {"ovendays weather make my-place.toml --seed 7 --out my-place.epw"},
          .run = run_make};
}
}  // namespace ovendays::cli
