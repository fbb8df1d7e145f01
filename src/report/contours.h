// SPDX-License-Identifier: MIT
// Lines of equal value over a grid.
#pragma once

#include <cstddef>
#include <vector>

#include "drawing.h"

namespace ovendays::report {

/// Values at the nodes of a grid, row by row; NaN where there is none.
struct Field {
  std::size_t columns = 0;
  std::size_t rows = 0;
  std::vector<double> values;
  [[nodiscard]] double at(std::size_t column, std::size_t row) const {
    return values[row * columns + column];
  }
};

/// Where the field, linear along the grid's edges, passes through `level`: lines in units of
/// columns and rows; a closed line ends where it begins. Marching squares (Lorensen and Cline 1987
/// in the plane); a saddle is settled by the mean of its corners. A cell with a corner that has no
/// value has no line.
std::vector<Polyline> contour_lines(const Field& field, double level);
}  // namespace ovendays::report
