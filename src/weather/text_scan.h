// SPDX-License-Identifier: MIT
// Reading delimited text fast: views into one buffer, no copies, no streams.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ovendays::weather {

/// Walks the lines of a text. DOS line ends and a byte-order mark are taken off.
class LineScanner {
 public:
  explicit LineScanner(std::string_view text);
  /// Moves to the next line; false at the end.
  bool next();
  [[nodiscard]] std::string_view line() const { return line_; }
  [[nodiscard]] int number() const { return number_; }  ///< 1-based

 private:
  std::string_view rest_;
  std::string_view line_;
  int number_ = 0;
};

/// Splits at commas; double quotes keep a comma inside a field and are taken off.
void split_fields(std::string_view line, std::vector<std::string_view>& fields);

std::string_view trim(std::string_view text);
/// A finite number and nothing else (blanks around it aside); nullopt otherwise.
std::optional<double> parse_number(std::string_view text);
std::optional<int> parse_integer(std::string_view text);
/// Lower case, with "_" as a blank and anything from "(" on left out: "GHI (W/m^2)" -> "ghi".
std::string column_key(std::string_view name);
bool starts_with_ignoring_case(std::string_view text, std::string_view beginning);
/// "'text'", cut at 40 characters, for messages.
std::string quoted(std::string_view text);
/// "+5" or "-9" hours, for messages.
std::string signed_text(double value);
/// "1 hour", "7 hours".
std::string hours_text(int hours);
/// "12.5" without trailing zeros, for messages.
std::string number_text(double value);
}  // namespace ovendays::weather
