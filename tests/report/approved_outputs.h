// SPDX-License-Identifier: MIT
// Approved outputs: texts in tests/data/report/approved that a person has read. A test compares the
// program's output with them; the target `approve` rewrites them after an intended change:
//   cmake --build BUILD --target approve && git diff tests/data/report/approved
#pragma once

#include <map>
#include <string>

namespace ovendays::test {

/// Current output of the program, by name of the approved file. The season and its weather are made
/// by hand (made_season.h), so that changes of the model do not affect them; where the program
/// itself is run (`rate`), numbers are replaced by '#'.
/// @throws std::runtime_error where the program cannot be run
std::map<std::string, std::string> outputs_to_approve();
}  // namespace ovendays::test
