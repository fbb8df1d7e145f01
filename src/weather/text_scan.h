// SPDX-License-Identifier: MIT
// Fast scanning of delimited text. All functions return views into one buffer and copy nothing.
// Private to weather.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ovendays::weather {

/// Iterates over the lines of a text. DOS line ends and a byte-order mark are removed.
class LineScanner {
 public:
  explicit LineScanner(std::string_view text);
  /// Advances to the next line. Returns false at the end of the text.
  bool next();
  [[nodiscard]] std::string_view line() const { return line_; }
  [[nodiscard]] int number() const { return number_; }  ///< 1-based

 private:
  std::string_view rest_;
  std::string_view line_;
  int number_ = 0;
};

/// Splits a line at commas. Double quotes protect commas within a field and are removed.
void split_fields(std::string_view line, std::vector<std::string_view>& fields);

/// Removes blanks and tabs from both ends.
std::string_view trim(std::string_view text);
/// A finite number, with nothing but blanks around it; nullopt otherwise.
std::optional<double> parse_number(std::string_view text);
/// A whole number, which may be written as "1.0"; nullopt otherwise.
std::optional<int> parse_integer(std::string_view text);
/// A column name in lower case, with blanks for "_" and without a unit in brackets: "GHI (W/m^2)"
/// becomes "ghi".
std::string column_key(std::string_view name);
bool starts_with_ignoring_case(std::string_view text, std::string_view beginning);
/// The text in single quotes, cut at 40 characters, for messages.
std::string quoted(std::string_view text);
/// A number with its sign, for messages: "+5", "-9".
std::string signed_text(double value);
/// A number of hours for messages: "1 hour", "7 hours".
std::string hours_text(int hours);
/// A number without trailing zeros, for messages: "12.5".
std::string number_text(double value);
}  // namespace ovendays::weather
