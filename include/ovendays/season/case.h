// SPDX-License-Identifier: MIT
// A case: everything a season needs, read from one TOML file (with includes) and a weather year.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ovendays/oven/design.h"
#include "ovendays/sky/sky_year.h"
#include "ovendays/spot/spot.h"
#include "ovendays/task/routine.h"
#include "ovendays/task/task.h"
#include "ovendays/weather/weather_check.h"
#include "ovendays/weather/weather_year.h"

namespace ovendays::season {

struct Case {
  std::string file;
  std::string text;  ///< as read, includes appended
  std::string sha256;
  std::string
      weather_file;  ///< [site] weather, looked for beside the file it stands in; may be replaced
  weather::SiteOverrides site;
  std::optional<double> declination_rad;  ///< [site] declination: of the compass, east positive
  sky::SkyOptions sky;
  spot::Spot spot;
  oven::OvenDesign oven;
  std::vector<task::Task> tasks;
  task::Routine routine;
};

/// @throws base::InputError with every fault of the case at once.
Case read_case(const std::string& file);
Case read_case_text(const std::string& text, const std::string& name);
/// The same from a file that is open, such as a case with changes made to it.
/// @param name of the case, for messages
Case read_case(base::CaseFile& file, const std::string& name);

/// The starter case: a commented file that is the manual of its own format, invented throughout.
std::string starter_case();

/// Reads the weather, checks its clock against the sun and refuses a year that is out of step
/// unless the case states the correction. @throws base::InputError
weather::WeatherYear load_weather(const Case& c);
}  // namespace ovendays::season
