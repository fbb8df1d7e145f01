// SPDX-License-Identifier: MIT
// Cases built from a base case and edits: what an edit changes, and where its faults are reported.
#include <unistd.h>

#include <filesystem>

#include "catch.h"
#include "ovendays/base/case_node.h"
#include "ovendays/base/file.h"

using namespace ovendays::base;
using ovendays::test::contains;

namespace {
constexpr Range kAny{0.0, 100.0};

// A study with a single edit, on a base case with one entry of each kind.
std::string study(const std::string& change) {
  return R"(case = { box = { width = 1, panes = [ { gap = 1 } ], pots = [
  { name = "black pot", mass = 2 }, { name = "pan", mass = 3 } ] }, lid = { mass = 4 } }
[[change]]
)" + change;
}

CaseFile changed(const std::string& change) {
  return CaseFile::edited(study(change), "study.toml", {{"change", 0}});
}

double width_of(const CaseFile& file) {
  return file.root().table("box").quantity("width", Dimension::kLength, kAny, -1.0);
}

// The first fault that finish() throws; empty if there is none.
std::string fault_of(CaseFile file) {
  const CaseNode root = file.root();
  root.skip("lid");
  const CaseNode box = root.table("box");
  (void)box.quantity("width", Dimension::kLength, kAny, 0.0);
  box.skip("panes");
  box.skip("pots");
  try {
    file.finish();
  } catch (const InputError& error) {
    return error.faults().front().message();
  }
  return "";
}
}  // namespace

TEST_CASE("set replaces a value of the base case", "[base][unit]") {
  CHECK(width_of(changed("")) == 1.0);
  CHECK(width_of(changed("set.\"box.width\" = 7")) == 7.0);
  const CaseFile pots = changed("set.\"box.pots.pan.mass\" = 9\nset.\"box.pots.1.mass\" = 8");
  const auto both = pots.root().table("box").tables("pots");
  REQUIRE(both.size() == 2);
  CHECK(both[0].quantity("mass", Dimension::kMass, kAny, 0.0) == 8.0);
  CHECK(both[1].quantity("mass", Dimension::kMass, kAny, 0.0) == 9.0);
}

TEST_CASE("set creates missing tables and add appends to a list", "[base][unit]") {
  const CaseFile made = changed("set.\"spot.tree.height\" = 3");
  const CaseNode tree = made.root().table("spot").table("tree");
  CHECK(tree.quantity("height", Dimension::kLength, kAny, 0.0) == 3.0);
  const CaseFile added = changed("add.\"box.panes\" = { gap = 2 }\nadd.\"walls\" = { gap = 5 }");
  CHECK(added.root().table("box").count("panes") == 2);
  CHECK(added.root().count("walls") == 1);
}

TEST_CASE("drop removes keys and use replaces a whole table", "[base][unit]") {
  CHECK_FALSE(changed("drop = [\"lid\"]").root().has("lid"));
  CHECK(changed("drop = \"box.pots.black pot\"").root().table("box").count("pots") == 1);
  const std::string text =
      "case = { box = { width = 1, height = 2 } }\n"
      "[[box]]\nuse = { width = 5 }\n";
  const CaseFile whole = CaseFile::edited(text, "study.toml", {{"box", 0}});
  CHECK(width_of(whole) == 5.0);
  CHECK_FALSE(whole.root().table("box").has("height"));
}

TEST_CASE("a fault in an edited case is reported at the line of the edit", "[base][unit]") {
  CHECK(fault_of(changed("")).empty());
  CHECK(fault_of(changed("set.\"box.width\" = 700")) ==
        "study.toml:4: box.width: 700 m, allowed 0 to 100 m");
  CHECK(contains(fault_of(changed("\nset.\"box.widht\" = 7")),
                 "study.toml:5: box.widht: unknown key; did you mean width?"));
  CHECK(contains(fault_of(changed("set.\"box.pots.kettle.mass\" = 7")),
                 "change.set.box.pots.kettle.mass: 'kettle', allowed 1 to 2, 'black pot', 'pan'"));
  CHECK(contains(fault_of(changed("set.\"box.pots.3.mass\" = 7")), "'3', allowed 1 to 2"));
  CHECK(contains(fault_of(changed("set.\"box.width.x\" = 7")), "leads through a whole number"));
  CHECK(contains(fault_of(changed("drop = [\"box.roof\"]")), "change.drop.box.roof: is not in"));
  CHECK(contains(fault_of(changed("add.\"box.panes\" = 3")), "a whole number, allowed a table"));
  CHECK(contains(fault_of(changed("set = 3")), "allowed paths with their values"));
}

TEST_CASE("an edit may change an included file, and faults of that file keep its name",
          "[base][unit]") {
  namespace fs = std::filesystem;
  std::string name = (fs::temp_directory_path() / "ovendays_edit_XXXXXX").string();
  REQUIRE(::mkdtemp(name.data()) != nullptr);
  const fs::path folder = name;
  fs::create_directory(folder / "parts");
  write_file((folder / "base.toml").string(), "box = \"parts/box.toml\"\n");
  write_file((folder / "parts" / "box.toml").string(), "\nwidth = 400\nheight = 3\n");
  const std::string study_file = (folder / "study.toml").string();
  const std::string text = "case = \"base.toml\"\n[[change]]\nset.\"box.height\" = 500\n";
  CaseFile file = CaseFile::edited(text, study_file, {{"change", 0}});
  const CaseNode box = file.root().table("box");
  (void)box.quantity("width", Dimension::kLength, kAny, 0.0);
  (void)box.quantity("height", Dimension::kLength, kAny, 0.0);
  CHECK(box.file_of("width") == (folder / "parts" / "box.toml").string());
  CHECK(box.file_of("height") == study_file);
  try {
    file.finish();
    FAIL("two faults went unseen");
  } catch (const InputError& error) {
    REQUIRE(error.faults().size() == 2);
    CHECK(contains(error.what(), "parts/box.toml:2: box.width: 400 m"));
    CHECK(contains(error.what(), "study.toml:3: box.height: 500 m"));
  }
  fs::remove_all(folder);
}

TEST_CASE("the text of an edited case does not depend on its layout", "[base][unit]") {
  const std::string one = changed("set.\"box.width\" = 7").text();
  CHECK(one == changed("# a remark\n\nset = { \"box.width\" = 7 }").text());
  CHECK(one != changed("set.\"box.width\" = 8").text());
}

TEST_CASE("a missing or invalid base case is rejected", "[base][unit]") {
  const auto refuses = [](const std::string& text, const std::string& word) {
    try {
      CaseFile::edited(text, "study.toml", {});
    } catch (const InputError& error) {
      return contains(error.what(), word);
    }
    return false;
  };
  CHECK(refuses("a = 1", "case: missing"));
  CHECK(refuses("\ncase = 3", "study.toml:2: case: a whole number"));
  CHECK(refuses("case = \"none.toml\"", "study.toml:1: case: none.toml: cannot be read"));
}
