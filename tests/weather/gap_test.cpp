// SPDX-License-Identifier: MIT
#include <cmath>

#include "catch.h"
#include "weather_support.h"

namespace ovendays::test {
using weather::read_weather_text;
using weather::WeatherYear;

namespace {
RowChange between(
    int month, int day, int first, int last, const std::function<void(FileRow&)>& change) {
  return [=](FileRow& row) {
    const bool in = row.date.month == month && row.date.day == day;
    if (in && row.hour >= first && row.hour <= last) change(row);
  };
}
}  // namespace

TEST_CASE("missing values are interpolated, counted and noted", "[weather][unit]") {
  FilePlan plan;
  plan.change = [](FileRow& row) {
    const bool day = row.date.month == 5 && row.date.day == 10;
    if (day && row.hour == 9) row.dry_bulb = "10.0";
    if (day && row.hour >= 10 && row.hour <= 12) row.dry_bulb = "99.9";
    if (day && row.hour == 13) row.dry_bulb = "18.0";
    if (day && row.hour == 12) row.wind = "999";
    if (day && row.hour == 20) row.ghi = "9999";
  };
  const WeatherYear year = read_weather_text(epw_file(plan), "a.epw");
  const int day = base::day_index_365(5, 10);
  // Interpolated from 10 to 18 C in four steps.
  REQUIRE_THAT(year.at(day, 10).dry_bulb_K, within_abs(273.15 + 12.0, 1e-9));
  REQUIRE_THAT(year.at(day, 12).dry_bulb_K, within_abs(273.15 + 16.0, 1e-9));
  CHECK(year.at(day, 11).filled);
  CHECK_FALSE(year.at(day, 13).filled);
  CHECK(year.filled_hours == 4);
  CHECK(has_note(year, "dry bulb: 3 hours filled by interpolation"));
  CHECK(has_note(year, "wind speed: 1 hour filled by interpolation"));
  CHECK(has_note(year, "global horizontal irradiance: 1 hour filled"));
}

TEST_CASE("each column has its own missing-value code", "[weather][unit]") {
  FilePlan plan;  // 99.9 means missing for a temperature but is a valid irradiance
  plan.change = between(1, 2, 0, 0, [](FileRow& row) { row.dhi = "99.9"; });
  const WeatherYear epw = read_weather_text(epw_file(plan), "a.epw");
  CHECK(epw.filled_hours == 0);
  CHECK(epw.at(1, 0).dhi_Wm2 == 99.9);
  plan.change = between(1, 2, 0, 0, [](FileRow& row) {
    row.dew_point = "-9900";
    row.pressure_hPa = "-9900";
  });
  const WeatherYear tmy3 = read_weather_text(tmy3_file(plan), "a.csv");
  CHECK(tmy3.filled_hours == 1);
  CHECK(has_note(tmy3, "dew point: 1 hour filled"));
  plan.change = between(1, 2, 0, 0, [](FileRow& row) { row.dry_bulb = ""; });
  CHECK(read_weather_text(nsrdb_file(plan), "a.csv").filled_hours == 1);
}

TEST_CASE("missing rows are treated as gaps in all columns", "[weather][unit]") {
  FilePlan plan;
  plan.change = between(7, 4, 2, 7, [](FileRow& row) { row.skip = true; });
  const WeatherYear year = read_weather_text(epw_file(plan), "a.epw");
  CHECK(year.hours_in_file == 8754);
  CHECK(year.filled_hours == 6);
  const int day = base::day_index_365(7, 4);
  CHECK(year.at(day, 2).line == 0);
  CHECK(year.at(day, 2).filled);
  CHECK(year.at(day, 2).date.day == 4);
}

TEST_CASE("a gap over New Year is filled across the end of the year", "[weather][unit]") {
  FilePlan plan;
  plan.change = [](FileRow& row) {
    const bool end = row.date.month == 12 && row.date.day == 31 && row.hour >= 22;
    const bool begin = row.date.month == 1 && row.date.day == 1 && row.hour < 2;
    if (end || begin) row.dry_bulb = "99.9";
    if (row.date.month == 12 && row.hour == 21) row.dry_bulb = "0.0";
    if (row.date.month == 1 && row.hour == 2) row.dry_bulb = "5.0";
  };
  const WeatherYear year = read_weather_text(epw_file(plan), "a.epw");
  REQUIRE_THAT(year.hours.back().dry_bulb_K, within_abs(275.15, 1e-9));   // 0 + 2/5 of 5
  REQUIRE_THAT(year.hours.front().dry_bulb_K, within_abs(276.15, 1e-9));  // 0 + 3/5 of 5
}

TEST_CASE("a gap of more than six hours is rejected unless allowed", "[weather][unit]") {
  FilePlan plan;
  plan.change = between(6, 15, 8, 14, [](FileRow& row) { row.ghi = row.dni = row.dhi = "9999"; });
  const std::string text = epw_file(plan);
  const int line = kEpwHeaderLines + 1 + 24 * base::day_index_365(6, 15) + 8;
  CHECK(contains(fault_of(text),
                 "year:" + std::to_string(line) +
                     ": global horizontal irradiance: missing for 7 hours, allowed gaps of at "
                     "most 6 hours"));
  weather::SiteOverrides overrides;
  overrides.allow_long_gaps = true;
  const WeatherYear year = read_weather_text(text, "a.epw", overrides);
  CHECK(year.filled_hours == 7);
  CHECK(has_note(year, "7 hours in long gaps filled from the same hour of the days around"));
  // The sky does not change, so neighbouring days differ only by one day's change of the sun.
  const WeatherYear whole = read_weather_text(epw_file({}), "a.epw");
  const int day = base::day_index_365(6, 15);
  for (int hour = 8; hour <= 14; ++hour) {
    REQUIRE_THAT(year.at(day, hour).ghi_Wm2, within_abs(whole.at(day, hour).ghi_Wm2, 1.0));
  }
}

TEST_CASE("a gap of whole rows is reported once, not once for each column", "[weather][unit]") {
  FilePlan plan;
  plan.change = between(6, 15, 8, 20, [](FileRow& row) { row.skip = true; });
  const std::string fault = fault_of(epw_file(plan));
  CHECK(contains(fault, "rows: missing for 13 hours"));
  CHECK(fault.find('\n') == std::string::npos);
}

TEST_CASE("a column without values is rejected, but pressure is computed", "[weather][unit]") {
  FilePlan plan;
  plan.change = [](FileRow& row) { row.wind = "999"; };
  CHECK(contains(fault_of(epw_file(plan)), "wind speed: no value in the whole file"));
  plan.change = [](FileRow& row) { row.pressure_hPa = "99999"; };
  const WeatherYear year = read_weather_text(epw_file(plan), "a.epw");
  CHECK(has_note(year, "no pressure in the file: standard atmosphere at 1500 m"));
  // ICAO standard atmosphere: 845.6 hPa at 1500 m (table value, 0.1 hPa).
  REQUIRE_THAT(year.hours[0].pressure_Pa, within_abs(84560.0, 20.0));
}

TEST_CASE("slightly negative irradiance is set to zero and counted", "[weather][unit]") {
  FilePlan plan;
  plan.change =
      between(1, 1, 0, 2, [](FileRow& row) { row.ghi = row.hour == 2 ? "-0.0" : "-3.5"; });
  const WeatherYear year = read_weather_text(epw_file(plan), "a.epw");
  CHECK(year.hours[0].ghi_Wm2 == 0.0);
  CHECK_FALSE(std::signbit(year.hours[2].ghi_Wm2));
  CHECK(has_note(year, "irradiance below zero by up to 10 W/m2 set to 0 in 2 values"));
}
}  // namespace ovendays::test
