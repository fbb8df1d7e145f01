// SPDX-License-Identifier: MIT
// Runs report, day and aim as a user does, also with errors.
#include "catch.h"
#include "run_program.h"
#include "text_lines.h"

using namespace ovendays;
using test::contains;
using test::lines_in;

namespace {
const std::string& demo_season() {
  static const std::string file = "'" + std::string(OVENDAYS_SOURCE_DIR) + "/results/demo.h5" + "'";
  return file;
}
}  // namespace

TEST_CASE("report prints the table or writes the requested files", "[cli][unit]") {
  const test::ScratchFolder folder;
  const test::ProgramRun table = folder.run("report " + demo_season());
  INFO(table.err);
  REQUIRE(table.code == 0);
  CHECK(contains(table.out, "At this spot "));
  CHECK(contains(table.out, "Days lost, by cause"));
  CHECK(folder.names().empty());
  const test::ProgramRun page =
      folder.run("report " + demo_season() +
                 " --html a.html --csv a.csv --units F --svg calendar=b.svg --task bread");
  INFO(page.err);
  REQUIRE(page.code == 0);
  CHECK(folder.names() == std::set<std::string>{"a.csv", "a.html", "b.svg"});
  CHECK(contains(test::bytes_of(folder / "b.svg"), "bread loaf: every day of the year"));
  CHECK(contains(test::bytes_of(folder / "a.html"), "°F"));
  CHECK(lines_in(page.out) == 5);
}

TEST_CASE("report saves every picture into a folder", "[cli][unit]") {
  const test::ScratchFolder folder;
  std::filesystem::create_directory(folder / "out");
  const test::ProgramRun ran = folder.run("report " + demo_season() + " --pictures out");
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  std::set<std::string> names;
  for (const auto& each : std::filesystem::directory_iterator(folder / "out"))
    names.insert(each.path().filename().string());
  // Six of the season, and three for each of the demo's eight tasks.
  CHECK(names.size() == 6 + 3 * 8);
  CHECK(names.contains("beam.svg"));
  CHECK(names.contains("reasons-6-bread-loaf.svg"));
}

TEST_CASE("day follows the demo's task and writes the requested files", "[cli][unit]") {
  const test::ScratchFolder folder;
  const test::ProgramRun ran = folder.run(
      "day --demo --date 10-21 --task rice --load 10:15 --csv d.csv --svg d.svg --html d.html");
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  CHECK(contains(ran.out, "rice on 21 October: loaded at 10:15, done at "));
  CHECK(contains(ran.out, "Loaded at the time you gave."));
  CHECK(folder.names() == std::set<std::string>{"d.csv", "d.html", "d.svg"});
  CHECK(lines_in(test::bytes_of(folder / "d.csv")) == 1442);
}

TEST_CASE("aim prints the card with true and compass bearings", "[cli][unit]") {
  const test::ScratchFolder folder;
  const test::ProgramRun ran =
      folder.run("aim --demo --date 06-21 --declination 8.5W --html c.html");
  INFO(ran.err);
  REQUIRE(ran.code == 0);
  CHECK(contains(ran.out, "8.5° west"));
  CHECK(contains(test::bytes_of(folder / "c.html"), "Aiming card for 21 June"));
  // The key in [site] does the same.
  REQUIRE(folder.run("new my.toml").code == 0);
  std::string text = test::bytes_of(folder / "my.toml");
  const std::string key = "# declination = \"9 deg\"";
  REQUIRE(contains(text, key));
  text.replace(text.find(key), key.size(), "declination = \"9 deg\"  ");
  folder.write("my.toml", text);
  const test::ProgramRun keyed =
      folder.run("aim my.toml --date 02-29 --weather '" + std::string(OVENDAYS_SOURCE_DIR) +
                 "/weather/high_desert.epw'");
  INFO(keyed.err);
  REQUIRE(keyed.code == 0);
  CHECK(contains(keyed.out, "9.0° east"));
}

TEST_CASE("aim keeps to the notches of a task that is named in part", "[cli][unit]") {
  const test::ScratchFolder folder;
  REQUIRE(folder.run("new my.toml").code == 0);
  std::string text = test::bytes_of(folder / "my.toml");
  const std::string rack = "level = true";  // of [oven.shelf]
  REQUIRE(contains(text, rack));
  folder.write("my.toml", text.replace(text.find(rack), rack.size(), "level = false"));
  const std::string card = "aim my.toml --date 12-10 --weather '" +
                           std::string(OVENDAYS_SOURCE_DIR) + "/weather/high_desert.epw'";
  const test::ProgramRun any = folder.run(card);
  const test::ProgramRun water = folder.run(card + " --task water --html w.html");
  INFO(any.out << any.err << water.out << water.err);
  REQUIRE(any.code == 0);
  REQUIRE(water.code == 0);
  // Against a sun 32 deg high the box is tilted as far as a pot bears: 26.6 deg, and 10.4 deg where
  // it holds three litres of water (tests/task/notches_test.cpp).
  CHECK(contains(any.out, "12:00     183° S    20°      3"));
  CHECK(contains(water.out, "12:00     183° S    10°      2"));
  CHECK(contains(water.out, "For: drinking water, pasteurised."));
  CHECK_FALSE(contains(any.out, "For: "));
  CHECK_FALSE(contains(water.out, " 20°"));
  CHECK(contains(water.out, "Not in notches 3, 4, 5 and 6: drinking water, pasteurised."));
  CHECK(contains(test::bytes_of(folder / "w.html"), "drinking water, pasteurised"));
}

TEST_CASE("errors are reported in one line with code 2 and nothing is written", "[cli][unit]") {
  const test::ScratchFolder folder;
  struct Slip {
    std::string words;
    const char* says;
  };
  const std::string season = "report " + demo_season() + " --html a.html ";
  const Slip slips[] = {
      {"reprot x.h5", "did you mean report?"},
      {"report", "needs the results file"},
      {"report none.h5", "cannot be read"},
      {season + "--svg calender=b.svg", "did you mean calendar?"},
      {season + "--svg b.svg", "NAME=FILE"},
      {season + "--svg windows=b.svg --task brad", "--task: there is no 'brad'"},
      {season + "--svg windows=b.svg --task e", "could be"},
      {season + "--svg months=b.svg --task rice", "goes with a picture of one task"},
      {season + "--task rice", "goes with a picture of one task"},
      {season + "--svg months=a.html", "it is also the target of --html"},
      {season + "--pictures none", "there is no such folder"},
      {season + "--units K", "allowed C or F"},
      {"day --demo", "--date is missing"},
      {"day --demo --date 13-01", "--date: '13-01'"},
      {"day --demo --date 02-30", "--date: '02-30'"},
      {"day --demo --date 6-21", "--date: '6-21'"},
      {"day --demo --date 06-21 --load 9:30", "--load: '9:30'"},
      {"day --demo --date 06-21 --load 20:00", "when the task must be finished"},
      {"day --demo --date 06-21 --task ryce", "did you mean rice?"},
      {"day --demo --date 06-21 --html none/a.html", "there is no folder none"},
      {"day --demo x.toml --date 06-21", "brings its own case"},
      {"aim --demo --date 06-21 --declination east", "allowed degrees with E or W"},
      {"aim --demo --date 06-21 --declination -9E", "allowed degrees with E or W"},
      {"aim --demo --date 06-21 --task ryce", "there is no 'ryce', did you mean rice?"},
      {"aim --demo --date 06-21 --task e", "--task: 'e' could be 'soup"},
      {"aim --demo --date 06-21 --task ryce --html a.html", "did you mean rice?"},
      {"aim --demo --dat 06-21", "did you mean --date?"}};
  for (const Slip& slip : slips) {
    const test::ProgramRun ran = folder.run(slip.words);
    INFO(slip.words << "\n" << ran.out << ran.err);
    CHECK(ran.code == 2);
    CHECK(lines_in(ran.err) == 1);
    CHECK(contains(ran.err, slip.says));
    CHECK(folder.names().empty());
  }
}
