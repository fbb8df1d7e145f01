// SPDX-License-Identifier: MIT
// A table of numbers as a picture; darker cells mean more.
#pragma once

#include <string>
#include <vector>

#include "drawing.h"

namespace ovendays::report {

struct MatrixCell {
  std::string text;
  double share = 0.0;  ///< 0..1, selects the colour
  std::string hint;
};

struct MatrixRow {
  std::string name;
  std::vector<MatrixCell> cells;
  std::string total;         ///< printed at the end of the row, with a bar
  double total_share = 0.0;  ///< 0..1, length of the bar
};

struct Matrix {
  std::string label;  ///< what the picture shows, for screen readers
  std::string corner;
  std::vector<std::string> columns;
  std::string total_head;  ///< empty if rows have no totals
  std::vector<MatrixRow> rows;
  std::string least, most;  ///< meaning of the ends of the scale
};

/// Draws the table, as wide as its columns need and at least 480.
Drawing matrix_picture(const Matrix& matrix);
}  // namespace ovendays::report
