// SPDX-License-Identifier: MIT
// Numbers in words. Expected texts are worked out by hand; no source is needed.
#include "words.h"

#include "catch.h"
#include "ovendays/base/constants.h"

using namespace ovendays;
using namespace ovendays::report;

TEST_CASE("numbers are grouped and never minus zero", "[report][unit]") {
  CHECK(grouped(0) == "0");
  CHECK(grouped(999) == "999");
  CHECK(grouped(1234567) == "1,234,567");
  CHECK(grouped(-1234) == "-1,234");
  CHECK(fixed(-0.04, 1) == "0.0");
  CHECK(fixed(-0.06, 1) == "-0.1");
}

TEST_CASE("temperatures come in both units, differences without an offset", "[report][unit]") {
  CHECK(temperature_text(373.15, TemperatureUnit::kCelsius) == "100 °C");
  CHECK(temperature_text(373.15, TemperatureUnit::kFahrenheit) == "212 °F");
  CHECK_THAT(degrees_apart(10.0, TemperatureUnit::kFahrenheit), test::within_abs(18.0, 1e-12));
}

TEST_CASE("durations and clocks are read as people say them", "[report][unit]") {
  CHECK(duration_text(-1) == "-");
  CHECK(duration_text(35 * 60) == "35 min");
  CHECK(duration_text(2 * 3600 + 5 * 60) == "2 h 05 min");
  CHECK(duration_text(3599) == "1 h 00 min");
  CHECK(clock_or_dash(-1) == "-");
  CHECK(clock_or_dash(9.5 * 3600) == "09:30");
  CHECK(days_text(1) == "1 day");
}

TEST_CASE("a place names its halves of the globe and its clock", "[report][unit]") {
  sun::Place place;
  place.latitude_rad = -33.5 * base::kRadPerDeg;
  place.longitude_rad = 151.25 * base::kRadPerDeg;
  place.elevation_m = 58;
  place.utc_offset_s = 9.5 * 3600;
  CHECK(place_text(place) == "33.50 S, 151.25 E, 58 m, UTC+9.50");
}

TEST_CASE("texts are padded and cut by letters, not bytes", "[report][unit]") {
  CHECK(columns_of("Crème") == 5);
  CHECK(pad_right("é", 3) == "é  ");
  CHECK(pad_left("é", 3) == "  é");
  CHECK(shortened("Crème brûlée", 6) == "Crème…");
  CHECK(shortened("short", 6) == "short");
  const std::vector<std::string> lines = wrap("one two three", 7);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0] == "one two");
  CHECK(wrap("", 7).size() == 1);
}

TEST_CASE("characters with a meaning in XML are escaped", "[report][unit]") {
  CHECK(escaped("a<b>&\"c\"\x01") == "a&lt;b&gt;&amp;&quot;c&quot;");
}
