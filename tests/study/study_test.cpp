// SPDX-License-Identifier: MIT
// What a study's file comes to, and what is said of one that is at fault.
#include "ovendays/study/study.h"

#include <algorithm>
#include <ctime>

#include "catch.h"
#include "ovendays/base/error.h"
#include "ovendays/season/physics_version.h"
#include "study_folder.h"

using namespace ovendays;
using study::Causes;
using study::Study;
using test::contains;
using test::StudyFolder;

namespace {
// What the reader says of a study; empty where it is sound.
std::string refusal(const StudyFolder& folder, const std::string& text) {
  folder.write("study.toml", text);
  try {
    const Study read(folder.file("study.toml"), Causes::kLeftOut);
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}
}  // namespace

TEST_CASE("lists are combined with the first varying slowest, followed by the changes",
          "[study][unit]") {
  const StudyFolder folder;
  const Study read = folder.study(R"(case = "yard.toml"
[[spot]]
name = "here"
[[spot]]
name = "there"
set."spot.y" = "-3 m"
[[oven]]
name = "one"
[[oven]]
name = "two"
set."oven.box.inner_height" = "10 in"
[[oven]]
name = "three"
add."oven.pane" = { thickness = "3 mm" }
[[change]]
name = "darker"
price = 4
set."oven.liner.absorptance" = 0.95
)");
  std::vector<std::string> names;
  for (const auto& each : read.plan().alternatives) names.push_back(each.name);
  CHECK(names == std::vector<std::string>{"here / one",
                                          "here / two",
                                          "here / three",
                                          "there / one",
                                          "there / two",
                                          "there / three",
                                          "darker"});
  CHECK(read.plan().combinations() == 6);
  CHECK(read.plan().planned() == 7);
  CHECK(read.plan().axes[results::kRoutine] == std::vector<std::string>{"the case's own"});
  const season::Case fifth = read.case_of(read.plan().alternatives[4]);
  CHECK(fifth.spot.mouth.y == -3.0);
  CHECK_THAT(fifth.oven.box.inner_height_m, test::within_abs(0.254, 1e-12));  // inches, rounding
  CHECK(read.case_of(read.plan().alternatives[2]).oven.panes.size() == 2);
  CHECK(read.case_of(read.plan().alternatives[6]).oven.liner.absorptance == 0.95);
}

TEST_CASE("the digest depends on the inputs and nothing else", "[study][unit]") {
  const StudyFolder folder;
  const auto digest = [&folder](const std::string& text, Causes causes = Causes::kLeftOut) {
    folder.write("study.toml", text);
    return Study(folder.file("study.toml"), causes).plan().alternatives.back().sha256;
  };
  const std::string change = "[[change]]\nname = \"x\"\nset.\"oven.liner.absorptance\" = 0.9";
  const std::string first = digest("case = \"yard.toml\"\n" + change);
  CHECK(first == digest("# a remark\ncase = \"yard.toml\"\n[study]\nname = \"y\"\n" + change +
                        "\nprice = 3"));
  CHECK(first != digest("case = \"yard.toml\"\n" + change + "1"));
  CHECK(first != digest("case = \"yard.toml\"\n" + change, Causes::kLookedFor));
  folder.write("weather.epw", folder.read("weather.epw") + "\n");
  CHECK(first != digest("case = \"yard.toml\"\n" + change));
}

TEST_CASE("the digest depends on the number of the model", "[study][unit]") {
  // Made by hand from what digest_of() is documented to hold.
  const StudyFolder folder;
  const Study read =
      folder.study("case = \"yard.toml\"\n[[spot]]\nname = \"flat\"\ndrop = [\"spot.horizon\"]\n");
  const season::Case c = read.case_of(read.plan().alternatives[0]);
  REQUIRE(c.spot.horizon.azimuth_rad.empty());
  const std::string weather = base::sha256_hex(folder.read("weather.epw"));
  const auto digest = [&](int physics) {
    return base::sha256_hex("ovendays " + read.plan().program_version + "\nphysics " +
                            std::to_string(physics) + "\nno causes\ncase " +
                            base::sha256_hex(c.text) + "\nweather " + weather + "\n\n\n");
  };
  CHECK(read.plan().alternatives[0].sha256 == digest(season::kPhysicsVersion));
  CHECK(read.plan().alternatives[0].sha256 != digest(season::kPhysicsVersion + 1));
}

TEST_CASE("a horizon file that changes changes the digest", "[study][unit]") {
  const StudyFolder folder;
  const std::string text =
      "case = \"yard.toml\"\n[[spot]]\nname = \"hills\"\n"
      "use = { horizon = { file = \"hills.csv\" } }\n";
  const auto digest = [&](const std::string& elevation) {
    folder.write("hills.csv", "A,H_hor\n0," + elevation + "\n180,3\n");
    return folder.study(text).plan().alternatives[0].sha256;
  };
  const std::string low = digest("1");
  CHECK(low != digest("9"));
  CHECK(low == digest("1"));
}

TEST_CASE("changes to the same thing, or invalid together, exclude each other", "[study][unit]") {
  const StudyFolder folder;
  const Study read = folder.study(R"(case = "yard.toml"
[[change]]
name = "pane"
add."oven.pane" = { thickness = "3 mm" }
[[change]]
name = "two panes"
add."oven.pane" = { thickness = "4 mm" }
[[change]]
name = "thick"
set."oven.layer.1.thickness" = "3 in"
[[change]]
name = "thicker"
set."oven.layer.1.thickness" = "4 in"
[[change]]
name = "other layers"
set."oven.layer" = [ { side = "both", material = "wool", thickness = "5 cm" } ]
)");
  const auto& changes = read.plan().changes;
  CHECK(changes[0].excludes.empty());  // two more panes make three, which is allowed
  CHECK(changes[2].excludes == std::vector<int>{3, 4});
  CHECK(changes[3].excludes == std::vector<int>{2, 4});
  CHECK(changes[4].excludes == std::vector<int>{2, 3});
  CHECK(read.with_changes({0, 2}).name == "pane + thick");
}

TEST_CASE("paths above, below and equal conflict, and additions to one list do not",
          "[study][unit]") {
  const StudyFolder folder;
  const Study read = folder.study(R"(case = "yard.toml"
[[change]]
name = "0"
set."oven.liner" = { absorptance = 0.9 }
[[change]]
name = "1"
set."oven.liner.absorptance" = 0.8
[[change]]
name = "2"
set."oven.liner.emittance" = 0.8
[[change]]
name = "3"
add."oven.layer" = { material = "wool", thickness = "1 cm" }
[[change]]
name = "4"
add."oven.layer" = { material = "wool", thickness = "2 cm" }
[[change]]
name = "5"
set."oven.layer" = [ { material = "wool", thickness = "3 cm" } ]
[[change]]
name = "6"
set."oven.layer.1.thickness" = "3 cm"
)");
  std::vector<std::vector<int>> excludes;
  for (const auto& change : read.plan().changes) excludes.push_back(change.excludes);
  CHECK(excludes == std::vector<std::vector<int>>{{1, 2}, {0}, {0}, {5}, {5}, {3, 4, 6}, {5}});
}

TEST_CASE("a study checked by several threads is the same", "[study][determinism]") {
  const StudyFolder folder;
  std::string text = "case = \"yard.toml\"\n";
  for (int i = 0; i < 40; ++i) {
    text += "[[change]]\nname = \"c" + std::to_string(i) +
            "\"\nset.\"oven.liner.absorptance\" = 0." + std::to_string(50 + i) + "\n";
  }
  folder.write("study.toml", text);
  std::vector<double> shares;
  const Study one(folder.file("study.toml"), Causes::kLeftOut);
  const Study four(folder.file("study.toml"),
                   Causes::kLeftOut,
                   {.threads = 4, .progress = [&](double share) { shares.push_back(share); }});
  for (std::size_t i = 0; i < one.plan().alternatives.size(); ++i) {
    CHECK(one.plan().alternatives[i].sha256 == four.plan().alternatives[i].sha256);
  }
  CHECK(std::is_sorted(shares.begin(), shares.end()));
  CHECK(shares.size() == 41);
  CHECK(shares.back() == 1.0);
  // Faults come in the order of the file, too.
  folder.write("bad.toml",
               text + "[[change]]\nname = \"x\"\nset.\"oven.liner.absorptance\" = 7\n" +
                   "[[change]]\nname = \"y\"\nset.\"oven.liner.absorptance\" = 8\n");
  std::vector<std::string> said;
  for (const int threads : {1, 4}) {
    try {
      const Study bad(
          folder.file("bad.toml"), Causes::kLeftOut, {.threads = threads, .progress = {}});
    } catch (const base::InputError& error) {
      said.emplace_back(error.what());
    }
  }
  REQUIRE(said.size() == 2);
  CHECK(said[0] == said[1]);
}

TEST_CASE("the start of a study takes time in proportion to its changes", "[study][unit]") {
  // CPU time of the process, so that other work on the machine does not count. All pairs in turn
  // took sixteen times as long for four times the changes; proportion is four. 400 changes took
  // over a minute and now take 0.2 s; the bound leaves room for sanitizers.
  const StudyFolder folder;
  const auto seconds = [&folder](int count) {
    std::string text = "case = \"yard.toml\"\n";
    for (int i = 0; i < count; ++i) {
      const std::string key = i % 2 == 0 ? "oven.liner.absorptance" : "oven.liner.emittance";
      text += "[[change]]\nname = \"c" + std::to_string(i) + "\"\nset.\"" + key + "\" = 0." +
              std::to_string(1000 + i) + "\n";
    }
    folder.write("study.toml", text);
    const std::clock_t begin = std::clock();
    const Study read(folder.file("study.toml"), Causes::kLeftOut);
    CHECK(read.plan().alternatives.size() == static_cast<std::size_t>(count) + 1);
    return static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
  };
  const double hundred_s = std::min(seconds(100), seconds(100));
  const double four_hundred_s = std::min(seconds(400), seconds(400));
  INFO(hundred_s << " s and " << four_hundred_s << " s");
  CHECK(four_hundred_s < 8.0 * hundred_s);
  CHECK(four_hundred_s < 10.0);
}

TEST_CASE("tasks count and cost as the study says", "[study][unit]") {
  const StudyFolder folder;
  const Study read = folder.study(R"(case = "yard.toml"
[study]
name = "bread only"
money = "EUR"
count = ["bread loaf"]
[kitchen]
tariff = 0.36
oven_price = 30
[[kitchen.task]]
name = "bread loaf"
energy = "1 kWh"
cooks_a_week = 3.5
[[oven]]
name = "mine"
[[oven]]
name = "dear"
price = 90
)");
  const results::StoredStudy& plan = read.plan();
  REQUIRE(plan.tasks.size() == 8);
  for (const results::StudyTask& task : plan.tasks) {
    CHECK(task.counts == (task.name == "bread loaf"));
    if (task.name != "bread loaf") continue;
    CHECK_THAT(task.kitchen_J, test::within_rel(3.6e6, 1e-12));
    CHECK_THAT(task.cooks_a_year, test::within_rel(182.5, 1e-12));
    CHECK(task.kitchen_source == "given in the study");
  }
  CHECK_THAT(plan.tariff_per_J, test::within_rel(1e-7, 1e-12));
  CHECK(plan.oven_prices == std::vector<double>{30.0, 90.0});
}

TEST_CASE("an invalid study is refused with the line and the allowed values", "[study][unit]") {
  const StudyFolder folder;
  const std::string start = "case = \"yard.toml\"\n";
  CHECK(contains(refusal(folder, "[study]\n"), "study.toml: case: missing"));
  CHECK(contains(refusal(folder, "case = \"none.toml\""), "study.toml:1: case: "));
  CHECK(contains(refusal(folder, start + "[stduy]\n"), "study.toml:2: stduy: unknown key"));
  CHECK(contains(refusal(folder, start + "[[oven]]\nnmae = \"x\""),
                 "study.toml:3: oven.nmae: unknown key; did you mean name?"));
  CHECK(contains(refusal(folder, start + "[[change]]\nname = \"x\""), "changes nothing"));
  CHECK(contains(refusal(folder, start + "[[oven]]\nname = \"x\"\n[[oven]]\nname = \"x\""),
                 "study.toml:5: oven.name: 'x' is used twice"));
  CHECK(contains(refusal(folder, start + "[study]\ncount = [\"bred\"]"), "allowed one of 'soup"));
  CHECK(contains(refusal(folder, start + "[kitchen]\ntariff = -1"), "kitchen.tariff: -1"));
  CHECK(contains(refusal(folder, start + "[[site]]\nname = \"x\"\nuse = { weather = \"no.epw\" }"),
                 "no.epw: cannot be read"));
  CHECK(contains(refusal(folder, start + "[[change]]\nname = \"x\"\ndrop = [\"task.rice\"]"),
                 "other tasks"));
}

TEST_CASE("all faults of a study and its cases are reported at once", "[study][unit]") {
  const StudyFolder folder;
  const std::string said = refusal(folder, R"(case = "yard.toml"
[study]
mony = "EUR"
[[change]]
name = "one"
set."oven.liner.absorptance" = 2
[[change]]
name = "two"
price = -3
set."oven.linr.absorptance" = 0.5
)");
  for (const char* part : {"study.toml:3: study.mony: unknown key",
                           "study.toml:6: oven.liner.absorptance: 2",
                           "study.toml:9: change.price: -3",
                           "study.toml:10: oven.linr: unknown key"}) {
    INFO(part);
    CHECK(contains(said, part));
  }
}

TEST_CASE("the starter study is valid with the starter case", "[study][unit]") {
  const StudyFolder folder;
  folder.write("my-yard.toml", folder.read("yard.toml"));
  const Study read = folder.study(study::starter_study());
  CHECK(read.plan().changes.size() == 8);
  CHECK(read.together());
  for (const results::StudyChange& change : read.plan().changes) CHECK(change.excludes.empty());
}
