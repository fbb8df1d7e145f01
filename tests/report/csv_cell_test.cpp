// SPDX-License-Identifier: MIT
// Names as cells of a CSV table: RFC 4180, section 2, rules 5 to 7.
#include "catch.h"
#include "words.h"

using ovendays::report::csv_cell;

TEST_CASE("a cell with a comma, a quote or a line break is quoted, its quotes doubled",
          "[report][reference]") {
  CHECK(csv_cell("rice") == "rice");
  CHECK(csv_cell("") == "");  // NOLINT(readability-container-size-empty): the whole cell is asked
  CHECK(csv_cell("soup, a pot heated") == "\"soup, a pot heated\"");
  CHECK(csv_cell("a \"slow\" stew") == "\"a \"\"slow\"\" stew\"");
  CHECK(csv_cell("two\nlines") == "\"two\nlines\"");
}
