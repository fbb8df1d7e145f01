// SPDX-License-Identifier: MIT
#include "text_table.h"

#include <algorithm>

#include "ovendays/base/calendar.h"

namespace ovendays::report {
namespace {
constexpr std::size_t kNarrowestName = 12;

void put_text_row(std::string& out,
                  const TextRow& row,
                  std::size_t name_width,
                  const std::vector<std::size_t>& widths) {
  std::vector<std::string> names = wrap(row.name, name_width);
  if (names.size() > 1) {  // continuation lines are indented, so they must be shorter
    std::string rest;
    for (std::size_t i = 1; i < names.size(); ++i) rest += names[i] + " ";
    const std::vector<std::string> below = wrap(rest, name_width - 2);
    names.resize(1);
    names.insert(names.end(), below.begin(), below.end());
  }
  std::string line = pad_right(shortened(names[0], name_width), name_width);
  for (std::size_t i = 0; i < widths.size(); ++i) line += pad_left(row.cells[i], widths[i]);
  out += line + "\n";
  for (std::size_t i = 1; i < names.size(); ++i) {
    out += "  " + shortened(names[i], name_width - 2) + "\n";
  }
}
}  // namespace

std::string text_table(const std::vector<std::string>& heads,
                       const std::vector<TextRow>& rows,
                       std::size_t width) {
  std::vector<std::size_t> widths;
  std::size_t taken = 0;
  for (std::size_t i = 0; i < heads.size(); ++i) {
    std::size_t widest = columns_of(heads[i]);
    for (const TextRow& row : rows) widest = std::max(widest, columns_of(row.cells[i]));
    widths.push_back(widest);
    taken += widest;
  }
  const std::size_t gap = taken + 2 * widths.size() + kNarrowestName <= width ? 2 : 1;
  for (std::size_t& each : widths) each += gap;
  taken += gap * widths.size();
  std::size_t longest = 0;
  for (const TextRow& row : rows) longest = std::max(longest, columns_of(row.name));
  const std::size_t room = std::max(kNarrowestName, width - std::min(width, taken));
  const std::size_t name_width = std::min(longest, room);
  std::string out;
  put_text_row(out, {"", heads}, name_width, widths);
  for (const TextRow& row : rows) put_text_row(out, row, name_width, widths);
  return out;
}

std::vector<std::string> month_heads() {
  std::vector<std::string> heads;
  for (int month = 1; month <= 12; ++month) heads.emplace_back(base::month_name(month));
  heads.emplace_back("year");
  return heads;
}

std::size_t table_width(int width) {
  constexpr int kNarrowest = 72;
  return static_cast<std::size_t>(std::max(kNarrowest, width));
}

std::string paragraph(const std::string& text, std::size_t width, std::size_t indent) {
  std::string out;
  std::string start;
  for (const std::string& line : wrap(text, width - indent)) {
    out += start + line + "\n";
    start = std::string(indent, ' ');
  }
  return out;
}
}  // namespace ovendays::report
