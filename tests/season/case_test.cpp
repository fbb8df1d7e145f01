// SPDX-License-Identifier: MIT
// Reading a case: the starter, its weather, and faults that show up only in the whole.
#include "ovendays/season/case.h"

#include <filesystem>
#include <fstream>

#include "catch.h"
#include "ovendays/base/constants.h"

using namespace ovendays;
using test::contains;
using test::within_abs;

namespace {
std::string edited(const std::string& from, const std::string& to) {
  std::string text = season::starter_case();
  const std::size_t place = text.find(from);
  REQUIRE(place != std::string::npos);
  return text.replace(place, from.size(), to);
}

std::string complaint(const std::string& text) {
  try {
    season::read_case_text(text, "case.toml");
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}
}  // namespace

TEST_CASE("the starter case parses and holds one of everything", "[season][unit]") {
  const season::Case c = season::read_case_text(season::starter_case(), "some/folder/case.toml");
  CHECK(c.file == "some/folder/case.toml");
  CHECK(c.weather_file == "some/folder/high_desert.epw");  // beside the case
  CHECK(c.tasks.size() == 8U);
  CHECK(c.oven.flaps.size() == 4U);
  CHECK_FALSE(c.spot.obstructions.empty());
  CHECK(c.sha256.size() == 64U);
  CHECK(contains(c.text, "[[spot.bay]]"));
  CHECK_FALSE(c.site.latitude_rad.has_value());
}

TEST_CASE("the site's keys override what the weather file says", "[season][unit]") {
  const season::Case c = season::read_case_text(
      edited("# name = \"Back garden\"",
             "name = \"Yard\"\nlatitude = \"36.1 deg\"\nutc_offset = \"-5 h\"\nalbedo = 0.35\n"
             "turbidity = 4\nelevation = \"900 ft\"\n#"),
      "case.toml");
  CHECK(c.site.name == "Yard");
  REQUIRE(c.site.latitude_rad.has_value());
  CHECK_THAT(*c.site.latitude_rad, within_abs(36.1 * base::kRadPerDeg, 1e-12));
  REQUIRE(c.site.utc_offset_s.has_value());
  CHECK_THAT(*c.site.utc_offset_s, within_abs(-18000.0, 1e-9));
  REQUIRE(c.site.elevation_m.has_value());
  CHECK_THAT(*c.site.elevation_m, within_abs(274.32, 1e-9));  // 0.3048 m to the foot
  CHECK_THAT(c.sky.linke_turbidity, within_abs(4.0, 0.0));
  for (const double albedo : c.sky.albedo_by_month) CHECK_THAT(albedo, within_abs(0.35, 0.0));
}

TEST_CASE("faults of all tables are reported at once", "[season][unit]") {
  std::string text = edited("turbidity = 3.0", "turbidity = 3.0\nalbedo = [0.1, 0.2]");
  text = text.replace(text.find("preheat = true"), 14, "preheat = 7");
  text = text.replace(text.find("glazing_slope"), 13, "glazing_slop");
  const std::string said = complaint(text);
  CHECK(contains(said, "site.albedo: 2 numbers"));
  CHECK(contains(said, "routine.preheat"));
  CHECK(contains(said, "glazing_slop"));
}

TEST_CASE("a case without a loading time is refused", "[season][unit]") {
  const std::string said = complaint(edited("home_from = \"00:00\"", "home_from = \"20:00\""));
  CHECK(contains(said, "nobody is home at any loading time"));
}

TEST_CASE("a case file is read from its own folder", "[season][unit]") {
  namespace fs = std::filesystem;
  const fs::path folder = fs::temp_directory_path() / "ovendays_case_test";
  fs::create_directories(folder);
  const std::string file = (folder / "mine.toml").string();
  std::ofstream(file) << season::starter_case();
  const season::Case c = season::read_case(file);
  CHECK(c.weather_file == (folder / "high_desert.epw").string());
  CHECK_THROWS_AS(season::load_weather(c), base::InputError);  // no such file there
  CHECK_THROWS_AS(season::read_case((folder / "none.toml").string()), base::InputError);
  fs::remove_all(folder);
}

TEST_CASE("the demo weather passes the clock check and a shifted one does not", "[season][unit]") {
  season::Case c = season::read_case_text(season::starter_case(),
                                          std::string(OVENDAYS_SOURCE_DIR) + "/weather/case.toml");
  CHECK(season::load_weather(c).hours.size() == 8760U);
  c.site.longitude_rad = -80.0 * base::kRadPerDeg;  // the sun nearly two hours earlier
  CHECK_THROWS_AS(season::load_weather(c), base::InputError);
  c.site.clock_shift_s = 0.0;  // the case says that the clock is right
  CHECK(season::load_weather(c).hours.size() == 8760U);
  c.weather_file.clear();
  CHECK_THROWS_AS(season::load_weather(c), base::InputError);
}
