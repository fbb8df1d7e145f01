// SPDX-License-Identifier: MIT
#include "matrix_picture.h"

#include <algorithm>

#include "palette.h"
#include "words.h"

namespace ovendays::report {
namespace {
constexpr double kMatrixMargin = 20, kMatrixNames = 228, kMatrixRow = 34, kMatrixGap = 3,
                 kTotal = 112;
constexpr double kLeast = 480, kHeadLine = 13;
constexpr double kLetter = 6.4;  // average width of a letter
constexpr std::size_t kMatrixNameColumns = 36, kHeadLines = 3;

// With few columns there is room for horizontal heads.
double cell_width(const Matrix& matrix) {
  if (matrix.columns.size() <= 4) return 92;
  return matrix.columns.size() <= 8 ? 66 : 54;
}

double matrix_column_x(const Matrix& matrix, std::size_t column) {
  return kMatrixMargin + kMatrixNames + static_cast<double>(column) * cell_width(matrix);
}

// At most three lines; the last is shortened.
std::vector<std::string> head_lines(const Matrix& matrix, const std::string& head) {
  const auto room = static_cast<std::size_t>(cell_width(matrix) / kLetter);
  std::vector<std::string> lines = wrap(head, room);
  if (lines.size() > kHeadLines) {
    for (std::size_t i = kHeadLines; i < lines.size(); ++i) lines[kHeadLines - 1] += " " + lines[i];
    lines.resize(kHeadLines);
  }
  for (std::string& line : lines) line = shortened(line, room + 1);
  return lines;
}

void draw_matrix_name(Drawing& d, const std::string& name, double baseline) {
  const std::vector<std::string> lines = wrap(name, kMatrixNameColumns);
  if (lines.size() == 1) {
    d.text({kMatrixMargin, baseline, "start", ""}, shortened(name, kMatrixNameColumns));
    return;
  }
  std::string rest = lines[1];
  for (std::size_t i = 2; i < lines.size(); ++i) rest += " " + lines[i];
  d.text({kMatrixMargin, baseline - 7, "start", ""}, shortened(lines[0], kMatrixNameColumns));
  d.text({kMatrixMargin, baseline + 7, "start", ""}, shortened(rest, kMatrixNameColumns));
}

void draw_total(Drawing& d, const Matrix& matrix, const MatrixRow& row, double y) {
  if (matrix.total_head.empty()) return;
  const double x = matrix_column_x(matrix, matrix.columns.size()) + 12;
  const double room = kTotal - 12 - 44;
  d.box({x, y + 9, room, kMatrixRow - kMatrixGap - 18}, "band", 3);
  if (row.total_share > 0.0) {
    d.box(
        {x, y + 9, std::max(2.0, room * row.total_share), kMatrixRow - kMatrixGap - 18}, "done", 3);
  }
  d.text({x + kTotal - 12, y + kMatrixRow / 2 + 3, "end", "strong"}, row.total);
}

void draw_row(Drawing& d, const Matrix& matrix, const MatrixRow& row, double y) {
  const double baseline = y + kMatrixRow / 2 + 3;
  const double width = cell_width(matrix);
  d.open(row.name);
  draw_matrix_name(d, row.name, baseline);
  d.close();
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    const MatrixCell& cell = row.cells[i];
    const std::string step = std::to_string(step_of(cell.share));
    const std::string letters = "t" + step;
    d.open(cell.hint);
    d.box({matrix_column_x(matrix, i), y, width - kMatrixGap, kMatrixRow - kMatrixGap},
          "s" + step,
          3);
    d.text({matrix_column_x(matrix, i) + (width - kMatrixGap) / 2,
            baseline,
            "middle",
            letters.c_str()},
           cell.text);
    d.close();
  }
  draw_total(d, matrix, row, y);
}

void draw_matrix_scale(Drawing& d, const Matrix& matrix, double y) {
  constexpr double kStep = 13;
  const double x = kMatrixMargin + 6.3 * static_cast<double>(columns_of(matrix.least));
  d.text({kMatrixMargin, y + 9.5, "start", "soft"}, matrix.least);
  for (std::size_t i = 0; i < kSteps; ++i) {
    d.box({x + static_cast<double>(i) * kStep, y, kStep, 11}, "s" + std::to_string(i));
  }
  d.text({x + kSteps * kStep + 8, y + 9.5, "start", "soft"}, matrix.most);
}
}  // namespace

Drawing matrix_picture(const Matrix& matrix) {
  const double width = cell_width(matrix);
  const double right =
      matrix_column_x(matrix, matrix.columns.size()) + (matrix.total_head.empty() ? 0.0 : kTotal);
  Drawing d(std::max(kLeast, right + kMatrixMargin), matrix.label);
  std::size_t lines = 1;
  for (const std::string& head : matrix.columns)
    lines = std::max(lines, head_lines(matrix, head).size());
  double y = 18 + kHeadLine * static_cast<double>(lines - 1);
  d.text({kMatrixMargin, y, "start", "soft"}, matrix.corner);
  for (std::size_t i = 0; i < matrix.columns.size(); ++i) {
    const std::vector<std::string> words = head_lines(matrix, matrix.columns[i]);
    d.open(matrix.columns[i]);
    for (std::size_t l = 0; l < words.size(); ++l) {
      const double line_y = y - kHeadLine * static_cast<double>(words.size() - 1 - l);
      d.text({matrix_column_x(matrix, i) + (width - kMatrixGap) / 2, line_y, "middle", "soft"},
             words[l]);
    }
    d.close();
  }
  if (!matrix.total_head.empty()) d.text({right, y, "end", "soft"}, matrix.total_head);
  y += 8;
  for (const MatrixRow& row : matrix.rows) {
    draw_row(d, matrix, row, y);
    y += kMatrixRow;
  }
  draw_matrix_scale(d, matrix, y + 10);
  d.set_height(y + 10 + 12 + 14);
  return d;
}
}  // namespace ovendays::report
