// SPDX-License-Identifier: MIT
// Programs that know nothing of ovendays open the file and find its labels.
#include <unistd.h>

#include <filesystem>

#include "catch.h"
#include "made_season.h"
#include "ovendays/base/file.h"
#include "ovendays/results/results.h"
#include "shell.h"

using namespace ovendays;

namespace {
using Ran = test::ShellRun;

Ran run(const std::string& command) { return test::run_shell(command); }

// A made season in a file of its own, gone with this.
struct SeasonFile {
  std::string path = test::own_file("ovendays_outside");
  SeasonFile() {
    const test::MadeSeason made = test::made_season();
    results::write_results(path, made.c, made.year, made.result);
  }
  ~SeasonFile() { ::unlink(path.c_str()); }
  SeasonFile(const SeasonFile&) = delete;
  SeasonFile& operator=(const SeasonFile&) = delete;
};
}  // namespace

TEST_CASE("netCDF's own dump shows dimensions, units and conventions", "[results][reference]") {
  if (run("ncdump 2>/dev/null").said.empty() && run("which ncdump").code != 0) {
    WARN("SKIPPED: ncdump is not installed");
    return;
  }
  const SeasonFile file;
  const Ran head = run("ncdump -h '" + file.path + "'");
  INFO(head.said);
  REQUIRE(head.code == 0);
  for (const char* part : {"task = 5 ;",
                           "day = 365 ;",
                           "hour = 8760 ;",
                           "surface = 7 ;",
                           "ubyte outcome(task, day) ;",
                           "flag_meanings = \"cooked unsafe short no_go\"",
                           "float oven_air_K(hour) ;",
                           "float absorbed_W(surface, hour) ;",
                           "float dni_Wm2(hour) ;",
                           "double sky_visible(mask_month, sky_patch) ;",
                           ":Conventions = \"CF-1.8\" ;"}) {
    CHECK(test::contains(head.said, part));
  }
  const Ran data = run("ncdump -v outcome,load_s,task '" + file.path + "'");
  CHECK(data.code == 0);
  CHECK(test::contains(data.said, "\"Chicken pieces\""));
}

TEST_CASE("h5py reads numbers, words and the scales of every dimension", "[results][reference]") {
  const std::string python = "/usr/bin/python3";
  if (run(python + " -c 'import h5py'").code != 0) {
    WARN("SKIPPED: no python3 with h5py");
    return;
  }
  const SeasonFile file;
  const std::string script = std::string(OVENDAYS_SOURCE_DIR) + "/tests/results/check_file.py";
  const Ran ran = run(python + " '" + script + "' '" + file.path + "'");
  INFO(ran.said);
  REQUIRE(ran.code == 0);
}

TEST_CASE("the file is small", "[results][unit]") {
  const SeasonFile file;
  // A season of eight tasks with tables is to stay below 1.5 MB; this one has five and none.
  REQUIRE(std::filesystem::file_size(file.path) < 1'200'000);
}
