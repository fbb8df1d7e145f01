// SPDX-License-Identifier: MIT
// Figures from outside, by their id in tests/data/<stage>/published.csv, where each has its source
// and the word for how sure it is.
#pragma once

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "catch.h"

namespace ovendays::test {

struct Published {
  double value = 0.0;
  double margin = 0.0;  ///< absolute
};

/// @throws std::runtime_error where the table has no such row
inline Published published(const std::string& id, const std::string& quantity) {
  std::ifstream file(OVENDAYS_TEST_DATA "/published.csv");
  std::string line;
  while (std::getline(file, line)) {
    std::vector<std::string> cell;
    std::istringstream row(line);
    for (std::string part; std::getline(row, part, ',');) cell.push_back(part);
    if (cell.size() != 7 || cell[0] != id || cell[1] != quantity) continue;
    const double value = std::stod(cell[2]);
    const double tolerance = std::stod(cell[3]);
    return {value, cell[4] == "rel" ? tolerance * std::abs(value) : tolerance};
  }
  throw std::runtime_error("published.csv has no " + id + " " + quantity);
}

/// Within the margin that the table gives.
inline auto within_published(const std::string& id, const std::string& quantity) {
  const Published figure = published(id, quantity);
  return within_abs(figure.value, figure.margin + 1e-12 * std::abs(figure.value));
}
}  // namespace ovendays::test
