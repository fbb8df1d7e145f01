// SPDX-License-Identifier: MIT
// Builds a page piece by piece; texts are escaped, raw() is not.
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
  /// A term and what it means, between open_terms() and close_terms().
  void open_terms() { raw("<dl>"); }
  void pair(const std::string& term, const std::string& text);
  void close_terms() { raw("</dl>"); }
  /// A picture with its heading above and a word below it.
  void figure(const std::string& heading, const Drawing& drawing, const std::string& note);
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  std::string out_;
};

/// What a page is made from.
struct PageText {
  std::string title;
  std::string body;
  std::string more_style;  ///< rules of this page alone
};
/// A whole page: head, style, nothing from outside.
std::string whole_page(const PageText& text);
}  // namespace ovendays::report
