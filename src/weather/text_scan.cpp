// SPDX-License-Identifier: MIT
#include "text_scan.h"

#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstring>

namespace ovendays::weather {
namespace {
constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
char lower(char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); }
}  // namespace

LineScanner::LineScanner(std::string_view text) : rest_(text) {
  if (rest_.substr(0, kByteOrderMark.size()) == kByteOrderMark) {
    rest_.remove_prefix(kByteOrderMark.size());
  }
}

bool LineScanner::next() {
  if (rest_.empty()) return false;
  const std::size_t end = rest_.find('\n');
  line_ = rest_.substr(0, end);
  rest_.remove_prefix(end == std::string_view::npos ? rest_.size() : end + 1);
  while (!line_.empty() && line_.back() == '\r') line_.remove_suffix(1);
  ++number_;
  return true;
}

// Unquoted fields are scanned character by character, because they have two or three characters and
// a call of memchr() costs more than it saves.
void split_fields(std::string_view line, std::vector<std::string_view>& fields) {
  fields.clear();
  const char* at = line.data();
  const char* const end = at + line.size();
  while (true) {
    const char* start = at;
    if (at != end && *at == '"') {
      ++start;
      const void* quote = std::memchr(start, '"', static_cast<std::size_t>(end - start));
      const char* close = quote == nullptr ? end : static_cast<const char*>(quote);
      fields.emplace_back(start, static_cast<std::size_t>(close - start));
      const void* comma = std::memchr(close, ',', static_cast<std::size_t>(end - close));
      if (comma == nullptr) return;
      at = static_cast<const char*>(comma) + 1;
      continue;
    }
    while (at != end && *at != ',') ++at;
    fields.emplace_back(start, static_cast<std::size_t>(at - start));
    if (at == end) return;
    ++at;
  }
}

std::string_view trim(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

std::optional<double> parse_number(std::string_view text) {
  text = trim(text);
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) {
    return std::nullopt;
  }
  return value;
}

std::optional<int> parse_integer(std::string_view text) {
  text = trim(text);
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error == std::errc{} && end == text.data() + text.size()) return value;
  // Spreadsheets write 1 as "1.0".
  const std::optional<double> number = parse_number(text);
  if (!number || *number != std::floor(*number) || std::fabs(*number) > 1e8) return std::nullopt;
  return static_cast<int>(*number);
}

// Units in brackets are dropped because they differ between editions of a format.
std::string column_key(std::string_view name) {
  std::string key;
  for (const char c : trim(name.substr(0, name.find('(')))) key += c == '_' ? ' ' : lower(c);
  return key;
}

bool starts_with_ignoring_case(std::string_view text, std::string_view beginning) {
  if (text.size() < beginning.size()) return false;
  for (std::size_t i = 0; i < beginning.size(); ++i) {
    if (lower(text[i]) != lower(beginning[i])) return false;
  }
  return true;
}

std::string quoted(std::string_view text) {
  std::string out(1, '\'');
  out += trim(text).substr(0, 40);
  out += '\'';
  return out;
}

std::string signed_text(double value) {
  std::string out(value < 0.0 ? "" : "+");
  out += number_text(value);
  return out;
}

std::string hours_text(int hours) {
  return std::to_string(hours) + (hours == 1 ? " hour" : " hours");
}

std::string number_text(double value) {
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%.7g", value);
  return text.data();
}
}  // namespace ovendays::weather
