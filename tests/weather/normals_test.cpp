// SPDX-License-Identifier: MIT
#include <filesystem>

#include "catch.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/weather/weather_make.h"
#include "weather_support.h"

namespace ovendays::test {
namespace {
std::string demo_text(const std::string& from, const std::string& to) {
  std::string text =
      base::read_file(std::string(OVENDAYS_SOURCE_DIR) + "/weather/high_desert.toml");
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

std::string normals_fault(const std::string& text) {
  const auto file = std::filesystem::temp_directory_path() / "ovendays_normals_test.toml";
  base::write_file(file.string(), text);
  std::string message;
  try {
    weather::read_normals(file.string());
  } catch (const base::InputError& error) {
    message = error.what();
  }
  std::filesystem::remove(file);
  return message;
}
}  // namespace

TEST_CASE("normals are converted to SI", "[weather][unit]") {
  const auto normals =
      weather::read_normals(std::string(OVENDAYS_SOURCE_DIR) + "/weather/high_desert.toml");
  CHECK(normals.place.name == "Ochre Mesa");
  REQUIRE_THAT(normals.place.latitude_rad, within_abs(0.614356, 1e-6));  // 35.2 deg, six digits
  CHECK(normals.place.utc_offset_s == -25200.0);
  CHECK(normals.ghi_kWhm2day[5] == 8.10);
  REQUIRE_THAT(normals.dry_bulb_min_K[0], within_abs(267.75, 1e-9));  // -5.4 C
  REQUIRE_THAT(normals.relative_humidity[0], within_abs(0.52, 1e-12));
  REQUIRE_THAT(normals.rain_m[6], within_abs(0.038, 1e-12));
  CHECK(normals.rain_given);
}

TEST_CASE("faults in normals are reported with their key", "[weather][unit]") {
  CHECK(contains(normals_fault(demo_text("ghi_kWhm2_day", "ghi_kWhm2_dai")), "ghi_kWhm2_dai"));
  CHECK(contains(normals_fault(demo_text("elevation", "elevatoin")), "elevation"));
  CHECK(contains(normals_fault(demo_text("\"8.6 C\"", "\"-5.0 C\"")),
                 "Jan less than 1 K above dry_bulb_min"));
  // At 35.2 N, extraterrestrial radiation in June is 11.5 kWh/m2 a day (table of any solar
  // textbook).
  const std::string bright = normals_fault(demo_text("8.10,", "9.90,"));
  CHECK(contains(bright, "Jun 9.9"));
  CHECK(contains(bright, "at this latitude"));
  CHECK(contains(normals_fault(demo_text("5.80, 4.70,", "5.80,")), "ghi_kWhm2_day"));
}
}  // namespace ovendays::test
