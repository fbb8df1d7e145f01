// SPDX-License-Identifier: MIT
// Lines of equal value over a grid.
#pragma once

#include <cstddef>
#include <vector>

#include "drawing.h"

namespace ovendays::report {

/// Values at the nodes of a grid, row by row; NaN where a node has no value.
struct Field {
  std::size_t columns = 0;
  std::size_t rows = 0;
  std::vector<double> values;
  [[nodiscard]] double at(std::size_t column, std::size_t row) const {
    return values[row * columns + column];
  }
};

/// Contour lines of a field at `level`, by marching squares (Lorensen and Cline 1987, in the plane)
/// with linear interpolation along the grid's edges. The mean of the corners resolves saddles.
/// Cells with a NaN corner have no line.
/// @return lines in units of columns and rows; a closed line ends where it begins
std::vector<Polyline> contour_lines(const Field& field, double level);
}  // namespace ovendays::report
