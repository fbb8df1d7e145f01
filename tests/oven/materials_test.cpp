// SPDX-License-Identifier: MIT
#include "ovendays/oven/materials.h"

#include <set>

#include "catch.h"

using namespace ovendays;

TEST_CASE("every material has a source, a name of its own and sane numbers", "[oven][unit]") {
  std::set<std::string> names;
  for (const oven::Material& row : oven::materials()) {
    CAPTURE(row.name);
    CHECK(names.insert(row.name).second);
    CHECK_FALSE(row.source.empty());
    CHECK(row.conductivity_WmK > 0.02);  // nothing a home builder has is better than still air
    CHECK(row.conductivity_slope_1K >= 0.0);
    CHECK(row.density_kgm3 > 1.0);
    CHECK(row.specific_heat_JkgK > 400.0);
    CHECK(row.service_limit_K > 273.15 + 70.0);
    CHECK(oven::find_material(row.name).has_value());
  }
  CHECK_FALSE(oven::find_material("unobtainium").has_value());
}

TEST_CASE("conductivities lie in the bands of their sources", "[oven][reference]") {
  struct Band {
    const char* name;
    double least_WmK;
    double most_WmK;
  };
  const Band bands[] = {
      {"glass", 0.9, 1.1},                              // CIBSE Guide A 3.36, EN ISO 10077-2
      {"polyisocyanurate foam", 0.028, 0.035},          // CIBSE Guide A 3.37; band from memory
      {"polyurethane foam", 0.025, 0.030},              // CIBSE Guide A 3.37
      {"mineral wool", 0.032, 0.045},                   // wood council; band from memory
      {"glass fibre", 0.032, 0.045},                    // ASHRAE; band from memory
      {"cork", 0.038, 0.051},                           // diracdelta.co.uk 0.05
      {"softwood", 0.10, 0.144},                        // EN ISO 10077-2 0.13
      {"hardwood", 0.16, 0.20},                         // EN ISO 10077-2 0.18
      {"plywood", 0.11, 0.14},                          // from memory
      {"corrugated cardboard", 0.045, 0.08},            // from memory
      {"corrugated cardboard with foil", 0.045, 0.08},  // from memory
      {"aluminium", 160.0, 237.0},                      // CIBSE / EN ISO 230
  };
  for (const Band& band : bands) {
    CAPTURE(band.name);
    const auto row = oven::find_material(band.name);
    REQUIRE(row.has_value());
    CHECK(row->conductivity_WmK >= band.least_WmK);
    CHECK(row->conductivity_WmK <= band.most_WmK);
  }
}

TEST_CASE("mineral wool conducts about 0.055 W/mK above 100 degC", "[oven][reference]") {
  const auto wool = oven::find_material("mineral wool");
  REQUIRE(wool.has_value());
  // from memory: 0.055 at a mean somewhat above 100 degC
  const double hot = wool->conductivity_WmK * (1.0 + wool->conductivity_slope_1K * (125.0 - 25.0));
  REQUIRE_THAT(hot, test::within_abs(0.055, 0.003));
}
