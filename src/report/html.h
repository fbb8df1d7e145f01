// SPDX-License-Identifier: MIT
// Builds an HTML page piece by piece. Texts are escaped, except those of raw().
#pragma once

#include <string>
#include <vector>

#include "drawing.h"

namespace ovendays::report {

class Html {
 public:
  void raw(const std::string& text) { out_ += text + "\n"; }
  /// @param tag with its attributes: "p class=\"soft\""
  void element(const std::string& tag, const std::string& text);
  void list(const std::vector<std::string>& texts);
  /// A term and its description, between open_terms() and close_terms().
  void open_terms() { raw("<dl>"); }
  void pair(const std::string& term, const std::string& text);
  void close_terms() { raw("</dl>"); }
  /// A picture with a heading above it and a note below it.
  void figure(const std::string& heading, const Drawing& drawing, const std::string& note);
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  std::string out_;
};

/// Parts of a page.
struct PageText {
  std::string title;
  std::string body;
  std::string more_style;  ///< CSS that only this page needs
};
/// A complete page with head and style that loads nothing else.
std::string whole_page(const PageText& text);
}  // namespace ovendays::report
