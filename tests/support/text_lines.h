// SPDX-License-Identifier: MIT
// The lines of a text.
#pragma once

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

namespace ovendays::test {

inline std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// How many line ends there are.
inline long lines_in(const std::string& text) { return std::count(text.begin(), text.end(), '\n'); }
}  // namespace ovendays::test
