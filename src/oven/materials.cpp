// SPDX-License-Identifier: MIT
#include "ovendays/oven/materials.h"

#include <array>

namespace ovendays::oven {
namespace {
// A service limit nobody reaches in a solar oven.
constexpr double kNoLimit_K = 1e9;

// name, conductivity at 25 degC, its rise per kelvin, density, specific heat, service limit, source
const std::array<Material, 20>& table() {  // NOLINT(readability-function-size): a table
  static const std::array<Material, 20> rows{{
      {"glass",
       1.0,
       0.0,
       2500.0,
       840.0,
       kNoLimit_K,
       "EN ISO 10077-2 / 10456 (1.0; CIBSE Guide A table 3.36 has 1.05)"},
      {"corrugated cardboard",
       0.060,
       0.002,
       120.0,
       1400.0,
       423.15,
       "conductivity 0.05-0.065 across the flutes, the rest and the limit: from memory"},
      {"corrugated cardboard with foil",
       0.050,
       0.001,
       125.0,
       1390.0,
       423.15,
       "low end of 0.05-0.065: foil stops radiation across the flutes; from memory"},
      {"plywood", 0.125, 0.0, 540.0, 1600.0, 393.15, "0.11-0.14, the rest: from memory"},
      {"softwood",
       0.13,
       0.0,
       500.0,
       1600.0,
       393.15,
       "conductivity, density, specific heat EN ISO 10077-2 / 10456; limit from memory"},
      {"hardwood",
       0.18,
       0.0,
       700.0,
       1600.0,
       393.15,
       "conductivity, density, specific heat EN ISO 10077-2 / 10456; limit from memory"},
      {"mineral wool",
       0.036,
       0.005,
       60.0,
       840.0,
       923.15,
       "conductivity American Wood Council data (0.25 Btu in/h ft2 F); its rise (0.055 above 100 "
       "degC mean), density, limit from memory"},
      {"glass fibre",
       0.038,
       0.005,
       16.0,
       840.0,
       503.15,
       "conductivity ASHRAE (0.0221 Btu/h ft F); rise, density, limit (binder) from memory"},
      {"polyisocyanurate foam",
       0.030,
       0.003,
       45.0,
       1470.0,
       393.15,
       "conductivity, density CIBSE Guide A table 3.37; limit 120-150 degC from memory"},
      {"polyurethane foam",
       0.028,
       0.003,
       30.0,
       1470.0,
       373.15,
       "conductivity, density CIBSE Guide A table 3.37; limit from memory"},
      {"expanded polystyrene", 0.036, 0.004, 20.0, 1450.0, 348.15, "from memory"},
      {"cork",
       0.050,
       0.001,
       240.0,
       2050.0,
       393.15,
       "conductivity, density, specific heat of the science and engineering encyclopedia at "
       "diracdelta.co.uk; limit from memory"},
      {"straw", 0.060, 0.003, 100.0, 1700.0, 393.15, "from memory"},
      {"crumpled newspaper", 0.060, 0.004, 60.0, 1340.0, 423.15, "common practice, no source"},
      {"wool", 0.040, 0.004, 25.0, 1700.0, 403.15, "from memory"},
      {"rice hulls", 0.050, 0.002, 120.0, 1500.0, 423.15, "from memory"},
      {"still air gap 25 mm",
       0.139,
       0.004,
       1.2,
       1006.0,
       kNoLimit_K,
       "resistance 0.18 m2K/W of an upright unventilated gap, ISO 6946, from memory; holds near "
       "25 mm only"},
      {"hardboard", 0.13, 0.0, 900.0, 1700.0, 393.15, "from memory"},
      {"aluminium",
       230.0,
       0.0,
       2700.0,
       900.0,
       kNoLimit_K,
       "conductivity CIBSE Guide A / EN ISO 10077-2; the rest from memory"},
      {"steel", 50.0, 0.0, 7800.0, 480.0, kNoLimit_K, "EN ISO 10456, from memory"},
  }};
  return rows;
}
}  // namespace

std::span<const Material> materials() { return table(); }

std::optional<Material> find_material(const std::string& name) {
  for (const Material& row : table()) {
    if (row.name == name) return row;
  }
  return std::nullopt;
}
}  // namespace ovendays::oven
