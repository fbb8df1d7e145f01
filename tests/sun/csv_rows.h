// SPDX-License-Identifier: MIT
// Reference tables for tests: '#' comment lines, one line of column names, then rows.
#pragma once

#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "ovendays/base/calendar.h"

namespace ovendays::test {

class CsvRow {
 public:
  explicit CsvRow(std::map<std::string, std::string> cells) : cells_(std::move(cells)) {}
  [[nodiscard]] const std::string& text(const std::string& column) const {
    return cells_.at(column);
  }
  [[nodiscard]] double number(const std::string& column) const { return std::stod(text(column)); }
  /// A column of "2003-10-17T19:30:30Z".
  [[nodiscard]] base::UtcTime time(const std::string& column) const {
    const std::string& t = text(column);
    const base::Date date{
        std::stoi(t.substr(0, 4)), std::stoi(t.substr(5, 2)), std::stoi(t.substr(8, 2))};
    const double seconds = 3600.0 * std::stod(t.substr(11, 2)) + 60.0 * std::stod(t.substr(14, 2)) +
                           std::stod(t.substr(17, 2));
    return base::utc_from_local(date, seconds, 0.0);
  }

 private:
  std::map<std::string, std::string> cells_;
};

inline std::vector<std::string> split_commas(const std::string& line) {
  std::vector<std::string> parts;
  std::istringstream stream(line);
  for (std::string part; std::getline(stream, part, ',');) parts.push_back(part);
  return parts;
}

inline std::vector<CsvRow> read_rows(const std::string& file) {
  std::ifstream stream(file);
  if (!stream) throw std::runtime_error("cannot open " + file);
  std::vector<std::string> names;
  std::vector<CsvRow> rows;
  for (std::string line; std::getline(stream, line);) {
    if (line.empty() || line[0] == '#') continue;
    const std::vector<std::string> parts = split_commas(line);
    if (names.empty()) {
      names = parts;
      continue;
    }
    std::map<std::string, std::string> cells;
    for (std::size_t i = 0; i < names.size(); ++i) cells[names[i]] = parts.at(i);
    rows.emplace_back(std::move(cells));
  }
  return rows;
}
}  // namespace ovendays::test
