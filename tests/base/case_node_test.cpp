// SPDX-License-Identifier: MIT
#include "ovendays/base/case_node.h"

#include <sys/stat.h>

#include <chrono>
#include <filesystem>
#include <limits>

#include "catch.h"
#include "ovendays/base/file.h"
#include "scratch_folder.h"

namespace base = ovendays::base;
namespace fs = std::filesystem;
namespace test = ovendays::test;
using base::CaseFile;
using base::CaseNode;
using base::Dimension;
using base::Range;
using ovendays::test::contains;
using ovendays::test::within_rel;

namespace {
constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr Range kLengths{0.01, 3.0};

/// All messages of finish(), or "" if it does not throw.
std::string finish_text(CaseFile& file) {
  try {
    file.finish();
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}

std::string parse_failure(const std::string& text) {
  try {
    const CaseFile file(text, "case.toml");
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}

/// Writes a file into a folder and returns its path.
std::string put(const test::Scratch& folder, const std::string& name, const std::string& text) {
  folder.write(name, text);
  return folder.file(name);
}
}  // namespace

TEST_CASE("quantities of a case are converted to SI", "[base][unit]") {
  CaseFile file(
      "[oven]\nwidth = \"18 in\"\nglaze = 6e-3\ntilt = 30\nair = \"350 F\"\nname = \"box\"\n"
      "turns = true\npanes = 2\nat = [\"07:30\", 09:15:30]\nlist = [\"1 m\", 2, 0.5]\n",
      "case.toml");
  const CaseNode oven = file.root().table("oven");
  REQUIRE(oven.present());
  REQUIRE(oven.line() == 1);
  REQUIRE(oven.path() == "oven");
  REQUIRE_THAT(oven.required_quantity("width", Dimension::kLength, kLengths),
               within_rel(0.4572, 1e-14));
  REQUIRE(oven.quantity("glaze", Dimension::kLength, {0.0, 1.0}, 0.0) == 6e-3);
  REQUIRE_THAT(oven.quantity("tilt", Dimension::kAngle, {0.0, 2.0}, 0.0),
               within_rel(0.5235987755982988, 1e-14));
  REQUIRE_THAT(oven.quantity("air", Dimension::kTemperature, {200.0, 600.0}, 0.0),
               within_rel(449.816666666667, 1e-12));
  REQUIRE(oven.text("name", "") == "box");
  REQUIRE(oven.flag("turns", false));
  REQUIRE(oven.integer("panes", {1.0, 3.0}, 0) == 2);
  REQUIRE(oven.clocks("at") == std::vector<double>{27000.0, 33330.0});
  REQUIRE(oven.quantities("list", Dimension::kLength, {0.0, 9.0}, 3) ==
          std::vector<double>{1.0, 2.0, 0.5});
  REQUIRE_FALSE(oven.optional_quantity("absent", Dimension::kMass, {0.0, 1.0}).has_value());
  REQUIRE(finish_text(file).empty());
}

TEST_CASE("a value out of range is reported with file, line, key, value and range",
          "[base][unit]") {
  CaseFile file("\n[oven]\n[[oven.flap]]\nflare_angle = 190\nlength = \"4 m\"\n", "case.toml");
  for (const CaseNode& flap : file.root().table("oven").tables("flap")) {
    (void)flap.quantity("flare_angle", Dimension::kAngle, {0.0, 1.5707963267948966}, 1.0);
    (void)flap.quantity("length", Dimension::kLength, {0.0, 3.0}, 1.0);
  }
  REQUIRE(finish_text(file) ==
          "case.toml:4: oven.flap.flare_angle: 190 deg, allowed 0 to 90 deg\n"
          "case.toml:5: oven.flap.length: 4 m, allowed 0 to 3 m");
}

TEST_CASE("the ends of a range are accepted in every unit", "[base][unit]") {
  CaseFile file("a = 90\nb = \"118.11023622047244 in\"\n", "case.toml");
  (void)file.root().quantity("a", Dimension::kAngle, {0.0, 1.5707963267948966}, 0.0);
  // Rounding puts this slightly above 3 m; it is clamped to 3 m.
  REQUIRE(file.root().quantity("b", Dimension::kLength, {0.0, 3.0}, 0.0) <= 3.0);
  REQUIRE(finish_text(file).empty());
}

TEST_CASE("a value of the wrong kind is reported with the kind that is expected", "[base][unit]") {
  CaseFile file(
      "a = true\nb = \"3 kg\"\nc = nan\nd = 1.5\ne = \"yes\"\nf = 3\ng = \"25:00\"\nh = [1, 2]\n"
      "i = \"best\"\nj = 3\nk = [\"a\", 1]\nl = \"abc\"\n",
      "c.toml");
  const CaseNode root = file.root();
  (void)root.quantity("a", Dimension::kLength, {0.001, 3.0}, 0.0);
  (void)root.quantity("b", Dimension::kLength, {-kInfinite, 3.0}, 0.0);
  (void)root.quantity("c", Dimension::kLength, {0.5, kInfinite}, 0.0);
  (void)root.integer("d", {1.0, 9.0}, 0);
  (void)root.flag("e", false);
  (void)root.text("f", "");
  (void)root.clock("g", 0.0);
  (void)root.quantities("h", Dimension::kNumber, {0.0, 9.0}, 12);
  (void)root.choice("i", {"good", "fair"}, 0);
  (void)root.table("j");
  (void)root.texts("k");
  (void)root.quantity("l", Dimension::kTemperature, {273.15, 293.15}, 0.0);
  (void)root.required_quantity("m", Dimension::kTime, {60.0, 28800.0});
  REQUIRE(
      finish_text(file) ==
      "c.toml: m: missing, allowed a time, 1 min to 8 h\n"
      "c.toml:1: a: true or false, allowed a length, 1 mm to 3 m\n"
      "c.toml:2: b: 3 kg is not a length, allowed at most 3 m\n"
      "c.toml:3: c: nan m, allowed at least 0.5 m\n"
      "c.toml:4: d: a number, allowed a whole number, 1 to 9\n"
      "c.toml:5: e: text, allowed true or false\n"
      "c.toml:6: f: a whole number, allowed text in quotes\n"
      "c.toml:7: g: '25:00', allowed a time of day, \"00:00\" to \"24:00\"\n"
      "c.toml:8: h: 2 values, allowed 12 values\n"
      "c.toml:9: i: 'best', allowed one of: good, fair\n"
      "c.toml:10: j: a whole number, allowed a table, or the name of a TOML file that holds it\n"
      "c.toml:11: k: a whole number, allowed text in quotes\n"
      "c.toml:12: l: 'abc' is not a quantity, allowed 0 to 20 degC");
}

TEST_CASE("an unknown key is reported with the closest known key", "[base][unit]") {
  CaseFile file("[oven]\nflair_angle = 60\nwidth = 0.5\nzzz = 1\n[other]\nx = 1\n", "case.toml");
  const CaseNode oven = file.root().table("oven");
  (void)oven.quantity("flare_angle", Dimension::kAngle, {0.0, 1.6}, 0.0);
  (void)oven.quantity("width", Dimension::kLength, {0.0, 1.0}, 0.0);
  REQUIRE(finish_text(file) ==
          "case.toml:2: oven.flair_angle: unknown key; did you mean flare_angle? "
          "Known here: flare_angle, width\n"
          "case.toml:4: oven.zzz: unknown key; known here: flare_angle, width\n"
          "case.toml:5: other: unknown key; known here: oven");
}

TEST_CASE("a message is one line even if a key contains line breaks", "[base][unit]") {
  CaseFile file("\"a\\nb\" = 1\nc = \"x\\ny\"\n", "case.toml");
  (void)file.root().quantity("c", Dimension::kLength, {0.0, 1.0}, 0.0);
  REQUIRE(finish_text(file) ==
          "case.toml:1: a b: unknown key; known here: c\n"
          "case.toml:2: c: 'x y' is not a quantity, allowed 0 to 1 m");
}

TEST_CASE("an absent table is an empty node whose required keys are faults", "[base][unit]") {
  CaseFile file("a = 1\n", "case.toml");
  (void)file.root().integer("a", {0.0, 9.0}, 0);
  const CaseNode spot = file.root().table("spot");
  REQUIRE_FALSE(spot.present());
  REQUIRE(spot.line() == 0);
  REQUIRE(spot.tables("wall").empty());
  REQUIRE(spot.quantity("height", Dimension::kLength, kLengths, 0.9) == 0.9);
  REQUIRE(finish_text(file).empty());
  (void)spot.required_quantity("height", Dimension::kLength, kLengths);
  REQUIRE(finish_text(file) == "case.toml: spot.height: missing, allowed a length, 0.01 to 3 m");
}

TEST_CASE("a syntax error is reported with its line", "[base][unit]") {
  REQUIRE(contains(parse_failure("a = 1\nb = \n"), "case.toml:2: not TOML: "));
  REQUIRE(contains(parse_failure("a = 1\na = 2\n"), "case.toml:2: not TOML: "));
  REQUIRE(contains(parse_failure("a = \"\xff\"\n"), "case.toml:1: not TOML: "));
  REQUIRE_THROWS_AS(CaseFile("no/such/case.toml"), base::InputError);
}

TEST_CASE("excessive nesting is rejected without a crash", "[base][unit]") {
  std::string dotted = "a";
  for (int i = 0; i < 200000; ++i) dotted += ".a";
  REQUIRE(contains(parse_failure("\n[" + dotted + "]\n"), "case.toml:2: a key with more than 64"));
  REQUIRE(contains(parse_failure(dotted + " = 1\n"), "case.toml:1: a key with more than 64"));
  REQUIRE_FALSE(parse_failure(std::string("a = ").append(100000, '[')).empty());
  REQUIRE(parse_failure(std::string("# ").append(500, '.') + "\na = [" + std::string(300, ' ') +
                        "0.5, 0.5, 1.5]\n")
              .empty());
}

TEST_CASE("a file too large for a case is rejected without reading it", "[base][unit]") {
  const test::Scratch folder;
  const std::string large = put(folder, "large.toml", std::string((1U << 24) + 1U, '#'));
  REQUIRE_THROWS_AS(CaseFile(large), base::InputError);
}

TEST_CASE("faults beyond the first 200 are counted", "[base][unit]") {
  std::string text;
  for (int i = 0; i < 1000; ++i) text.append("k").append(std::to_string(i)).append(" = 1\n");
  CaseFile file(text, "case.toml");
  (void)file.root();
  try {
    file.finish();
    FAIL("a thousand unknown keys passed");
  } catch (const base::InputError& error) {
    REQUIRE(error.faults().size() == 201);
    REQUIRE(error.faults().back().got == "800 more faults, not listed");
  }
}

TEST_CASE("a hundred thousand tables are counted without creating nodes", "[base][unit]") {
  std::string text;
  for (int i = 0; i < 100000; ++i) text += "[[wall]]\nx1=0\n";
  CaseFile file(text, "case.toml");
  const auto start = std::chrono::steady_clock::now();
  REQUIRE(file.root().count("wall") == 100000);
  file.root().fault("wall", "100000 walls", "at most 2000");
  REQUIRE(finish_text(file) == "case.toml:1: wall: 100000 walls, allowed at most 2000");
  const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start;
  REQUIRE(spent.count() < 1.0);  // a single look-up; the bound is generous for a busy machine
}

TEST_CASE("a string in place of a table includes a file relative to the including one",
          "[base][unit]") {
  const test::Scratch folder;
  fs::create_directories(folder.path() / "parts");
  const std::string root = put(folder, "case.toml", "oven = \"parts/oven.toml\"\n");
  put(folder, "parts/oven.toml", "width = 9\nlid = \"lid.toml\"\n");
  put(folder, "parts/lid.toml", "# lid\nmass = \"2 kg\"\nmas = 1\n");
  CaseFile file(root);
  const CaseNode oven = file.root().table("oven");
  (void)oven.quantity("width", Dimension::kLength, kLengths, 0.5);
  const CaseNode lid = oven.table("lid");
  REQUIRE(lid.path() == "oven.lid");
  REQUIRE(lid.quantity("mass", Dimension::kMass, {0.0, 5.0}, 0.0) == 2.0);
  REQUIRE(file.root().table("oven").table("lid").present());  // the second access does not read the
                                                              // file again
  const std::string dir = folder.path();
  REQUIRE(finish_text(file) ==
          dir + "/parts/oven.toml:1: oven.width: 9 m, allowed 0.01 to 3 m\n" + dir +
              "/parts/lid.toml:3: oven.lid.mas: unknown key; did you mean mass? Known here: mass");
  REQUIRE(contains(file.text(), "oven = \"parts/oven.toml\"\n# included file: "));
  REQUIRE(contains(file.text(), "parts/lid.toml\n# lid\nmass = \"2 kg\""));
}

TEST_CASE("a missing, broken, circular or too deeply nested include is a fault", "[base][unit]") {
  const test::Scratch folder;
  const std::string root =
      put(folder,
          "case.toml",
          "a = \"none.toml\"\nb = \"broken.toml\"\nc = \"case.toml\"\nd = \"0.toml\"\n");
  put(folder, "broken.toml", "ok = 1\nx = = 2\n");
  for (int i = 0; i < 10; ++i) {
    put(folder, std::to_string(i) + ".toml", "next = \"" + std::to_string(i + 1) + ".toml\"\n");
  }
  CaseFile file(root);
  REQUIRE_FALSE(file.root().table("a").present());
  REQUIRE_FALSE(file.root().table("b").present());
  REQUIRE_FALSE(file.root().table("c").present());
  CaseNode deep = file.root().table("d");
  int depth = 0;
  for (; deep.present() && depth < 20; ++depth) deep = deep.table("next");
  REQUIRE(depth == 8);
  const std::string faults = finish_text(file);
  REQUIRE(contains(faults, "case.toml:1: a: "));
  REQUIRE(contains(faults, "none.toml: cannot be read"));
  REQUIRE(contains(faults, "broken.toml:2: not TOML"));
  REQUIRE(contains(faults, "case.toml includes itself"));
  REQUIRE(
      contains(faults, "7.toml:1: d.next.next.next.next.next.next.next.next: more than 8 files"));
}

TEST_CASE("an include of a device, a pipe or a huge file is a fault", "[base][regression]") {
  const test::Scratch folder;
  const std::string pipe = folder.file("pipe");
  REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
  const std::string huge = put(folder, "huge.toml", "");
  fs::resize_file(huge, std::uintmax_t{1} << 34);
  CaseFile file("a = \"/dev/zero\"\nb = \"" + pipe + "\"\nc = \"" + huge + "\"\n", "case.toml");
  for (const char* key : {"a", "b", "c"}) CHECK_FALSE(file.root().table(key).present());
  const std::string faults = finish_text(file);
  INFO(faults);
  CHECK(contains(faults, "case.toml:1: a: /dev/zero: cannot be read: it is not a plain file"));
  CHECK(contains(faults, "pipe: cannot be read: it is not a plain file"));
  CHECK(contains(faults, "huge.toml: cannot be read: it is larger than 16777216 bytes"));
}

TEST_CASE("number and total size of included files are limited", "[base][regression]") {
  const test::Scratch folder;
  const std::string none = put(folder, "none.toml", "");
  std::string list = "many = [";
  for (int i = 0; i < 1000; ++i) list += "\"" + none + "\",";
  CaseFile many(list + "]", "case.toml");
  CHECK(many.root().tables("many").size() == 255);  // with the case itself 256 files
  CHECK(contains(finish_text(many), "a case may have 256 files in all"));

  const std::string big = put(folder, "big.toml", std::string(std::size_t{6} << 20, '\n'));
  CaseFile heavy("a = \"" + big + "\"\nb = \"" + big + "\"\nc = \"" + big + "\"\n", "case.toml");
  CHECK(heavy.root().table("a").present());
  CHECK(heavy.root().table("b").present());
  CHECK_FALSE(heavy.root().table("c").present());
  CHECK(contains(finish_text(heavy), "the files of this case are larger than 16777216 bytes"));
}

TEST_CASE("a very long key is shortened in its message", "[base][regression]") {
  CaseFile file(std::string(100'000, 'x') + " = 1\n", "case.toml");
  (void)file.root().has("y");
  const std::string faults = finish_text(file);
  CHECK(contains(faults, "case.toml:1: xxx"));
  CHECK(faults.size() < 400);
}
