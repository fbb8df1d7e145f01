// SPDX-License-Identifier: MIT
// The two kinds of failure. InputError: what the user supplied is wrong (exit code 2). RunError:
// the input was sound but the run failed (exit code 1). Only readers throw InputError, and only
// `cli` prints either of them.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace ovendays::base {

/// Makes text safe to print: replaces control characters and bytes that are not valid UTF-8 by '?'.
/// Without this, the content of a file could break a message into lines or steer the terminal.
/// @param keep one control character to let through, such as '\n'; 0 for none
std::string printable(std::string_view text, char keep = '\0');

/// One thing that is wrong in an input file.
struct Fault {
  std::string file;
  int line = 0;         ///< 1-based; 0 where the fault belongs to no line
  std::string field;    ///< full key, e.g. "oven.flap.flare_angle"; empty where there is none
  std::string got;      ///< what was found, with its unit
  std::string allowed;  ///< what would be accepted; empty where `got` is explanation enough

  /// The fault as "file:line: field: got, allowed ...". Empty parts are left out, and the result is
  /// always a single line of printable text.
  [[nodiscard]] std::string message() const;
};

/// Thrown by readers. It carries all the faults that were found, in the order of the file, so that
/// a user can correct them in one pass. what() holds all messages, one per line.
class InputError : public std::runtime_error {
 public:
  explicit InputError(Fault fault);
  explicit InputError(std::vector<Fault> faults);
  [[nodiscard]] const std::vector<Fault>& faults() const { return faults_; }

 private:
  std::vector<Fault> faults_;
};

/// Thrown when the input was sound but the run failed, for example because a solver did not
/// converge or a file could not be written.
class RunError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace ovendays::base
