// SPDX-License-Identifier: MIT
#include "ovendays/base/error.h"

#include <utility>

namespace ovendays::base {
namespace {
std::string join(const std::vector<Fault>& faults) {
  std::string text;
  for (const Fault& fault : faults) {
    if (!text.empty()) text += '\n';
    text += fault.message();
  }
  return text;
}

// Length [bytes] of the well-formed UTF-8 character at the front of `text` (Unicode 15, table 3-7);
// 0 if there is none or if it is a control character. The controls U+0080 to U+009F are included,
// because some terminals obey them.
std::size_t character_length(std::string_view text) {
  const auto byte = [&text](std::size_t i) {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
  };
  const unsigned first = byte(0);
  if (first < 0x80) return first >= 0x20 && first != 0x7F ? 1 : 0;
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80) return 0;
  }
  const unsigned second = byte(1);
  const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool beyond = (first == 0xED && second > 0x9F) || (first == 0xF4 && second > 0x8F);
  return overlong || beyond || (first == 0xC2 && second < 0xA0) ? 0 : length;
}
}  // namespace

std::string printable(std::string_view text, char keep) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const bool kept = keep != '\0' && text.front() == keep;
    const std::size_t length = kept ? 1 : character_length(text);
    if (length == 0) {
      out += '?';
    } else {
      out += text.substr(0, length);
    }
    text.remove_prefix(length == 0 ? 1 : length);
  }
  return out;
}

std::string Fault::message() const {
  std::string text = file;
  if (line > 0) text += (text.empty() ? "line " : ":") + std::to_string(line);
  const auto add = [&text](const std::string& part, const char* separator) {
    if (part.empty()) return;
    if (!text.empty()) text += separator;
    text += part;
  };
  add(field, ": ");
  add(got, ": ");
  add(allowed.empty() ? "" : "allowed " + allowed, ", ");
  return printable(text);
}

InputError::InputError(Fault fault) : InputError(std::vector<Fault>{std::move(fault)}) {}
InputError::InputError(std::vector<Fault> faults)
    : std::runtime_error(join(faults)), faults_(std::move(faults)) {}

}  // namespace ovendays::base
