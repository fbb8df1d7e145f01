// SPDX-License-Identifier: MIT
// A picture of numbers in rows and columns, darker for more.
#pragma once

#include <string>
#include <vector>

#include "drawing.h"

namespace ovendays::report {

struct MatrixCell {
  std::string text;
  double share = 0.0;  ///< 0..1, the colour
  std::string hint;
};

struct MatrixRow {
  std::string name;
  std::vector<MatrixCell> cells;
  std::string total;         ///< told at the end of the row, with a bar
  double total_share = 0.0;  ///< 0..1, the bar's length
};

struct Matrix {
  std::string label;  ///< what it shows, for a screen reader
  std::string corner;
  std::vector<std::string> columns;
  std::string total_head;  ///< empty: rows have no totals
  std::vector<MatrixRow> rows;
  std::string least, most;  ///< what the ends of the scale stand for
};

/// As wide as its columns ask for, 480 at least.
Drawing matrix_picture(const Matrix& matrix);
}  // namespace ovendays::report
