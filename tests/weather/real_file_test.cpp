// SPDX-License-Identifier: MIT
// Three real files and what is known about them: the shared folder's README (facts of each file)
// and its reference/tmy3_monthly.csv (sums computed outside this project).
#include <array>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "catch.h"
#include "ovendays/weather/weather_check.h"
#include "weather_support.h"

namespace ovendays::test {
using weather::read_weather;
using weather::WeatherYear;

namespace {
constexpr std::array<const char*, 3> kFiles = {
    "703165TY.csv", "723170TYA.CSV", "test_psm4_tmy-2023.csv"};
constexpr const char* kSandPoint = "weather/703165TY.csv";
constexpr const char* kGreensboro = "weather/723170TYA.CSV";
constexpr const char* kNsrdb = "weather/test_psm4_tmy-2023.csv";

WeatherYear read_shared(const std::string& name) {
  const bool nsrdb = name.find("psm4") != std::string::npos;
  return read_weather(shared_file(name).value(), nsrdb ? nsrdb_site() : weather::SiteOverrides{});
}

std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> parts;
  std::stringstream stream(line);
  for (std::string part; std::getline(stream, part, ',');) parts.push_back(part);
  return parts;
}

void compare_month(const weather::MonthSums& got, const std::vector<std::string>& row) {
  const auto number = [&](std::size_t column) { return std::strtod(row[column].c_str(), nullptr); };
  CHECK(got.hours == std::atoi(row[2].c_str()));
  // Half of the last printed digit, and 1e-9 for the order of summation.
  REQUIRE_THAT(got.ghi_kWhm2, within_abs(number(3), 0.0005 + 1e-9));
  REQUIRE_THAT(got.dni_kWhm2, within_abs(number(4), 0.0005 + 1e-9));
  REQUIRE_THAT(got.dhi_kWhm2, within_abs(number(5), 0.0005 + 1e-9));
  REQUIRE_THAT(got.dry_bulb_mean_K - 273.15, within_abs(number(6), 0.00005 + 1e-9));
  REQUIRE_THAT(got.dry_bulb_min_K - 273.15, within_abs(number(7), 1e-9));
  REQUIRE_THAT(got.dry_bulb_max_K - 273.15, within_abs(number(8), 1e-9));
  REQUIRE_THAT(got.wind_mean_ms, within_abs(number(9), 0.00005 + 1e-9));
}
}  // namespace

TEST_CASE("monthly sums of real files agree with an independent computation",
          "[weather][reference]") {
  if (!have_shared("reference/tmy3_monthly.csv") || !have_shared(kSandPoint)) return;
  std::ifstream table(shared_file("reference/tmy3_monthly.csv").value());
  std::string line;
  std::getline(table, line);
  int rows = 0;
  for (const char* file : kFiles) {
    const auto check = weather::check_weather(read_shared(std::string("weather/") + file));
    for (std::size_t month = 0; month < 13 && std::getline(table, line); ++month, ++rows) {
      INFO(line);
      const std::vector<std::string> row = split(line);
      REQUIRE(row[0] == file);
      compare_month(check.months[month], row);
    }
  }
  CHECK(rows == 39);
}

TEST_CASE("months of a typical year keep their own calendar year", "[weather][reference]") {
  if (!have_shared(kSandPoint) || !have_shared(kNsrdb)) return;
  const std::array<std::array<int, 12>, 3> years = {
      {{1997, 1995, 2005, 2005, 1999, 1996, 1991, 1994, 1996, 1999, 2005, 1998},
       {1988, 1996, 1990, 1980, 1986, 1989, 1981, 2001, 2003, 1980, 1994, 1980},
       {2020, 2020, 2019, 2015, 2016, 2016, 2018, 2018, 2015, 2023, 2018, 2019}}};
  for (std::size_t f = 0; f < kFiles.size(); ++f) {
    const WeatherYear year = read_shared(std::string("weather/") + kFiles[f]);
    CHECK(year.hours_in_file == 8760);
    CHECK(year.filled_hours == 0);
    for (const auto& hour : year.hours) {
      REQUIRE(hour.date.year == years[f][static_cast<std::size_t>(hour.date.month - 1)]);
    }
  }
}

TEST_CASE("the Sand Point file is read with its gaps and peculiarities", "[weather][reference]") {
  if (!have_shared(kSandPoint)) return;
  const WeatherYear year = read_shared(kSandPoint);
  CHECK(year.place.name == "SAND POINT");
  CHECK(year.place.utc_offset_s == -32400.0);
  CHECK(year.place.elevation_m == 7.0);
  CHECK(year.sha256 == "f0333a68a116f5ae92f1285a2ab8784d8e00e52a367445658ac88d72d93d8ca4");
  double least = 1.0;
  double most = 0.0;
  int rain = 0;
  for (const auto& hour : year.hours) {
    REQUIRE(hour.pressure_Pa == 101200.0);
    least = std::min(least, hour.albedo.value());
    most = std::max(most, hour.albedo.value());
    rain += hour.precipitation_m ? 1 : 0;
  }
  CHECK(least == 0.11);
  CHECK(most == 0.25);
  // 749 hours have a rain figure; 481 of them are sums over 3, 6, 24 or an unknown number of hours.
  CHECK(rain == 8760 - 8011 - 481);
  CHECK(has_note(year, "left out in 481 hours"));
  CHECK(has_note(year, "source code not A) in 2919 hours"));
  // The site is 25 deg west of the meridian of its time zone: mean solar noon is about 13:42.
  double transit_h = 0.0;
  int dark_beam = 0;
  for (std::size_t i = 0; i < year.hours.size(); ++i) {
    const auto& hour = year.hours[i];
    dark_beam += hour.ghi_Wm2 == 0.0 && hour.dni_Wm2 > 0.0 ? 1 : 0;
    if (i % 24 == 0) transit_h += sun::day_light(hour.date, year.place).transit_s / 3600.0 / 365.0;
  }
  REQUIRE_THAT(transit_h, within_abs(13.7, 0.02));
  CHECK(dark_beam == 88);
  const auto check = weather::check_weather(year);
  REQUIRE(check.findings.size() == 2);
  CHECK(check.findings[0].text == "pressure is the same in every hour");
  CHECK(check.missing.front() == "rain in 8492 hours");
}

TEST_CASE("the Greensboro file has no albedo, rain in tenths of a millimetre and harmless twilight",
          "[weather][reference]") {
  if (!have_shared(kGreensboro)) return;
  const WeatherYear year = read_shared(kGreensboro);
  double rain_m = 0.0;
  int dark_beam = 0;
  for (const auto& hour : year.hours) {
    REQUIRE_FALSE(hour.albedo);
    rain_m += hour.precipitation_m.value();
    dark_beam += hour.ghi_Wm2 == 0.0 && hour.dni_Wm2 > 0.0 ? 1 : 0;
  }
  // The column sums to 8345. A tenth of that in mm is plausible for the region (about 1.1 m a
  // year); ten times as much is not.
  REQUIRE_THAT(rain_m, within_abs(0.8345, 1e-9));
  CHECK(has_note(year, "read as tenths of a millimetre"));
  CHECK(dark_beam == 34);
  // GHI above the extraterrestrial value in 24 hours at the edges of the day is not a fault.
  const auto check = weather::check_weather(year);
  CHECK(check.findings.empty());
  CHECK(check.beyond_extraterrestrial_hours == 0);
}

TEST_CASE("all real files close, are in step with the sun and are dark at night",
          "[weather][reference]") {
  if (!have_shared(kGreensboro) || !have_shared(kNsrdb)) return;
  for (const char* file : kFiles) {
    INFO(file);
    const auto check = weather::check_weather(read_shared(std::string("weather/") + file));
    CHECK(check.closure_hours_tested > 3900);
    CHECK(check.closure_hours_failed == 0);
    CHECK(check.night_hours_with_beam == 0);
    CHECK(check.beyond_extraterrestrial_hours == 0);
    REQUIRE(check.clock.possible);
    CHECK(check.clock.by_closure);
    CHECK_FALSE(check.clock.off);
    // The clocks of the files are right to the minute; instants and means differ by half a minute.
    REQUIRE_THAT(check.clock.shift_s, within_abs(0.0, 30.0));
    // Clear days are symmetric to a few minutes.
    REQUIRE_THAT(check.clock.shape_shift_s, within_abs(0.0, 300.0));
  }
}

TEST_CASE("the NSRDB file closes as tightly as stated", "[weather][reference]") {
  if (!have_shared(kNsrdb)) return;
  const WeatherYear year = read_shared(kNsrdb);
  CHECK(year.hours[0].start_s == 0.0);
  CHECK(year.hours[0].sun_s == 1800.0);
  CHECK(year.hours[0].met_s == 1800.0);
  CHECK(has_note(year, "fill flag not 0) in 1238 hours"));
  CHECK(weather::check_weather(year).findings.empty());  // twilight hours are not a fault
  double squares = 0.0;
  int hours = 0;
  for (const auto& hour : year.hours) {
    const auto sun = sun::sun_position(
        hour.sun_time(year.place.utc_offset_s), year.place, {hour.pressure_Pa, hour.dry_bulb_K});
    const double cos_z = std::cos(sun.zenith_rad);
    if (cos_z <= 0.0) continue;
    const double gap = hour.ghi_Wm2 - hour.dhi_Wm2 - hour.dni_Wm2 * cos_z;
    squares += gap * gap;
    ++hours;
  }
  // README: rms 0.25 W/m2; whole watts in the file alone give about 0.4 at full beam.
  CHECK(std::sqrt(squares / hours) < 0.5);
}
}  // namespace ovendays::test
