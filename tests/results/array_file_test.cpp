// SPDX-License-Identifier: MIT
// Arrays of a study as a program sees them that knows nothing of ovendays.
#include <cstdio>
#include <filesystem>
#include <limits>

#include "catch.h"
#include "made_season.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/results/array_file.h"
#include "shell.h"

using namespace ovendays;
using test::contains;

namespace {
results::ArrayFile made_arrays() {
  results::ArrayFile file;
  file.title = "made";
  file.notes = {{"task", "rice"}};
  file.dimensions = {{"y", "north", "m", {-1.0, 0.5}, {}},
                     {"place", "a word", "", {}, {"here", "there", "é"}}};
  file.arrays = {{"days",
                  "days of the year",
                  "1",
                  {"y", "place"},
                  {1.0, 2.0, 3.0, 4.0, std::numeric_limits<double>::quiet_NaN(), 6.0}}};
  return file;
}
}  // namespace

TEST_CASE("arrays keep their numbers, names and units in netCDF's own dump",
          "[results][reference]") {
  const test::MadeSeason made = test::made_season();
  const std::string path = test::own_file("ovendays_arrays");
  results::write_arrays(path, made_arrays(), made.c, made.year);
  const std::string bytes = base::read_file(path);
  results::write_arrays(path, made_arrays(), made.c, made.year);
  CHECK(base::read_file(path) == bytes);
  if (test::run_shell("which ncdump").code != 0) {
    WARN("SKIPPED: ncdump is not installed");
  } else {
    const test::ShellRun dump = test::run_shell("ncdump '" + path + "'");
    INFO(dump.said);
    REQUIRE(dump.code == 0);
    for (const char* part : {"y = 2 ;",
                             "place = 3 ;",
                             "float days(y, place) ;",
                             "days:long_name = \"days of the year\" ;",
                             "y = -1, 0.5 ;",
                             "\"here\", \"there\"",
                             ":task = \"rice\" ;",
                             "1, 2, 3,"}) {
      CHECK(contains(dump.said, part));
    }
  }
  std::filesystem::remove(path);
}

TEST_CASE("arrays that cannot be written say so", "[results][unit]") {
  const test::MadeSeason made = test::made_season();
  CHECK_THROWS_AS(results::write_arrays("/nonexistent/x.h5", made_arrays(), made.c, made.year),
                  base::RunError);
}
