// SPDX-License-Identifier: MIT
// The demo sites in the top-level folder weather/: each EPW file is generated from its normals and
// a seed.
#include "catch.h"
#include "ovendays/base/file.h"
#include "ovendays/weather/weather_check.h"
#include "ovendays/weather/weather_make.h"
#include "weather_support.h"

namespace ovendays::test {
namespace {
constexpr std::uint64_t kDemoSeed = 1;

std::string demo_path(const std::string& name, const std::string& ending) {
  return std::string(OVENDAYS_SOURCE_DIR) + "/weather/" + name + ending;
}

std::string demo_epw(const std::string& name) {
  const auto normals = weather::read_normals(demo_path(name, ".toml"));
  return weather::epw_text(weather::make_weather(normals, kDemoSeed), normals.comment);
}
}  // namespace

TEST_CASE("the demo years are generated from their normals byte for byte",
          "[weather][regression]") {
  for (const char* name : kDemos) {
    INFO(
        name << ".epw; run this program with the test name 'write the demo years' to make it anew");
    CHECK((base::read_file(demo_path(name, ".epw")) == demo_epw(name)));
  }
}

TEST_CASE("the demo years have no findings", "[weather][unit]") {
  for (const char* name : kDemos) {
    const auto year = weather::read_weather(demo_path(name, ".epw"));
    const auto check = weather::check_weather(year);
    CHECK(year.filled_hours == 0);
    CHECK(base::read_file(demo_path(name, ".epw")).size() < 2000000);
    CHECK_FALSE(check.clock.off);
    CHECK(check.closure_hours_failed == 0);
    // They were generated with the standard atmosphere, so there is no finding.
    REQUIRE(check.findings.size() == 1);
    CHECK(check.findings[0].text == "pressure is the same in every hour");
  }
}

TEST_CASE("write the demo years", "[.generate]") {
  for (const char* name : kDemos) base::write_file(demo_path(name, ".epw"), demo_epw(name));
}
}  // namespace ovendays::test
