// SPDX-License-Identifier: MIT
// Files in UTC, instants that are not at the half hour, and clock shifts: the index of each hour.
#include <cmath>

#include "catch.h"
#include "weather_support.h"

namespace ovendays::test {
using weather::read_weather_text;
using weather::WeatherYear;

namespace {
// Checks that the irradiance of every hour is that of the sky at the instant the reader assigns to
// it. The file's three digits allow 0.0005 W/m2, its coordinates 0.0005 deg (0.01 W/m2).
void require_in_step(const WeatherYear& year, const sun::Place& place) {
  for (std::size_t i = 0; i < year.hours.size(); ++i) {
    const auto& hour = year.hours[i];
    const auto sky = plain_sky(hour.sun_time(year.place.utc_offset_s), place);
    REQUIRE_THAT(hour.ghi_Wm2, within_abs(sky.ghi_Wm2, 0.02));
    REQUIRE(std::fabs(hour.start_s - 3600.0 * static_cast<double>(i % 24)) <= 1800.0);
    REQUIRE(base::day_index_365(hour.date.month, hour.date.day) == static_cast<int>(i / 24));
  }
}

// A plan whose rows are in UTC. Rows that move across New Year keep the sun of their own calendar
// year, which the reader cannot know, so the check leaves hours near New Year out.
FilePlan utc_plan(double minute) {
  FilePlan plan;
  plan.rows_zone_h = 0.0;
  plan.minute = minute;
  return plan;
}

double noon_gap_h(const WeatherYear& year, int day) {
  int best = 0;
  for (int hour = 1; hour < 24; ++hour) {
    if (year.at(day, hour).ghi_Wm2 > year.at(day, best).ghi_Wm2) best = hour;
  }
  const auto& hour = year.at(day, best);
  const double solar_noon_h = 12.0 - (year.place.longitude_rad * 180.0 / 3.14159265358979 / 15.0 -
                                      year.place.utc_offset_s / 3600.0);
  return (hour.start_s + hour.sun_s) / 3600.0 - solar_noon_h;
}
}  // namespace

TEST_CASE("files in local time are in step with the sun", "[weather][identity]") {
  const FilePlan plan;
  require_in_step(read_weather_text(epw_file(plan), "a"), plan.place);
  require_in_step(read_weather_text(tmy3_file(plan), "a"), plan.place);
  require_in_step(read_weather_text(nsrdb_file(plan), "a"), plan.place);
}

TEST_CASE("a value at the full hour stands for the interval centred on it", "[weather][unit]") {
  FilePlan plan;
  plan.minute = 0.0;
  const WeatherYear year = read_weather_text(nsrdb_file(plan), "a");
  CHECK(year.hours[0].start_s == -1800.0);
  CHECK(year.hours[0].sun_s == 1800.0);
  CHECK(year.hours[0].date.day == 1);
  require_in_step(year, plan.place);
}

TEST_CASE("PVGIS rows are reordered from UTC to local standard time", "[weather][identity]") {
  for (const double offset_h : {0.0, 0.1761, 0.5}) {
    const FilePlan plan = utc_plan(offset_h * 60.0);
    const WeatherYear year = read_weather_text(pvgis_file(plan, offset_h), "a");
    CHECK(year.place.utc_offset_s == -25200.0);  // -110 deg / 15 is -7.3
    CHECK(has_note(year, "local standard time taken as UTC-7"));
    CHECK(has_note(year, "re-ordered into local standard time, UTC-7"));
    CHECK(year.hours[0].horizontal_ir_Wm2 == 300.0);
    // Header digits: 0.0001 h is 0.36 s.
    REQUIRE_THAT(year.hours[0].start_s, within_abs((offset_h - 0.5) * 3600.0, 0.4));
    REQUIRE_THAT(year.hours[0].met_s, within_abs((0.5 - offset_h) * 3600.0, 0.4));
    CHECK(year.hours[0].line == 19 + 7);  // 07:00 UTC; the rows begin in line 19
    for (const int day : {20, 100, 180, 300}) CHECK(std::fabs(noon_gap_h(year, day)) < 0.85);
  }
}

TEST_CASE("a PVGIS file without an offset line gets an offset of 0 and a note", "[weather][unit]") {
  const WeatherYear year = read_weather_text(pvgis_file(utc_plan(0.0), std::nullopt), "a");
  CHECK(has_note(year, "no irradiance time offset in the header; taken as 0"));
  CHECK(year.hours[0].start_s == -1800.0);
}

TEST_CASE("a stated time zone moves the rows of a UTC file, by half hours too",
          "[weather][identity]") {
  FilePlan plan = utc_plan(30.0);
  plan.place.longitude_rad = 78.0 * 3.14159265358979 / 180.0;
  plan.place.utc_offset_s = 19800.0;
  weather::SiteOverrides overrides;
  overrides.utc_offset_s = 19800.0;
  const WeatherYear year = read_weather_text(pvgis_file(plan, 0.5), "a", overrides);
  CHECK(std::fabs(year.hours[0].start_s) == 1800.0);
  for (const int day : {20, 100, 180, 300}) CHECK(std::fabs(noon_gap_h(year, day)) < 0.85);
}

TEST_CASE("an NSRDB file in UTC is moved to the local time zone of its header",
          "[weather][identity]") {
  const FilePlan plan = utc_plan(30.0);
  const WeatherYear year = read_weather_text(nsrdb_file(plan), "a");
  CHECK(year.place.utc_offset_s == -25200.0);
  CHECK(year.hours[0].line == 4 + 7);
  for (const int day : {20, 100, 180, 300}) CHECK(std::fabs(noon_gap_h(year, day)) < 0.85);
}

TEST_CASE("a clock shift moves the time stamps and keeps each hour at its index",
          "[weather][unit]") {
  const std::string text = epw_file({});
  weather::SiteOverrides overrides;
  overrides.clock_shift_s = 3600.0;
  WeatherYear year = read_weather_text(text, "a", overrides);
  CHECK(year.clock_shift_s == 3600.0);
  CHECK(year.hours[1].line == 9);
  CHECK(year.hours[1].start_s == 3600.0);
  CHECK(year.hours[0].line == 8768);  // the year wraps around
  CHECK(has_note(year, "time stamps moved by 60 min as the case states"));
  overrides.clock_shift_s = -600.0;
  year = read_weather_text(text, "a", overrides);
  CHECK(year.hours[0].line == 9);
  CHECK(year.hours[0].start_s == -600.0);
  CHECK(year.hours[25].start_s == 3000.0);
}
}  // namespace ovendays::test
