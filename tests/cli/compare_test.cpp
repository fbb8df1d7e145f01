// SPDX-License-Identifier: MIT
// Runs compare and gather as a user does: killed, restarted, in parts, with errors.
#include "ovendays/results/study_file.h"

#include <signal.h>

#include <algorithm>
#include <chrono>
#include <thread>

#include "catch.h"
#include "ovendays/base/error.h"
#include "run_program.h"

using namespace ovendays;
using test::contains;
using test::ProgramRun;
using test::ScratchFolder;

namespace {
namespace fs = std::filesystem;

// Four short seasons: one task, loaded at two times of the day.
const char* const kStudy = R"(case = "yard.toml"
[study]
together = false
[[spot]]
name = "carport"
[[spot]]
name = "lawn"
drop = ["spot.bay"]
[[change]]
name = "darker"
price = 4
set."oven.liner.absorptance" = 0.97
[[change]]
name = "smooth foil"
price = 3
set."oven.flap.1.reflectance" = 0.88
)";

const ScratchFolder& scene() {
  static const ScratchFolder folder;
  static bool made = false;
  if (!made) {
    made = true;
    fs::copy_file(std::string(OVENDAYS_SOURCE_DIR) + "/weather/high_desert.epw",
                  folder / "high_desert.epw");
    REQUIRE(folder.run("new yard.toml").code == 0);
    std::string yard = test::bytes_of(folder / "yard.toml");
    const std::size_t second = yard.find("[[task]]", yard.find("[[task]]") + 1);
    yard.resize(second);
    const std::string every = "load_every = \"30 min\"";
    yard.replace(yard.find(every), every.size(), "load_every = \"4 h\"");
    folder.write("yard.toml", yard);
    folder.write("study.toml", kStudy);
  }
  return folder;
}

// What a whole run writes.
const std::string& whole() {
  static std::string bytes;
  if (bytes.empty()) {
    const ProgramRun run = scene().run("compare study.toml --out whole.h5 --no-causes --quiet");
    REQUIRE(run.code == 0);
    CHECK(run.out.empty());
    CHECK(run.err.empty());
    bytes = test::bytes_of(scene() / "whole.h5");
  }
  return bytes;
}

std::size_t done_in(const fs::path& file) {
  if (!fs::exists(file)) return 0;
  const results::StoredStudy study = results::read_study_file(file.string());
  return static_cast<std::size_t>(std::count_if(study.alternatives.begin(),
                                                study.alternatives.end(),
                                                [](const auto& each) { return each.done(); }));
}
}  // namespace

TEST_CASE("compare prints the tables and writes the requested files", "[cli][unit]") {
  const ProgramRun run = scene().run(
      "compare study.toml --out t.h5 --no-causes --csv t.csv --html t.html --svg tasks=t.svg");
  INFO(run.out << run.err);
  CHECK(run.code == 0);
  CHECK(run.err.empty());  // no progress where standard error is no terminal
  for (const char* part : {"Days a year", "What to change", "4 alternatives run.", "t.svg"}) {
    CHECK(contains(run.out, part));
  }
  CHECK(contains(test::bytes_of(scene() / "t.html"), "</html>"));
  CHECK(contains(test::bytes_of(scene() / "t.svg"), "</svg>"));
  const ProgramRun again = scene().run("compare study.toml --out t.h5 --no-causes");
  CHECK(contains(again.out, "0 alternatives run, 4 taken from the earlier run (same inputs)."));
  CHECK(test::bytes_of(scene() / "t.h5") == whole());
  CHECK(contains(run.out, "12 draws of what is not known"));
  const ProgramRun bare = scene().run("compare study.toml --out bare.h5 --no-causes --spread 0");
  CHECK(contains(bare.out, "4 alternatives run."));
  CHECK_FALSE(contains(bare.out, "likely +"));
  const ProgramRun shown = scene().run("gather t.h5");
  CHECK(shown.code == 0);
  CHECK(shown.out == again.out.substr(0, again.out.find("0 alternatives run")));
}

TEST_CASE("a study killed or interrupted leaves a valid file, and a rerun yields the same bytes",
          "[cli][unit]") {
  const std::string& bytes = whole();
  const fs::path target = scene() / "killed.h5";
  for (const int number : {SIGKILL, SIGINT, SIGTERM}) {
    fs::remove(target);
    const pid_t child = ::fork();
    if (child == 0) {
      if (::chdir(scene().path().c_str()) != 0) ::_exit(99);
      ::execl(OVENDAYS_BINARY,
              "ovendays",
              "compare",
              "study.toml",
              "--out",
              "killed.h5",
              "--no-causes",
              "--quiet",
              "--threads",
              "1",
              nullptr);
      ::_exit(98);
    }
    for (int i = 0; i < 3000 && !fs::exists(target); ++i) {
      std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    ::kill(child, number);
    int status = 0;
    ::waitpid(child, &status, 0);
    if (number != SIGKILL && WIFEXITED(status)) CHECK(WEXITSTATUS(status) == 128 + number);
    const std::size_t done = done_in(target);
    CHECK(done >= 1);
    const ProgramRun rest = scene().run("compare study.toml --out killed.h5 --no-causes");
    CHECK(rest.code == 0);
    CHECK(contains(rest.out, std::to_string(done) + " taken from the earlier run"));
    CHECK(test::bytes_of(target) == bytes);
  }
}

TEST_CASE("parts run at the same time and gathered equal an undivided run", "[cli][unit]") {
  const std::string& bytes = whole();
  for (int i = 1; i <= 3; ++i) {
    const std::string part = std::to_string(i);
    const ProgramRun run = scene().run("compare study.toml --no-causes --part " + part + "/3");
    INFO(run.err);
    CHECK(run.code == 0);
    CHECK(contains(run.out, "Part " + part + " of 3: "));
    CHECK(fs::exists(scene() / ("study-part-" + part + "-of-3.h5")));
  }
  const ProgramRun joined = scene().run("gather study-part-*.h5 --out joined.h5");
  INFO(joined.err);
  CHECK(joined.code == 0);
  CHECK(test::bytes_of(scene() / "joined.h5") == bytes);
}

TEST_CASE("errors exit with code 2, one line and nothing written", "[cli][unit]") {
  (void)whole();
  scene().write("slip.toml", std::string(kStudy) + "[[change]]\nname = \"x\"\nsett = 3\n");
  scene().write("not-a-study.h5", "something else");
  const std::set<std::string> before = scene().names();
  const auto refused = [&before](const std::string& words, const std::string& part) {
    const ProgramRun run = scene().run(words);
    INFO(words << "\n" << run.err);
    CHECK(run.code == 2);
    CHECK(run.out.empty());
    CHECK(contains(run.err, part));
    CHECK(std::count(run.err.begin(), run.err.end(), '\n') == 1);
    CHECK(scene().names() == before);
  };
  refused("compare", "needs a study file");
  refused("compar study.toml", "did you mean compare?");
  refused("compare study.toml --prat 1/2", "did you mean --part?");
  for (const char* part : {"0/2", "3/2", "1", "1/", "/2", "a/b", "1/2x", "-1/2"}) {
    refused(std::string("compare study.toml --part=") + part, "allowed I/N");
  }
  refused("compare study.toml --spread 4", "allowed 0 or 5 to 1000");
  refused("compare none.toml", "none.toml: cannot be read");
  refused("compare study.toml --svg task=a.svg", "did you mean tasks?");
  refused("compare study.toml --svg climates=a.svg", "there is no picture 'climates' here");
  refused("compare study.toml --svg months=a.svg --task sop", "there is no 'sop'");
  refused("compare study.toml --svg tasks=a.svg --task soup", "such as --svg months=FILE");
  refused("compare study.toml --csv none/a.csv", "there is no folder");
  refused("compare study.toml --out study.toml", "it is also read");
  refused("compare study.toml --out not-a-study.h5", "another --out, or --anew");
  refused("gather", "needs the files");
  refused("gather study.toml", "is not a readable study");
  refused("gather whole.h5 --out whole.h5", "it is also read");
  const ProgramRun slip = scene().run("compare slip.toml");
  CHECK(slip.code == 2);
  CHECK(contains(slip.err, ": change.sett: unknown key; did you mean set?"));
  CHECK(scene().names() == before);
}

TEST_CASE("new --study writes a study that says what comes next", "[cli][unit]") {
  const ScratchFolder folder;
  const ProgramRun run = folder.run("new --study mine.toml");
  CHECK(run.code == 0);
  CHECK(contains(run.out, "ovendays compare mine.toml"));
  CHECK(contains(test::bytes_of(folder / "mine.toml"), "[[change]]"));
  CHECK(folder.run("new --study mine.toml").code == 2);
}
