// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <filesystem>

#include "catch.h"
#include "degrees.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/file.h"
#include "ovendays/spot/spot.h"

namespace base = ovendays::base;
using ovendays::spot::Horizon;
using ovendays::spot::read_horizon_csv;
using ovendays::test::contains;
using ovendays::test::kDeg;
using ovendays::test::within_abs;

namespace {
const std::string kData = OVENDAYS_TEST_DATA;

std::string failure(const std::string& text) {
  const auto path = std::filesystem::temp_directory_path() /
                    ("ovendays_horizon_" + std::to_string(::getpid()) + ".csv");
  base::write_file(path, text);
  std::string what;
  try {
    (void)read_horizon_csv(path);
  } catch (const base::InputError& error) {
    what = error.what();
  }
  std::filesystem::remove(path);
  return what;
}
}  // namespace

TEST_CASE("the far horizon is interpolated linearly between azimuths and across north",
          "[spot][unit]") {
  const Horizon h{{10 * kDeg, 100 * kDeg, 350 * kDeg}, {5 * kDeg, 20 * kDeg, 7 * kDeg}};
  REQUIRE_THAT(h.at(10 * kDeg), within_abs(5 * kDeg, 1e-12));
  REQUIRE_THAT(h.at(55 * kDeg), within_abs(12.5 * kDeg, 1e-12));
  REQUIRE_THAT(h.at(0.0), within_abs(6 * kDeg, 1e-12));
  REQUIRE_THAT(h.at(-5 * kDeg), within_abs(6.5 * kDeg, 1e-12));
  REQUIRE_THAT(h.at(365 * kDeg), within_abs(5.5 * kDeg, 1e-12));
  REQUIRE(Horizon{}.at(1.0) == 0.0);
  REQUIRE(Horizon{{1.0}, {0.2}}.at(4.0) == 0.2);
}

TEST_CASE("a horizon file that counts azimuths from south is converted to north",
          "[spot][reference]") {
  // The rows of the file: A = -90 is east, 0 is south, 90 is west.
  const Horizon h = read_horizon_csv(kData + "/horizon_south.csv");
  REQUIRE(h.azimuth_rad.size() == 4);  // -180 and 180 are the same direction
  REQUIRE_THAT(h.at(0.0), within_abs(12.0 * kDeg, 1e-12));
  REQUIRE_THAT(h.at(90 * kDeg), within_abs(8.0 * kDeg, 1e-12));
  REQUIRE_THAT(h.at(180 * kDeg), within_abs(2.5 * kDeg, 1e-12));
  REQUIRE_THAT(h.at(270 * kDeg), within_abs(30.0 * kDeg, 1e-12));
}

TEST_CASE("a horizon file that counts azimuths from north is read as it is", "[spot][unit]") {
  const auto path = std::filesystem::temp_directory_path() /
                    ("ovendays_north_" + std::to_string(::getpid()) + ".csv");
  base::write_file(path, "A: Azimuth (0 = N)\r\nA,H_hor\r\n0,1\r\n90,2\r\n180,3\r\n270,4\r\n");
  const Horizon h = read_horizon_csv(path);
  std::filesystem::remove(path);
  REQUIRE_THAT(h.at(90 * kDeg), within_abs(2.0 * kDeg, 1e-12));
  REQUIRE_THAT(h.at(180 * kDeg), within_abs(3.0 * kDeg, 1e-12));
}

TEST_CASE("a broken horizon file is rejected with its line", "[spot][unit]") {
  REQUIRE(contains(failure("Latitude: 1\n"), "no horizon table"));
  REQUIRE(contains(failure("A\tH_hor\n0\t95\n"), ".csv:2: horizon height 95, allowed 0 to 89 deg"));
  REQUIRE(contains(failure("A\tH_hor\n0\t5\n10\tx\n"), ".csv:3: no horizon height"));
  REQUIRE(contains(failure("A\tH_hor\n500\t5\n"), ".csv:2: azimuth 500"));
  REQUIRE(contains(failure("A\tH_hor\n0\tnan\n"), ".csv:2: no horizon height"));
  REQUIRE_THROWS_AS(read_horizon_csv(kData + "/none.csv"), base::InputError);
}
