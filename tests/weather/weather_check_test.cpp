// SPDX-License-Identifier: MIT
#include <algorithm>

#include "catch.h"
#include "ovendays/weather/weather_check.h"
#include "weather_support.h"

namespace ovendays::test {
using weather::check_weather;
using weather::read_weather_text;
using weather::WeatherCheck;

namespace {
WeatherCheck check_of(const RowChange& change) {
  FilePlan plan;
  plan.change = [&change](FileRow& row) {
    // The temperature always changes, so that only the fault under test is found.
    row.dry_bulb = std::to_string(10 + row.hour % 12) + "." + std::to_string(row.date.day % 10);
    // Near the standard atmosphere at the site's 1500 m (846 hPa).
    row.pressure_hPa = std::to_string(840 + row.hour % 10);
    if (change) change(row);
  };
  return check_weather(read_weather_text(epw_file(plan), "a.epw"));
}

const weather::WeatherNote* finding(const WeatherCheck& check, const std::string& part) {
  const auto found = std::find_if(check.findings.begin(), check.findings.end(), [&](const auto& f) {
    return f.text.find(part) != std::string::npos;
  });
  return found == check.findings.end() ? nullptr : &*found;
}

int line_of(int month, int day, int hour) {
  return kEpwHeaderLines + 1 + 24 * base::day_index_365(month, day) + hour;
}
}  // namespace

TEST_CASE("a consistent year has no findings", "[weather][unit]") {
  const WeatherCheck check = check_of({});
  for (const auto& f : check.findings) UNSCOPED_INFO(f.text);
  CHECK(check.findings.empty());
  CHECK(check.closure_hours_tested > 3900);
  const std::vector<std::string> missing = {
      "rain", "horizontal infrared", "albedo", "snow depth", "gusts"};
  CHECK(check.missing == missing);
}

TEST_CASE("hours that do not close are counted with their energy", "[weather][unit]") {
  const WeatherCheck check = check_of([](FileRow& row) {
    if (row.date.month == 6 && row.date.day == 21 && row.hour >= 10 && row.hour < 14) {
      row.sky.ghi_Wm2 -= 200.0;
    }
  });
  CHECK(check.closure_hours_failed == 4);
  // Four hours of 200 W/m2; the file's coordinates and the refraction differ by well under 0.1 %.
  REQUIRE_THAT(check.closure_energy_failed_kWhm2, within_rel(0.8, 0.001));
  const auto* note = finding(check, "global, diffuse and beam do not add up in 4 hours of ");
  REQUIRE(note != nullptr);
  CHECK(note->line == line_of(6, 21, 10));
}

TEST_CASE("irradiance at night is reported, and the worst findings come first", "[weather][unit]") {
  const WeatherCheck check = check_of([](FileRow& row) {
    if (row.date.month == 3 && row.hour == 1) row.sky.ghi_Wm2 = 300.0;
    if (row.date.month == 1 && row.date.day == 1 && row.hour == 0) row.dew_point = "30";
  });
  CHECK(check.night_hours_with_beam == 31);
  REQUIRE_THAT(check.night_energy_kWhm2, within_rel(31 * 0.3, 1e-9));  // a sum of equal values
  REQUIRE(check.findings.size() == 2);
  CHECK(contains(check.findings[0].text, "irradiance while the sun is down in 31 hours"));
  CHECK(check.findings[0].line == line_of(3, 1, 1));
  CHECK(contains(check.findings[1].text, "dew point more than 1 K above the dry bulb in 1 hour"));
}

TEST_CASE("irradiance above the extraterrestrial value is reported", "[weather][unit]") {
  const WeatherCheck check = check_of([](FileRow& row) {
    if (row.date.month == 12 && row.date.day == 21 && row.hour == 12) row.sky.ghi_Wm2 = 900.0;
  });
  // At 40 N on 21 December, the extraterrestrial horizontal irradiance at noon is 1407 cos 63.4 deg
  // = 630 W/m2.
  CHECK(check.beyond_extraterrestrial_hours == 1);
  const auto* note =
      finding(check, "more irradiance than arrives outside the atmosphere in 1 hour");
  REQUIRE(note != nullptr);
  CHECK(note->line == line_of(12, 21, 12));
}

TEST_CASE("impossible air values are reported", "[weather][unit]") {
  const WeatherCheck stuck = check_of([](FileRow& row) {
    if (row.date.month == 8 && row.date.day <= 2) row.dry_bulb = "20.0";
  });
  const auto* note = finding(stuck, "dry bulb does not change for 48 hours");
  REQUIRE(note != nullptr);
  CHECK(note->line == line_of(8, 1, 0));
  const WeatherCheck low = check_of([](FileRow& row) { row.pressure_hPa = "1013"; });
  CHECK(finding(low, "does not fit the elevation of 1500 m") != nullptr);
  CHECK(finding(low, "pressure is the same in every hour") != nullptr);
  const WeatherCheck bright = check_of([](FileRow& row) {
    if (row.date.month == 7 && row.hour == 12) row.sky.dhi_Wm2 = row.sky.ghi_Wm2 + 100.0;
  });
  CHECK(finding(bright, "diffuse above global irradiance in 31 hours") != nullptr);
  const WeatherCheck gap = check_of([](FileRow& row) {
    if (row.date.month == 7 && row.date.day == 1 && row.hour < 5) row.wind = "999";
  });
  CHECK(finding(gap, "filled over gaps in 5 hours") != nullptr);
}

TEST_CASE("a time zone far from the longitude is reported besides the clock error",
          "[weather][unit]") {
  FilePlan plan;
  plan.header_zone_h = 0.0;
  const WeatherCheck check = check_weather(read_weather_text(epw_file(plan), "a.epw"));
  REQUIRE(check.findings.size() >= 2);
  CHECK(
      contains(check.findings[0].text, "the clock is off: the irradiance comes 420 min too early"));
  CHECK(contains(check.findings[1].text, "the time zone is 7.3 h from the one that fits"));
}

TEST_CASE("rain in tenths of a millimetre that was read as millimetres is reported",
          "[weather][unit]") {
  std::string text = epw_file({});
  std::size_t at = 0;
  const std::string none = "999,999,99,999,999,99\n";
  while ((at = text.find(none, at)) != std::string::npos) {
    text.replace(at, none.size(), "999,999,99,999,1,1\n");
  }
  const WeatherCheck check = check_weather(read_weather_text(text, "a.epw"));
  CHECK(finding(check, "8760 mm of rain in the year") != nullptr);
}
}  // namespace ovendays::test
