// SPDX-License-Identifier: MIT
// A case: everything a season needs, read from one TOML file (with includes) and a weather year.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ovendays/base/file_texts.h"
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
  /// [site] weather; a relative path starts at the folder of the file that names it. May be
  /// replaced after reading.
  std::string weather_file;
  weather::SiteOverrides site;
  std::optional<double> declination_rad;  ///< [site] declination: magnetic, east positive
  sky::SkyOptions sky;
  spot::Spot spot;
  oven::OvenDesign oven;
  std::vector<task::Task> tasks;
  task::Routine routine;
};

/// @throws base::InputError with every fault of the case at once.
Case read_case(const std::string& file);
Case read_case_text(const std::string& text, const std::string& name);
/// Reads a case from an open file, such as one that has been changed in memory.
/// @param name of the case, for messages
Case read_case(base::CaseFile& file, const std::string& name);

/// The starter case: an invented example, with comments that explain every entry of the format.
std::string starter_case();

/// Reads the weather and checks its clock against the sun. @throws base::InputError also where the
/// two are out of step and the case does not state the correction
weather::WeatherYear load_weather(const Case& c);
/// The same, with the file's text taken from `files`.
weather::WeatherYear load_weather(const Case& c, base::FileTexts& files);
}  // namespace ovendays::season
