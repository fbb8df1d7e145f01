// SPDX-License-Identifier: MIT
// Runs map, turning, wait and season --spread as a user does. Errors must give one clear line and
// exit code 2, and write nothing.
#include <algorithm>

#include "catch.h"
#include "ovendays/base/file.h"
#include "run_program.h"

using namespace ovendays;
using test::contains;
using test::ProgramRun;
using test::ScratchFolder;

namespace {
/// Refused in one line with these words, and no file made.
void refused(const ScratchFolder& folder, const std::string& words, const std::string& reason) {
  const std::set<std::string> before = folder.names();
  const ProgramRun ran = folder.run(words);
  INFO(words << "\n" << ran.out << ran.err);
  CHECK(ran.code == 2);
  CHECK(ran.out.empty());
  CHECK(contains(ran.err, reason));
  CHECK(std::count(ran.err.begin(), ran.err.end(), '\n') == 1);
  CHECK(folder.names() == before);
}
}  // namespace

TEST_CASE("a map of few places is printed, drawn and stored", "[cli][unit]") {
  const ScratchFolder folder;
  const ProgramRun ran = folder.run(
      "map --demo --task rice --grid '2 m' --west='-2 m' --east '0 m' --south='-2 m' --north '0 "
      "m'");
  INFO(ran.out << ran.err);
  REQUIRE(ran.code == 0);
  CHECK(ran.err.empty());  // no progress in a pipe
  CHECK(contains(ran.out, "rice: "));
  CHECK(contains(ran.out, "3 places 2.00 m apart"));  // of four; one is in the carport's wall
  CHECK(folder.names() == std::set<std::string>{"demo-map.h5", "demo-map.svg"});
  CHECK(contains(test::bytes_of(folder / "demo-map.svg"), "where it stands"));
  const ProgramRun again = folder.run(
      "map --demo --task rice --grid '2 m' --west='-2 m' --east '0 m' --south='-2 m' --north '0 m' "
      "--threads 1 --out one.h5 --svg one.svg --quiet");
  CHECK(again.code == 0);
  CHECK(again.out.empty());
  CHECK(test::bytes_of(folder / "one.h5") == test::bytes_of(folder / "demo-map.h5"));
  CHECK(test::bytes_of(folder / "one.svg") == test::bytes_of(folder / "demo-map.svg"));
}

TEST_CASE("errors of a map are reported before anything is run", "[cli][unit]") {
  const ScratchFolder folder;
  refused(folder, "map --demo --task ricee", "there is no 'ricee', did you mean rice?");
  refused(folder, "map --demo --grid '1 kg'", "--grid: 1 kg is not a length");
  refused(folder, "map --demo --grid '1 mm'", "--grid: 1 mm, allowed");
  refused(folder, "map --demo --grid '0.05 m'", "allowed at most 20000");
  refused(folder, "map --demo --west '5 m' --east '1 m'", "--west lies to the east of --east");
  refused(folder, "map --demo --grid '50 m' --west '1 m' --east '2 m'", "no place of the grid");
  refused(folder, "map --demo --gird '1 m'", "did you mean --grid?");
  refused(folder, "map --demo --svg missing/a.svg", "there is no folder missing");
  refused(folder, "map", "needs a case file");
}

TEST_CASE("turning accepts intervals and prints the days", "[cli][unit]") {
  const ScratchFolder folder;
  const ProgramRun ran = folder.run("turning --demo --every '1 h, 20 min' --svg t.svg --out t.h5");
  INFO(ran.out << ran.err);
  REQUIRE(ran.code == 0);
  CHECK(contains(ran.out, " 20   60  once  never"));  // in rising order
  CHECK(contains(ran.out, "Often enough"));
  CHECK(folder.names() == std::set<std::string>{"t.svg", "t.h5"});
  refused(folder, "turning --demo --every '1 kg'", "--every: 1 kg is not a time");
  refused(folder, "turning --demo --every '5 s'", "allowed 1 min to 12 h");
  refused(folder, "turning --demo --every ','", "--every");
}

TEST_CASE("waits are the same from a case and from its season's file", "[cli][identity]") {
  const ScratchFolder folder;
  REQUIRE(folder.run("season --demo --no-causes --spread 0 --quiet --out a.h5").code == 0);
  const ProgramRun from_file = folder.run("wait a.h5 --task bread --svg b.svg");
  const ProgramRun from_case = folder.run("wait --demo --task bread --svg b.svg");
  INFO(from_file.out << from_file.err);
  REQUIRE(from_file.code == 0);
  CHECK(from_file.out == from_case.out);
  CHECK(contains(from_file.out, "Longest wait: "));
  refused(folder, "wait a.h5 --task breed", "there is no 'breed'");
  refused(folder, "wait a.h5 --weather x.epw", "--weather is for a case");
  refused(folder, "wait nothing.h5", "nothing.h5: cannot be read");
}

TEST_CASE("a spread prints a range and refuses unrelated options", "[cli][unit]") {
  const ScratchFolder folder;
  const ProgramRun ran = folder.run(
      "season --demo --no-causes --spread 5 --out a.h5 --html a.html --spread-svg s.svg "
      "--spread-out s.h5");
  INFO(ran.out << ran.err);
  REQUIRE(ran.code == 0);
  CHECK(contains(ran.out, "over 5 draws of the uncertain inputs"));
  CHECK(contains(ran.out, "common practice, no source"));
  CHECK(folder.names() == std::set<std::string>{"a.h5", "a.html", "s.h5", "s.svg"});
  refused(folder, "season --demo --spread 2", "--spread: '2', allowed 0 or 5 to 5000");
  refused(folder, "season --demo --spread -1", "--spread: '-1', allowed 0 to 5000");
  refused(folder, "season --demo --spread 0 --seed 2", "--seed has no use with --spread 0");
  refused(folder, "season --demo --spread-svg t.svg", "--spread-svg needs --spread");
  refused(folder, "season --demo --out x.h5 --out y.h5", "--out is given twice");
  refused(folder, "season --demo --spread 5 --spread-svg a.h5/x", "cannot be written");
}

TEST_CASE("a season has a likely range by itself, and none with --spread 0", "[cli][unit]") {
  const ScratchFolder folder;
  const ProgramRun plain = folder.run("season --demo --no-causes --out a.h5 --html a.html");
  INFO(plain.out << plain.err);
  REQUIRE(plain.code == 0);
  CHECK(contains(plain.out, "year  likely"));
  CHECK(contains(plain.out, "12 draws"));
  CHECK(contains(plain.out, "slow end"));
  CHECK(contains(base::read_file((folder / "a.html").string()), "Likely</th>"));
  // The file holds them: a report of it says the same.
  const ProgramRun report = folder.run("report a.h5");
  CHECK(contains(report.out, "year  likely"));
  const ProgramRun other = folder.run("season --demo --no-causes --seed 7 --out b.h5");
  CHECK(other.code == 0);
  CHECK(other.out != plain.out);
  const ProgramRun bare = folder.run("season --demo --no-causes --spread 0 --out c.h5");
  REQUIRE(bare.code == 0);
  CHECK_FALSE(contains(bare.out, "likely"));
  CHECK(contains(bare.out, "at best"));
}

TEST_CASE("several weather years are listed one by one and must be of one place", "[cli][unit]") {
  const ScratchFolder folder;
  const std::string normals = std::string(OVENDAYS_SOURCE_DIR) + "/weather/high_desert.toml";
  const std::string other = std::string(OVENDAYS_SOURCE_DIR) + "/weather/humid_coast.toml";
  for (const char* seed : {"1", "2"}) {
    REQUIRE(
        folder.run("weather make '" + normals + "' --seed " + seed + " --out year" + seed + ".epw")
            .code == 0);
  }
  REQUIRE(folder.run("weather make '" + other + "' --out far.epw").code == 0);
  REQUIRE(folder.run("new y.toml").code == 0);
  refused(folder,
          "season y.toml --weather year1.epw --weather far.epw --spread 5",
          "far.epw: --weather: another place");
  refused(folder,
          "season y.toml --weather year1.epw --weather year2.epw",
          "several years need --spread");
  const ProgramRun ran =
      folder.run("season y.toml --weather year1.epw --weather year2.epw --no-causes --spread 6");
  INFO(ran.out << ran.err);
  REQUIRE(ran.code == 0);
  CHECK(contains(ran.out, "The case as given, year by year"));
  CHECK(contains(ran.out, "one of the 2 years in turn"));
}
