// SPDX-License-Identifier: MIT
// What the command line is read as, without running anything.
#include "arguments.h"

#include "catch.h"
#include "demo_weather.h"

using namespace ovendays;
using namespace ovendays::cli;

namespace {
const CommandSpec& command(const std::string& name) {
  for (const CommandSpec& each : commands()) {
    if (each.name == name) return each;
  }
  throw std::logic_error("no such command");
}

std::string refusal(const std::string& name, const std::vector<std::string>& words) {
  try {
    const Arguments read(command(name), words);
  } catch (const UsageError& error) {
    return error.what();
  }
  return "";
}
}  // namespace

TEST_CASE("the nearest name is one or two slips away", "[cli][unit]") {
  const std::vector<std::string> known = {"season", "weather", "new", "help"};
  CHECK(nearest("seson", known) == "season");
  CHECK(nearest("saeson", known) == "season");  // two neighbours swapped
  CHECK(nearest("wether", known) == "weather");
  CHECK(nearest("quite-another-thing", known).empty());
}

TEST_CASE("options are read with their values, negative numbers too", "[cli][unit]") {
  const Arguments read(command("weather"),
                       {"a.epw", "--longitude", "-104.75", "--utc-offset=-7 h"});
  CHECK(read.files() == std::vector<std::string>{"a.epw"});
  // Worked out by hand: degrees over 57.29577951, hours times 3600.
  CHECK_THAT(*read.quantity("longitude", base::Dimension::kAngle, -4, 4),
             test::within_rel(-104.75 / 57.295779513082321, 1e-14));  // a few roundings
  CHECK(*read.quantity("utc-offset", base::Dimension::kTime, -43200, 50400) == -25200.0);
  CHECK_FALSE(read.quantity("elevation", base::Dimension::kLength, 0, 1).has_value());
}

TEST_CASE("each error on the command line is reported in one line", "[cli][unit]") {
  CHECK(test::contains(refusal("season", {"--treads", "2"}), "did you mean --threads?"));
  CHECK(test::contains(refusal("season", {"-q"}), "unknown option -q"));
  CHECK(test::contains(refusal("season", {"a.toml", "--out"}), "--out needs a value"));
  CHECK(test::contains(refusal("season", {"a.toml", "--demo=yes"}), "--demo takes no value"));
  CHECK(test::contains(refusal("season", {"--csv", "a", "--csv", "b"}), "--csv is given twice"));
  CHECK(test::contains(refusal("season", {"a.toml", "b.toml"}), "unexpected argument 'b.toml'"));
}

TEST_CASE("numbers and quantities outside their range are refused with it", "[cli][unit]") {
  const Arguments read(command("weather"), {"a.epw", "--latitude", "91", "--elevation", "3 kg"});
  CHECK_THROWS_AS(read.quantity("latitude", base::Dimension::kAngle, -1.5708, 1.5708), UsageError);
  CHECK_THROWS_AS(read.quantity("elevation", base::Dimension::kLength, -430, 6000), UsageError);
  for (const char* threads : {"0", "-1", "2.5", "many", "99999999999999999999"}) {
    const Arguments season(command("season"), {"--threads", threads});
    CHECK_THROWS_AS(season.integer("threads", 1, 1024), UsageError);
  }
}

TEST_CASE("every option of every command is explained, and help fits 80 columns", "[cli][unit]") {
  for (const CommandSpec& each : commands()) {
    const std::string help = command_help(each);
    CHECK_FALSE(each.examples.empty());
    for (const OptionSpec& option : each.options) {
      CHECK(test::contains(help, "--" + option.name));
      CHECK_FALSE(option.help.empty());
    }
    for (std::size_t at = 0; at < help.size();) {
      const std::size_t end = std::min(help.find('\n', at), help.size());
      INFO(help.substr(at, end - at));
      CHECK(end - at <= 80);
      at = end + 1;
    }
  }
}

TEST_CASE("the demo's normals are those of the file beside the demo year", "[cli][identity]") {
  const weather::MonthlyNormals file =
      weather::read_normals(std::string(OVENDAYS_SOURCE_DIR) + "/weather/high_desert.toml");
  const weather::MonthlyNormals demo = demo_normals();
  const auto same = [](const std::array<double, 12>& a, const std::array<double, 12>& b) {
    for (std::size_t m = 0; m < 12; ++m) {
      CHECK_THAT(a[m], test::within_abs(b[m], 1e-9));  // the unit reader's rounding
    }
  };
  CHECK(demo.place.name == file.place.name);
  CHECK_THAT(demo.place.latitude_rad, test::within_abs(file.place.latitude_rad, 1e-12));
  CHECK_THAT(demo.place.longitude_rad, test::within_abs(file.place.longitude_rad, 1e-12));
  CHECK(demo.place.elevation_m == file.place.elevation_m);
  CHECK(demo.place.utc_offset_s == file.place.utc_offset_s);
  same(demo.ghi_kWhm2day, file.ghi_kWhm2day);
  same(demo.dry_bulb_max_K, file.dry_bulb_max_K);
  same(demo.dry_bulb_min_K, file.dry_bulb_min_K);
  same(demo.wind_ms, file.wind_ms);
  same(demo.relative_humidity, file.relative_humidity);
  same(demo.rain_m, file.rain_m);
  same(demo.rain_days, file.rain_days);
  same(demo.albedo, file.albedo);
  CHECK(demo.rain_given == file.rain_given);
  CHECK(demo.comment == file.comment);
}
