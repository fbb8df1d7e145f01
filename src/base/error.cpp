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
}  // namespace

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
  return text;
}

InputError::InputError(Fault fault) : InputError(std::vector<Fault>{std::move(fault)}) {}
InputError::InputError(std::vector<Fault> faults)
    : std::runtime_error(join(faults)), faults_(std::move(faults)) {}

}  // namespace ovendays::base
