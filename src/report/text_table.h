// SPDX-License-Identifier: MIT
// Tables and paragraphs for a terminal.
#pragma once

#include <string>
#include <vector>

#include "words.h"

namespace ovendays::report {

/// A table row: a name and right-aligned cells.
struct TextRow {
  std::string name;
  std::vector<std::string> cells;
};

/// A table whose first column takes the width that the others leave; long names are wrapped.
/// @param heads heads of the other columns; each column is as wide as its widest cell plus two
/// (plus one in a narrow terminal)
std::string text_table(const std::vector<std::string>& heads,
                       const std::vector<TextRow>& rows,
                       std::size_t width);

/// "Jan" .. "Dec", "year".
std::vector<std::string> month_heads();

/// Width that a table may take in a terminal of `width` columns: at least 72.
std::size_t table_width(int width);

/// Text wrapped to `width`; lines after the first are indented by `indent`.
std::string paragraph(const std::string& text, std::size_t width, std::size_t indent = 0);
}  // namespace ovendays::report
