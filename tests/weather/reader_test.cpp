// SPDX-License-Identifier: MIT
#include "catch.h"
#include "ovendays/base/constants.h"
#include "weather_support.h"

namespace ovendays::test {
using weather::read_weather_text;
using weather::WeatherFormat;
using weather::WeatherYear;

namespace {
std::string with_dos_ends(const std::string& text) {
  std::string dos;
  for (const char c : text) {
    if (c == '\n') dos += '\r';
    dos += c;
  }
  return dos;
}

void replace_in_line(std::string& text, int line, const std::string& from, const std::string& to) {
  std::size_t at = 0;
  for (int i = 1; i < line; ++i) at = text.find('\n', at) + 1;
  const std::size_t found = text.find(from, at);
  REQUIRE(found < text.find('\n', at));
  text.replace(found, from.size(), to);
}

bool same_hours(const WeatherYear& a, const WeatherYear& b) {
  for (std::size_t i = 0; i < a.hours.size(); ++i) {
    const auto& p = a.hours[i];
    const auto& q = b.hours[i];
    if (p.ghi_Wm2 != q.ghi_Wm2 || p.dry_bulb_K != q.dry_bulb_K || p.start_s != q.start_s ||
        p.line != q.line || p.precipitation_m != q.precipitation_m) {
      return false;
    }
  }
  return a.hours.size() == b.hours.size();
}
}  // namespace

TEST_CASE("the format is detected from the content, not from the file name", "[weather][unit]") {
  const FilePlan plan;
  CHECK(read_weather_text(epw_file(plan), "a.csv").format == WeatherFormat::kEpw);
  CHECK(read_weather_text(tmy3_file(plan), "a.epw").format == WeatherFormat::kTmy3);
  CHECK(read_weather_text(nsrdb_file(plan), "a.epw").format == WeatherFormat::kNsrdb);
  FilePlan utc;
  utc.rows_zone_h = 0.0;
  CHECK(read_weather_text(pvgis_file(utc, 0.5), "a.epw").format == WeatherFormat::kPvgis);
  CHECK(std::string(weather::format_name(WeatherFormat::kPvgis)) == "PVGIS");
}

TEST_CASE("an EPW hour ends at its time stamp, and its air values are of that instant",
          "[weather][unit]") {
  FilePlan plan;
  plan.change = [](FileRow& row) {
    if (row.date.month == 12 && row.date.day == 31 && row.hour == 23) row.dry_bulb = "-3.5";
  };
  const WeatherYear year = read_weather_text(epw_file(plan), "a.epw");
  REQUIRE(year.hours.size() == 8760);
  CHECK(year.hours_in_file == 8760);
  CHECK(year.place.name == "Testfield");
  CHECK(year.place.utc_offset_s == -25200.0);
  CHECK(year.place.elevation_m == 1500.0);
  const auto& last = year.hours.back();
  CHECK(last.date.day == 31);
  CHECK(last.start_s == 82800.0);
  CHECK(last.sun_s == 1800.0);
  CHECK(last.met_s == 3600.0);
  CHECK(last.line == 8768);
  // The figures are the file's own, so only one addition rounds.
  REQUIRE_THAT(last.dry_bulb_K, within_abs(269.65, 1e-12));
  CHECK(last.pressure_Pa == 100000.0);
  CHECK_FALSE(last.horizontal_ir_Wm2);
  CHECK_FALSE(last.albedo);
  CHECK_FALSE(last.snow_depth_m);
  CHECK_FALSE(last.precipitation_m);
  CHECK_FALSE(last.gust_ms);
}

TEST_CASE("DOS line ends, a byte-order mark and minute 0 change nothing", "[weather][unit]") {
  const std::string plain = epw_file({});
  const WeatherYear year = read_weather_text(plain, "a.epw");
  CHECK(same_hours(year, read_weather_text("\xEF\xBB\xBF" + with_dos_ends(plain), "a.epw")));
  std::string minute_zero = plain;
  replace_in_line(minute_zero, 9, ",1,60,", ",1,0,");
  CHECK(same_hours(year, read_weather_text(minute_zero, "a.epw")));
}

TEST_CASE("optional EPW columns are read where a file has them", "[weather][unit]") {
  std::string text = epw_file({});
  const std::string none = "9,999999999,999,0.999,999,99,999,999,99";
  replace_in_line(text, 9, none, "9,999999999,999,0.999,12,99,0.35,1.5,1");
  replace_in_line(text, 10, "," + none, "");  // a short row as in old files
  replace_in_line(text, 11, none, "9,999999999,999,0.999,0,99,0,0,1");
  replace_in_line(text, 12, "9999,9999,9999,", "9999,9999,310,");
  const WeatherYear year = read_weather_text(text, "a.epw");
  REQUIRE_THAT(year.hours[0].snow_depth_m.value(), within_abs(0.12, 1e-12));  // cm to m
  REQUIRE_THAT(year.hours[0].albedo.value(), within_abs(0.35, 1e-12));
  REQUIRE_THAT(year.hours[0].precipitation_m.value(), within_abs(0.0015, 1e-12));  // mm to m
  CHECK_FALSE(year.hours[1].precipitation_m);
  CHECK(year.hours[2].precipitation_m == 0.0);
  CHECK_FALSE(year.hours[2].albedo);  // 0 is "not given"
  CHECK(year.hours[3].horizontal_ir_Wm2 == 310.0);
  CHECK(has_note(year, "albedo 0 treated as missing in 1 hour"));
}

TEST_CASE("impossible values in an optional column are noted but not fatal", "[weather][unit]") {
  std::string text = epw_file({});
  replace_in_line(text, 9, "0.999,999,99,999,999,99", "0.999,999,99,7,999,99");
  const WeatherYear year = read_weather_text(text, "a.epw");
  CHECK_FALSE(year.hours[0].albedo);
  CHECK(has_note(year, "albedo of 7 is not possible; treated as missing in 1 hour"));
}

TEST_CASE("29 February is dropped with a note", "[weather][unit]") {
  FilePlan plan;
  plan.year = 2004;
  plan.change = [](FileRow& row) {
    if (row.date.month == 2 && row.date.day == 29) row.dry_bulb = "40.0";
    if (row.date.month == 3 && row.date.day == 1) row.dry_bulb = "20.0";
  };
  for (const std::string& text : {epw_file(plan), tmy3_file(plan), nsrdb_file(plan)}) {
    const WeatherYear year = read_weather_text(text, "leap");
    CHECK(year.hours_in_file == 8784);
    REQUIRE(year.hours.size() == 8760);
    CHECK(has_note(year, "29 February dropped"));
    CHECK(year.at(58, 23).date.day == 28);
    CHECK(year.at(59, 0).date.month == 3);
    REQUIRE_THAT(year.at(59, 0).dry_bulb_K, within_abs(293.15, 1e-9));  // one addition
  }
}

TEST_CASE("TMY3 columns are found by name and albedo 0 counts as missing", "[weather][unit]") {
  const WeatherYear year = read_weather_text(tmy3_file({}), "a.csv");
  CHECK(year.place.name == "TEST, FIELD");
  CHECK(year.hours.front().line == 3);
  CHECK(year.hours.front().start_s == 0.0);
  CHECK(year.hours.front().met_s == 3600.0);
  CHECK(year.hours.front().wind_ms == 3.0);
  CHECK(has_note(year, "albedo 0 treated as missing in 8760 hours"));
  for (const auto& hour : year.hours) {
    REQUIRE_FALSE(hour.albedo);
    REQUIRE_FALSE(hour.precipitation_m);
  }
}

TEST_CASE("a year may begin in any month and is reordered to start on 1 January",
          "[weather][unit]") {
  const std::string text = epw_file({});
  std::size_t data = 0;
  for (int i = 0; i < kEpwHeaderLines; ++i) data = text.find('\n', data) + 1;
  const std::size_t july = text.find("2001,7,1,1,60");
  const std::string turned =
      text.substr(0, data) + text.substr(july) + text.substr(data, july - data);
  const WeatherYear year = read_weather_text(turned, "a.epw");
  CHECK(year.hours.front().date.month == 1);
  CHECK(year.at(181, 0).line == 9);
  CHECK(year.at(181, 12).ghi_Wm2 == read_weather_text(text, "a.epw").at(181, 12).ghi_Wm2);
}

TEST_CASE("the case's statements about the site override the header", "[weather][unit]") {
  weather::SiteOverrides overrides;
  overrides.name = "Elsewhere";
  overrides.latitude_rad = 0.5;
  overrides.longitude_rad = -1.9;
  overrides.elevation_m = 77.0;
  overrides.utc_offset_s = -21600.0;
  const WeatherYear year = read_weather_text(epw_file({}), "a.epw", overrides);
  CHECK(year.place.name == "Elsewhere");
  CHECK(year.place.latitude_rad == 0.5);
  CHECK(year.place.longitude_rad == -1.9);
  CHECK(year.place.elevation_m == 77.0);
  CHECK(year.place.utc_offset_s == -21600.0);
  CHECK(year.hours.front().line == 9);  // a stated time zone relabels the clock and moves no row
}

TEST_CASE("the dew point is computed from humidity where the file lacks it", "[weather][unit]") {
  FilePlan plan;
  plan.rows_zone_h = 0.0;
  const WeatherYear year = read_weather_text(pvgis_file(plan, 0.5), "a.csv");
  CHECK(has_note(year, "dew point computed from temperature and humidity in 8760 hours"));
  // The dew point of 15 C at 60 % is 7.3 C (any psychrometric chart, 0.1 K).
  REQUIRE_THAT(year.hours[0].dew_point_K, within_abs(273.15 + 7.3, 0.1));
}

TEST_CASE("#16 - each format's air belongs to the instant that its stamp means",
          "[weather][unit]") {
  // The temperature tells the row: 0.25 K an hour from midnight. See weather_year.h for the stamps.
  struct Format {
    const char* name;
    std::string (*text)(const FilePlan&);
    double minute;
    double air_after_hour_s;  // of the row's hour, in local standard time
  };
  const Format formats[] = {
      {"EPW", epw_file, 30.0, 3600.0},
      {"TMY3", tmy3_file, 30.0, 3600.0},
      {"NSRDB", [](const FilePlan& plan) { return nsrdb_file(plan); }, 30.0, 1800.0},
      {"NSRDB", [](const FilePlan& plan) { return nsrdb_file(plan); }, 0.0, 0.0},
      {"NSRDB", [](const FilePlan& plan) { return nsrdb_file(plan); }, 45.0, 2700.0},
      {"PVGIS", [](const FilePlan& plan) { return pvgis_file(plan, 0.5); }, 30.0, 0.0}};
  for (const Format& format : formats) {
    FilePlan plan;
    plan.minute = format.minute;
    const bool utc = std::string(format.name) == "PVGIS";
    const int zone_h = static_cast<int>(plan.header_zone_h);
    if (utc) plan.rows_zone_h = 0.0;
    plan.change = [&](FileRow& row) {
      const int local_hour = utc ? (row.hour + 24 + zone_h) % 24 : row.hour;
      row.dry_bulb = std::to_string(0.25 * local_hour);
      row.dew_point = "-5.0";
    };
    const WeatherYear year = read_weather_text(format.text(plan), "a");
    for (int hour = 1; hour < 23; ++hour) {
      const auto& record = year.at(200, hour);
      INFO(format.name << ", minute " << format.minute << ", hour " << hour);
      const double row_hour = (record.dry_bulb_K - 273.15) / 0.25;
      // Digits of the file: a millionth of a kelvin.
      CHECK_THAT(record.start_s + record.met_s,
                 within_abs(3600.0 * row_hour + format.air_after_hour_s, 0.1));
    }
  }
}
}  // namespace ovendays::test
