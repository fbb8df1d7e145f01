// SPDX-License-Identifier: MIT
#include <cmath>

#include "catch.h"
#include "ovendays/weather/weather_check.h"
#include "weather_support.h"

namespace ovendays::test {
using weather::check_clock;
using weather::ClockCheck;
using weather::read_weather;
using weather::read_weather_text;
using weather::WeatherYear;

namespace {
// The difference of two clock times, wrapped to 24 h.
double ring_gap_s(double a_s, double b_s) { return std::remainder(a_s - b_s, 86400.0); }

// check_clock() promises about five minutes; these tests require one.
constexpr double kMinute_s = 60.0;
}  // namespace

TEST_CASE("any clock shift applied to a real file is found", "[weather][reference]") {
  const bool nsrdb = GENERATE(false, true);
  const std::string name = nsrdb ? "weather/test_psm4_tmy-2023.csv" : "weather/723170TYA.CSV";
  if (!have_shared(name)) return;
  weather::SiteOverrides site = nsrdb ? nsrdb_site() : weather::SiteOverrides{};
  for (const double minutes : {-540.0,
                               -480.0,
                               -300.0,
                               -150.0,
                               -60.0,
                               -30.0,
                               -17.0,
                               -10.0,
                               -5.0,
                               5.0,
                               10.0,
                               17.0,
                               30.0,
                               60.0,
                               210.0,
                               420.0,
                               540.0,
                               715.0}) {
    site.clock_shift_s = minutes * 60.0;
    const ClockCheck clock = check_clock(read_weather(shared_file(name).value(), site));
    INFO(name << " shifted by " << minutes << " min gives " << clock.shift_s / 60.0);
    REQUIRE(clock.possible);
    REQUIRE_THAT(ring_gap_s(clock.shift_s, -minutes * 60.0), within_abs(0.0, kMinute_s));
    if (std::fabs(minutes) != 10.0) CHECK(clock.off == (std::fabs(minutes) > 10.0));
  }
}

TEST_CASE("a clock shift is found in the far north", "[weather][reference]") {
  if (!have_shared("weather/703165TY.csv")) return;
  weather::SiteOverrides site;
  for (const double hours : {-9.0, -1.0, 0.5, 3.0, 9.0}) {
    site.clock_shift_s = hours * 3600.0;
    const auto year = read_weather(shared_file("weather/703165TY.csv").value(), site);
    REQUIRE_THAT(check_clock(year).shift_s, within_abs(-hours * 3600.0, kMinute_s));
  }
}

TEST_CASE("a wrong time zone in an EPW header is reported as a clock error",
          "[weather][identity]") {
  FilePlan plan;
  for (const double header_zone_h : {-12.0, -8.0, -6.0, 0.0, 1.0, 4.5}) {
    plan.header_zone_h = header_zone_h;  // the rows remain in UTC-7
    const WeatherYear year = read_weather_text(epw_file(plan), "a.epw");
    const ClockCheck clock = check_clock(year);
    INFO("header zone " << header_zone_h);
    CHECK(clock.off);
    // A row at 12:00 in UTC-7 that is labelled UTC-8 must be read as 11:00 there, so the shift is
    // the difference of the time zones.
    REQUIRE_THAT(ring_gap_s(clock.shift_s, (header_zone_h + 7.0) * 3600.0),
                 within_abs(0.0, kMinute_s));
  }
}

TEST_CASE("the suggested clock shift removes the clock error", "[weather][identity]") {
  FilePlan plan;
  plan.rows_zone_h = 0.0;  // rows in UTC under a header that says UTC-7
  const std::string text = epw_file(plan);
  weather::SiteOverrides overrides;
  overrides.clock_shift_s = check_clock(read_weather_text(text, "a.epw")).shift_s;
  REQUIRE_THAT(*overrides.clock_shift_s, within_abs(-25200.0, kMinute_s));
  const ClockCheck after = check_clock(read_weather_text(text, "a.epw", overrides));
  CHECK_FALSE(after.off);
  REQUIRE_THAT(after.shift_s,
               within_abs(0.0, 5.0));  // remainder of one minute after one correction
}

TEST_CASE("clock shifts are found in the southern hemisphere and under a zenith sun",
          "[weather][identity]") {
  FilePlan plan;
  plan.place.latitude_rad = GENERATE(-0.6, -0.1, 0.0, 0.35);
  plan.header_zone_h = -5.0;
  const ClockCheck clock = check_clock(read_weather_text(epw_file(plan), "a.epw"));
  REQUIRE_THAT(clock.shift_s, within_abs(7200.0, kMinute_s));
}

TEST_CASE("the shape of the days gives the shift if the irradiances do not close",
          "[weather][unit]") {
  FilePlan plan;
  plan.header_zone_h = -5.0;
  plan.change = [](FileRow& row) {  // a beam unrelated to the other irradiances
    const int mix = (row.date.day * 7 + row.hour * 13) % 10;
    if (row.sky.dni_Wm2 > 0.0) row.sky.dni_Wm2 = 100.0 + 90.0 * mix;
  };
  const ClockCheck clock = check_clock(read_weather_text(epw_file(plan), "a.epw"));
  REQUIRE(clock.possible);
  CHECK_FALSE(clock.by_closure);
  CHECK(clock.off);
  REQUIRE_THAT(clock.shift_s, within_abs(7200.0, 600.0));  // the shape method reaches ten minutes
}

TEST_CASE("the shape of the days reveals a beam that was computed with a wrong clock",
          "[weather][unit]") {
  // GHI is from one clock; DNI and DHI are computed to close with the sun of another.
  FilePlan plan;
  plan.change = [&plan](FileRow& row) {
    const double seconds = row.hour * 3600.0 + 1800.0;
    const auto late =
        plain_sky(base::utc_from_local(row.date, seconds - 7200.0, -25200.0), plan.place);
    const double cos_z = (row.sky.ghi_Wm2 - 60.0) / 700.0;
    row.sky.ghi_Wm2 = late.ghi_Wm2;
    row.sky.dni_Wm2 = cos_z > 0.05 && late.ghi_Wm2 > 150.0 ? 0.5 * late.ghi_Wm2 / cos_z : 0.0;
    if (row.sky.dni_Wm2 > 1000.0) row.sky.dni_Wm2 = 0.0;
    row.sky.dhi_Wm2 = late.ghi_Wm2 - row.sky.dni_Wm2 * std::max(0.0, cos_z);
  };
  const auto check = weather::check_weather(read_weather_text(epw_file(plan), "a.epw"));
  REQUIRE(check.clock.by_closure);
  CHECK_FALSE(check.clock.off);
  REQUIRE_THAT(check.clock.shape_shift_s,
               within_abs(-7200.0, 900.0));  // a quarter of an hour in two hours
  REQUIRE_FALSE(check.findings.empty());
  CHECK(contains(check.findings[0].text, "the middle of clear days lies"));
}

TEST_CASE("the clock of a year without sun cannot be checked", "[weather][unit]") {
  FilePlan plan;
  plan.change = [](FileRow& row) { row.sky = {}; };
  const WeatherYear year = read_weather_text(epw_file(plan), "a.epw");
  CHECK_FALSE(check_clock(year).possible);
  CHECK_FALSE(check_clock(year).off);
  CHECK_NOTHROW(weather::require_sound_clock(year, check_clock(year), false));
}

TEST_CASE("a clock error is an input error unless the case states a shift", "[weather][unit]") {
  FilePlan plan;
  plan.header_zone_h = -5.0;
  const WeatherYear year = read_weather_text(epw_file(plan), "a.epw");
  const ClockCheck clock = check_clock(year);
  CHECK_NOTHROW(weather::require_sound_clock(year, clock, true));
  std::string message;
  try {
    weather::require_sound_clock(year, clock, false);
  } catch (const base::InputError& error) {
    message = error.what();
  }
  CHECK(contains(message, "a.epw: site.clock_shift: "));
  CHECK(contains(message, "120 min must be added to them"));
}
}  // namespace ovendays::test
