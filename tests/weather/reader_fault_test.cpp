// SPDX-License-Identifier: MIT
#include "catch.h"
#include "weather_support.h"

namespace ovendays::test {
namespace {
// Line number of 1 January, hour h, in an EPW file.
std::string hour_line(int hour) {
  return "year:" + std::to_string(kEpwHeaderLines + 1 + hour) + ": ";
}

RowChange on_first_day(const std::function<void(FileRow&)>& change) {
  return [change](FileRow& row) {
    if (row.date.month == 1 && row.date.day == 1) change(row);
  };
}
}  // namespace

TEST_CASE("a file of an unknown format is rejected with a list of the known ones",
          "[weather][unit]") {
  CHECK(contains(fault_of("hello\nworld\n"), "EPW, TMY3 CSV, NSRDB CSV or PVGIS"));
  CHECK(contains(fault_of(""), "an empty file"));
  CHECK_THROWS_AS(weather::read_weather("no-such-file.epw"), base::InputError);
}

TEST_CASE("all impossible values are reported together with their lines", "[weather][unit]") {
  FilePlan plan;
  plan.change = on_first_day([](FileRow& row) {
    if (row.hour == 1) row.dry_bulb = "-91";
    if (row.hour == 2) row.dry_bulb = "66";
    if (row.hour == 3) row.dni = "1501";
    if (row.hour == 4) row.ghi = "nan";
    if (row.hour == 5) row.dhi = "much";
    if (row.hour == 6) row.wind = "-1";
    if (row.hour == 7) row.ghi = "-11";
    if (row.hour == 8) row.pressure_hPa = "13";
  });
  const std::string fault = fault_of(epw_file(plan));
  CHECK(contains(fault, hour_line(1) + "dry bulb: -91, allowed -90 to 65"));
  CHECK(contains(fault, hour_line(2) + "dry bulb: 66"));
  CHECK(contains(fault, hour_line(3) + "direct normal: 1501, allowed -10 to 1500"));
  CHECK(contains(fault, hour_line(4) + "global horizontal: 'nan' is not a number"));
  CHECK(contains(fault, hour_line(5) + "diffuse horizontal: 'much' is not a number"));
  CHECK(contains(fault, hour_line(6) + "wind speed: -1"));
  CHECK(contains(fault, hour_line(7) + "global horizontal: -11"));
  CHECK(contains(fault, hour_line(8) + "pressure: 1300"));
}

TEST_CASE("a value larger than any missing-value code is not such a code",
          "[weather][regression]") {
  FilePlan plan;
  plan.change = on_first_day([](FileRow& row) {
    if (row.hour == 1) row.dry_bulb = "1e308";
    if (row.hour == 2) row.ghi = "1e10";
    if (row.hour == 3) row.wind = "999";
  });
  const std::string fault = fault_of(epw_file(plan));
  CHECK(contains(fault, hour_line(1) + "dry bulb: 1e308, allowed -90 to 65"));
  CHECK(contains(fault, hour_line(2) + "global horizontal: 1e10"));
  CHECK_FALSE(contains(fault, hour_line(3)));
}

TEST_CASE("a very long site name is shortened", "[weather][regression]") {
  std::string text = epw_file({});
  text.replace(text.find(',') + 1,
               text.find(',', text.find(',') + 1) - text.find(',') - 1,
               std::string(100'000, 'y'));
  CHECK(weather::read_weather_text(text, "year").place.name == std::string(120, 'y'));
}

TEST_CASE("twenty faults are listed and the rest counted", "[weather][unit]") {
  FilePlan plan;
  plan.change = [](FileRow& row) {
    if (row.date.month == 1 && row.date.day <= 2) row.dry_bulb = "hot";
  };
  const std::string fault = fault_of(epw_file(plan));
  CHECK(contains(fault, hour_line(19)));
  CHECK_FALSE(contains(fault, hour_line(20)));
  CHECK(contains(fault, "and 28 more faults"));
}

TEST_CASE("a very long field is shortened in its message", "[weather][regression]") {
  const std::string book(100'000, '7');
  const std::string fault = fault_of("LOCATION,a,b,c,d,e,1,2,3,4\n2001,1," + book +
                                     ",1,60,?,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1,1\n");
  CHECK(contains(fault, "year:2: stamp: 2001,1,777"));
  CHECK(fault.size() < 300);
}

TEST_CASE("repeated and unordered time stamps are rejected", "[weather][unit]") {
  const std::string text = epw_file({});
  const std::size_t first = text.find("2001,1,1,3,60");
  const std::size_t second = text.find("2001,1,1,4,60");
  const std::size_t third = text.find("2001,1,1,5,60");
  const std::string row3 = text.substr(first, second - first);
  const std::string row4 = text.substr(second, third - second);
  const std::string repeated = text.substr(0, second) + row3 + text.substr(third);
  CHECK(contains(fault_of(repeated), "year:12: stamp: the same as in line 11"));
  const std::string swapped = text.substr(0, first) + row4 + row3 + text.substr(third);
  CHECK(contains(fault_of(swapped), "year:12: stamp: earlier than in the line before"));
}

TEST_CASE("dates that do not exist are rejected", "[weather][unit]") {
  std::string text = epw_file({});
  text.replace(text.find("2001,1,1,3,60"), 13, "2001,1,32,3,60");
  CHECK(contains(fault_of(text), "year:11: stamp: 2001,1,32,3,60"));
  text = epw_file({});
  text.replace(text.find("2001,1,1,3,60"), 13, "2001,1,1,25,60");
  CHECK(contains(fault_of(text), "hour 1 to 24, minute 0 or 60"));
  text = epw_file({});
  text.replace(text.find("2001,1,1,3,60"), 4, "0201");
  CHECK(contains(fault_of(text), "year:11: stamp: 0201,1,1,3,60"));
  text = tmy3_file({});
  text.replace(text.find("01/01/2001,03:00"), 16, "01/01/2001,03:30");
  CHECK(contains(fault_of(text), "year:5: stamp: 01/01/2001,03:30"));
}

TEST_CASE("a file with too few hours is rejected", "[weather][unit]") {
  FilePlan plan;
  plan.change = [](FileRow& row) { row.skip = row.date.month > 4; };
  weather::SiteOverrides overrides;
  overrides.allow_long_gaps = true;
  CHECK(contains(fault_of(epw_file(plan), overrides), "hours: 2880, allowed 8760"));
}

TEST_CASE("half-hourly rows are rejected with advice on what to request", "[weather][unit]") {
  std::string text = nsrdb_file({});
  const std::size_t row = text.find("2001,1,1,1,30");
  text.insert(row, "2001,1,1,1,0,1,0,0,0,1,900,1,0.2\n");
  CHECK(contains(fault_of(text), "year:5: minute: 0 after rows at another minute"));
  CHECK(contains(fault_of(text), "an interval of 60"));
  text = epw_file({});
  text.replace(text.find("DATA PERIODS,1,1"), 16, "DATA PERIODS,1,2");
  CHECK(contains(fault_of(text), "year:8: records per hour: 2, allowed 1"));
}

TEST_CASE("missing required columns are named", "[weather][unit]") {
  std::string text = tmy3_file({});
  text.replace(text.find("DNI (W/m^2)"), 3, "QQQ");
  CHECK(contains(fault_of(text), "year:2: DNI (W/m^2): column not found"));
  text = nsrdb_file({});
  text.replace(text.find("Wind Speed"), 4, "Find");
  CHECK(contains(fault_of(text), "year:3: wind speed: column not found"));
  FilePlan utc;
  utc.rows_zone_h = 0.0;
  text = pvgis_file(utc, 0.0);
  text.replace(text.find("Gb(n)"), 5, "Gx(n)");
  CHECK(contains(fault_of(text), "Gb(n): column not found"));
}

TEST_CASE("an impossible header is rejected", "[weather][unit]") {
  std::string text = epw_file({});
  text.replace(text.find("40.000"), 6, "95.000");
  CHECK(contains(fault_of(text), "year:1: latitude: 95.000, allowed -90 to 90"));
  text = epw_file({});
  text.replace(text.find("-7.00,"), 6, "-7h,");
  CHECK(contains(fault_of(text), "year:1: time zone: '-7h' is not a number"));
}

TEST_CASE("the case must state the site if the file does not", "[weather][unit]") {
  const std::string text = nsrdb_file({}, false);
  const std::string fault = fault_of(text);
  CHECK(contains(fault, "site.latitude"));
  CHECK(contains(fault, "site.longitude"));
  CHECK(contains(fault, "site.utc_offset"));
  const auto year = weather::read_weather_text(text, "a.csv", nsrdb_site());
  CHECK_FALSE(year.place_known);
  CHECK(year.hours.front().line == 2);
}
}  // namespace ovendays::test
