// SPDX-License-Identifier: MIT
// The kinds of failure: InputError (what the user gave is wrong; exit code 2) and RunError (the run
// itself failed; exit code 1). Only readers throw InputError. Nobody but cli prints either.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace ovendays::base {

/// The text as it may go to a terminal or into a message: control characters and bytes that are not
/// UTF-8 become '?', so that a file's content can neither end a line nor steer a terminal.
/// @param keep a control character that stays, such as a line end; 0 for none
std::string printable(std::string_view text, char keep = '\0');

/// One thing that is wrong in an input file. `line` is 1-based, 0 where no line applies.
struct Fault {
  std::string file;
  int line = 0;
  std::string field;    ///< full key, e.g. "oven.flap.flare_angle"; empty where none applies
  std::string got;      ///< what was found, with its unit
  std::string allowed;  ///< what is allowed; empty where `got` says it all

  /// "file:line: field: got, allowed ..." with absent parts left out; always one line,
  /// see printable().
  [[nodiscard]] std::string message() const;
};

/// Thrown by readers. Carries every fault found in one go, in file order.
/// what() is all messages, one a line.
class InputError : public std::runtime_error {
 public:
  explicit InputError(Fault fault);
  explicit InputError(std::vector<Fault> faults);
  [[nodiscard]] const std::vector<Fault>& faults() const { return faults_; }

 private:
  std::vector<Fault> faults_;
};

/// The run failed though the input was sound: a solver gave up, a file could not be written.
class RunError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace ovendays::base
