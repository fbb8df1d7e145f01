// SPDX-License-Identifier: MIT
// tests/data/ledger.csv lists every published value with the test that checks it, or the reason why
// none does. These tests keep the list true: the tests it names exist, and every id that is used
// elsewhere is in it.
#include <filesystem>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "catch.h"
#include "ovendays/base/file.h"
#include "shared_folder.h"

using namespace ovendays;
namespace fs = std::filesystem;

namespace {
const std::string kRoot = std::string(OVENDAYS_SOURCE_DIR) + "/";

struct Row {
  std::string id, verdict, remark, file, test;
};

/// Splits a line into five cells; the last one is the rest of the line, commas included.
Row row_of(const std::string& line) {
  Row row;
  std::istringstream in(line);
  for (std::string* cell : {&row.id, &row.verdict, &row.remark, &row.file})
    std::getline(in, *cell, ',');
  std::getline(in, row.test);
  return row;
}

const std::vector<Row>& ledger() {
  static const std::vector<Row> rows = [] {
    std::vector<Row> read;
    std::istringstream in(base::read_file(kRoot + "tests/data/ledger.csv"));
    for (std::string line; std::getline(in, line);) {
      if (line.empty() || line[0] == '#' || line.rfind("id,", 0) == 0) continue;
      read.push_back(row_of(line));
    }
    return read;
  }();
  return rows;
}

std::set<std::string> ids_of_ledger() {
  std::set<std::string> ids;
  for (const Row& row : ledger()) ids.insert(row.id);
  return ids;
}

std::set<std::string> ids_in(const std::string& text) {
  static const std::regex pattern("\\b(SUN|OPT|HT|SYS|FOOD|TMY)-[0-9]+\\b");
  std::set<std::string> ids;
  for (std::sregex_iterator it(text.begin(), text.end(), pattern), end; it != end; ++it)
    ids.insert(it->str());
  return ids;
}
}  // namespace

TEST_CASE("every row of the ledger names an existing test or says why there is none",
          "[base][unit]") {
  REQUIRE(ledger().size() > 100);
  for (const Row& row : ledger()) {
    INFO(row.id << " " << row.verdict << ": " << row.file << ": " << row.test);
    CHECK(ids_in(row.id) == std::set<std::string>{row.id});
    if (row.verdict == "not tested") {
      CHECK_FALSE(row.remark.empty());
      CHECK(row.file.empty());
      CHECK(row.test.empty());
      continue;
    }
    CHECK((row.verdict == "agrees" || row.verdict == "recorded"));
    if (row.verdict == "recorded") CHECK_FALSE(row.remark.empty());
    REQUIRE(fs::exists(kRoot + row.file));
    CHECK(test::contains(base::read_file(kRoot + row.file), "TEST_CASE(\"" + row.test + "\""));
  }
}

TEST_CASE("an id marked as not tested has no second row with a test", "[base][unit]") {
  std::set<std::string> tested;
  std::set<std::string> untested;
  for (const Row& row : ledger()) (row.file.empty() ? untested : tested).insert(row.id);
  for (const std::string& id : untested) {
    INFO(id);
    CHECK(tested.count(id) == 0);
  }
}

TEST_CASE("every id used in tests and their data is in the ledger", "[base][unit]") {
  const std::set<std::string> known = ids_of_ledger();
  int used = 0;
  for (const auto& entry : fs::recursive_directory_iterator(kRoot + "tests")) {
    const std::string kind = entry.path().extension().string();
    if (kind != ".cpp" && kind != ".h" && kind != ".csv") continue;
    for (const std::string& id : ids_in(base::read_file(entry.path().string()))) {
      INFO(id << " in " << entry.path().string());
      CHECK(known.count(id) == 1);
      ++used;
    }
  }
  CHECK(used > 150);
}

TEST_CASE("the ledger holds every published value that was collected", "[base][reference]") {
  const auto file = test::want_shared("reference/published-values.md");
  if (!file) return;
  static const std::regex first_cell("\\n\\| ((SUN|OPT|HT|SYS|FOOD|TMY)-[0-9]+) \\|");
  const std::string text = base::read_file(*file);
  const std::set<std::string> known = ids_of_ledger();
  int rows = 0;
  for (std::sregex_iterator it(text.begin(), text.end(), first_cell), end; it != end; ++it) {
    INFO((*it)[1].str());
    CHECK(known.count((*it)[1].str()) == 1);
    ++rows;
  }
  CHECK(rows > 100);
}
