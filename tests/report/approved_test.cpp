// SPDX-License-Identifier: MIT
// Compares what a user reads with approved files, letter by letter. The target `approve` accepts an
// intended difference (see approved_outputs.h).
#include <filesystem>
#include <set>
#include <sstream>

#include "approved_outputs.h"
#include "catch.h"
#include "ovendays/base/file.h"

using namespace ovendays;
namespace fs = std::filesystem;

namespace {
const fs::path kApproved = fs::path(OVENDAYS_TEST_DATA) / "approved";

/// Describes the first difference of two texts, for the message.
std::string first_difference(const std::string& approved, const std::string& said) {
  std::istringstream was(approved);
  std::istringstream is(said);
  for (int number = 1;; ++number) {
    std::string old_line;
    std::string new_line;
    const bool more_old = static_cast<bool>(std::getline(was, old_line));
    const bool more_new = static_cast<bool>(std::getline(is, new_line));
    if (!more_old && !more_new) return "only the last line's end differs";
    if (more_old == more_new && old_line == new_line) continue;
    return "line " + std::to_string(number) + "\n  approved: " + (more_old ? old_line : "(end)") +
           "\n  now:      " + (more_new ? new_line : "(end)");
  }
}
}  // namespace

TEST_CASE("tables, rows and ratings read as approved", "[report][regression]") {
  std::set<std::string> made;
  for (const auto& [name, said] : test::outputs_to_approve()) {
    made.insert(name);
    INFO(name << "; where the change is meant: cmake --build BUILD --target approve");
    const std::string file = (kApproved / name).string();
    REQUIRE(fs::exists(file));
    const std::string approved = base::read_file(file);
    if (approved != said) FAIL_CHECK(first_difference(approved, said));
  }
  for (const auto& entry : fs::directory_iterator(kApproved)) {
    INFO(entry.path().filename().string() << " is approved, and nothing makes it any more");
    CHECK(made.count(entry.path().filename().string()) == 1);
  }
}

TEST_CASE("the first line that differs is shown", "[report][unit]") {
  CHECK(
      test::contains(first_difference("a\nb\n", "a\nc\n"), "line 2\n  approved: b\n  now:      c"));
  CHECK(test::contains(first_difference("a\n", "a\n\n"), "approved: (end)"));
  CHECK(test::contains(first_difference("a\nb\n", "a\n"), "now:      (end)"));
  CHECK(first_difference("a", "a\n") == "only the last line's end differs");
}
