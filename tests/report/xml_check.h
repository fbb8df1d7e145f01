// SPDX-License-Identifier: MIT
// A small look at markup, for tests.
#pragma once

#include <string>
#include <vector>

namespace ovendays::test {

/// Tags open and close in pairs; attributes and comments do not nest.
inline bool well_formed(const std::string& xml) {
  std::vector<std::string> open;
  for (std::size_t at = xml.find('<'); at != std::string::npos; at = xml.find('<', at + 1)) {
    const std::size_t end = xml.find('>', at);
    if (end == std::string::npos) return false;
    std::string tag = xml.substr(at + 1, end - at - 1);
    if (tag.back() == '/') continue;
    if (tag[0] != '/') {
      open.push_back(tag.substr(0, tag.find_first_of(" \n")));
    } else if (open.empty() || open.back() != tag.substr(1)) {
      return false;
    } else {
      open.pop_back();
    }
  }
  return open.empty();
}

/// A page without the three tags that HTML leaves open.
inline std::string closed_page(std::string page) {
  for (const char* start : {"<!DOCTYPE", "<meta charset", "<meta name"}) {
    const std::size_t at = page.find(start);
    if (at != std::string::npos) page.erase(at, page.find('>', at) + 1 - at);
  }
  return page;
}

/// How often a text occurs in another.
inline int occurrences(const std::string& whole, const std::string& part) {
  int count = 0;
  for (std::size_t at = whole.find(part); at != std::string::npos; at = whole.find(part, at + 1))
    ++count;
  return count;
}
}  // namespace ovendays::test
