// SPDX-License-Identifier: MIT
// Tables and paragraphs for a terminal.
#pragma once

#include <string>
#include <vector>

#include "words.h"

namespace ovendays::report {

/// A name and cells that stand right-aligned in columns.
struct TextRow {
  std::string name;
  std::vector<std::string> cells;
};

/// A table whose first column takes what the others leave of `width`; long names are wrapped.
/// @param heads of the other columns; each is as wide as its widest cell and two more (one
/// where the terminal is narrow)
std::string text_table(const std::vector<std::string>& heads,
                       const std::vector<TextRow>& rows,
                       std::size_t width);

/// "Jan" .. "Dec", "year".
std::vector<std::string> month_heads();

/// Columns that a table may take of a terminal `width` wide: 72 at least.
std::size_t table_width(int width);

/// Text wrapped to `width`, lines after the first set in by `indent`.
std::string paragraph(const std::string& text, std::size_t width, std::size_t indent = 0);
}  // namespace ovendays::report
