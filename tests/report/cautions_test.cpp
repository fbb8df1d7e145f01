// SPDX-License-Identifier: MIT
// Published dangers of box ovens: the report of a season must name each of them. Ids such as
// FOOD-21 are rows of tests/data/ledger.csv.
#include "catch.h"
#include "made_season.h"
#include "ovendays/report/report.h"

using namespace ovendays;

namespace {
std::string table_of(const test::MadeSeason& made) {
  // Wide enough that no sentence is broken.
  report::ReportOptions wide;
  wide.width = 4000;
  return report::season_table(results::stored_season(made.c, made.year, made.result), wide);
}
}  // namespace

TEST_CASE("a season warns of glare, fire, burns and sealed jars", "[report][reference]") {
  const std::string table = table_of(test::made_season());
  const std::string cautions = table.substr(table.find("\nCautions\n"));
  INFO(cautions);
  // FOOD-21 (seen: a solar cooking association's page on eyes).
  CHECK(test::contains(cautions, "never look into the reflectors"));
  CHECK(test::contains(cautions, "sunglasses"));
  // FOOD-22 (seen, one case: idle flared ovens set a bench on fire).
  CHECK(test::contains(cautions, "anything that burns"));
  CHECK(test::contains(cautions, "fold the reflectors away from the sun when nobody is near"));
  // FOOD-23 (from memory): edges and pots burn. Its other half, to heat new paint, foam and glue
  // empty before food goes in, is not among the cautions (see the ledger).
  CHECK(test::contains(cautions, "dry mitts"));
  // FOOD-14, FOOD-16 (seen: extension notices; a page of solar cooking hints).
  CHECK(test::contains(cautions, "Do not can or heat sealed jars"));
  // FOOD-10 (seen): what stays lukewarm is dangerous.
  CHECK(test::contains(cautions, "throw away what stayed lukewarm too long"));
}

TEST_CASE("a day hot enough but too slow is counted apart from one too cold",
          "[report][reference]") {
  // FOOD-10 (seen): a failed day must say that food was held in danger, not only that it is raw.
  test::MadeSeason made = test::made_season();
  for (season::DayTask& day : made.result.days) day = season::DayTask{};
  made.result.days[2 * season::kDays + 100].outcome = season::Outcome::kUnsafe;
  const std::string table = table_of(made);
  const std::size_t row = table.find("Chicken pieces", table.find("unsafe"));
  REQUIRE(row != std::string::npos);
  const std::string line = table.substr(row, table.find('\n', row) - row);
  INFO(line);
  CHECK(test::contains(line, " 1      -    364    365"));
}
