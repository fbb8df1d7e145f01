// SPDX-License-Identifier: MIT
#include "ovendays/season/case.h"

#include <algorithm>
#include <filesystem>

#include "ovendays/base/constants.h"
#include "ovendays/base/file.h"

namespace ovendays::season {
namespace {

using base::CaseNode;
using base::Dimension;

void read_albedo(const CaseNode& site, sky::SkyOptions& sky) {
  const std::vector<double> months = site.quantities("albedo", Dimension::kNumber, {0.0, 1.0}, 0);
  if (months.empty()) return;
  if (months.size() != 1 && months.size() != 12) {
    site.fault("albedo",
               std::to_string(months.size()) + " numbers",
               "one number, or twelve, January first");
    return;
  }
  for (std::size_t m = 0; m < 12; ++m)
    sky.albedo_by_month[m] = months.size() == 1 ? months[0] : months[m];
}

void read_site(const CaseNode& site, Case& c) {
  weather::SiteOverrides& over = c.site;
  if (site.has("name")) over.name = site.text("name", "");
  over.latitude_rad =
      site.optional_quantity("latitude", Dimension::kAngle, {-0.5 * base::kPi, 0.5 * base::kPi});
  over.longitude_rad =
      site.optional_quantity("longitude", Dimension::kAngle, {-base::kPi, base::kPi});
  over.elevation_m = site.optional_quantity("elevation", Dimension::kLength, {-430.0, 6000.0});
  over.utc_offset_s = site.optional_quantity("utc_offset", Dimension::kTime, {-43200.0, 50400.0});
  over.clock_shift_s = site.optional_quantity("clock_shift", Dimension::kTime, {-86400.0, 86400.0});
  over.allow_long_gaps = site.flag("allow_long_gaps", false);
  c.declination_rad =
      site.optional_quantity("declination", Dimension::kAngle, {-base::kPi, base::kPi});
  read_albedo(site, c.sky);
  c.sky.linke_turbidity =
      site.quantity("turbidity", Dimension::kNumber, {1.0, 10.0}, c.sky.linke_turbidity);
  const std::string weather = site.text("weather", "");
  if (!weather.empty()) {
    const std::filesystem::path file(weather);
    const std::filesystem::path folder =
        std::filesystem::path(site.file_of("weather")).parent_path();
    c.weather_file = file.is_absolute() ? weather : (folder / file).string();
  }
}

}  // namespace

Case read_case(base::CaseFile& file, const std::string& name) {
  Case c;
  c.file = name;
  const CaseNode root = file.root();
  read_site(root.table("site"), c);
  c.spot = spot::read_spot(root.table("spot"));
  c.oven = oven::read_oven(root.table("oven"));
  c.tasks = task::read_tasks(root, c.oven);
  c.routine = task::read_routine(root.table("routine"));
  const bool nobody = task::loading_times(c.routine).empty();
  if (nobody) {
    root.table("routine").fault("home_from",
                                "nobody is home at any loading time",
                                "a time at home between earliest and latest");
  }
  file.finish();
  c.text = file.text();  // with the includes, which are read as they are asked for
  c.sha256 = base::sha256_hex(c.text);
  return c;
}

Case read_case(const std::string& file) {
  base::CaseFile read(file);
  return read_case(read, file);
}

Case read_case_text(const std::string& text, const std::string& name) {
  base::CaseFile read(text, name);
  return read_case(read, name);
}

std::string starter_case() {
  std::string text =
      R"toml(# A case for ovendays: a site, a spot, an oven, what is cooked and how the cook works.
# Everything here is invented; change what is yours. Quantities take their unit in quotes
# ("18 in", "350 F", "0.5 lb", "6 mm", "30 min"); a bare number is in SI units (angles in degrees).
# Any table may stand in a file of its own and be named instead:  oven = "my-oven.toml"
# Run it:  ovendays season THIS_FILE.toml

[site]
# A typical-year file of your own place: EPW, TMY3, NSRDB or PVGIS; README.md says where to get one.
weather = "high_desert.epw"
# name = "Back garden"     # these win over what the file says:
# latitude = "36.1 deg"    # north positive
# longitude = "-79.95 deg" # east positive
# elevation = "273 m"
# utc_offset = "-5 h"      # local STANDARD time minus UTC
# clock_shift = "10 min"   # added to the file's stamps, where its clock is off
# albedo = 0.2             # of the ground: grass 0.2, dry sand 0.35, snow 0.6; one number or twelve
# declination = "9 deg"    # of the compass, east of true north positive: for the aiming card
# turbidity = 3.0          # Linke turbidity of a clear sky: 2 crisp, 3 usual, 5 hazy

)toml";
  text += spot::example_spot_toml();
  text += '\n';
  text += oven::example_oven_toml();
  text += '\n';
  text += task::example_routine_toml();
  text += '\n';
  text += task::example_tasks_toml();
  return text;
}

namespace {
void require_weather_file(const Case& c) {
  if (c.weather_file.empty()) {
    throw base::InputError(base::Fault{
        c.file, 0, "site.weather", "missing", "a typical-year file, here or with --weather"});
  }
}

weather::WeatherYear clock_checked(weather::WeatherYear year, const Case& c) {
  weather::require_sound_clock(year, weather::check_clock(year), c.site.clock_shift_s.has_value());
  return year;
}
}  // namespace

weather::WeatherYear load_weather(const Case& c) {
  require_weather_file(c);
  return clock_checked(weather::read_weather(c.weather_file, c.site), c);
}

weather::WeatherYear load_weather(const Case& c, base::FileTexts& files) {
  require_weather_file(c);
  const std::string text = files.text_of(c.weather_file, weather::kMostWeatherBytes);
  return clock_checked(weather::read_weather_text(text, c.weather_file, c.site), c);
}
}  // namespace ovendays::season
