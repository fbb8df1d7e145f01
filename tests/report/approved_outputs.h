// SPDX-License-Identifier: MIT
// Texts whose every letter has been looked at by a person: they stand in
// tests/data/report/approved. A test compares, and the target `approve` writes them anew when a
// change is meant:
//   cmake --build BUILD --target approve && git diff tests/data/report/approved
#pragma once

#include <map>
#include <string>

namespace ovendays::test {

/// What the program says now, by the name of its approved file. The season and its weather are made
/// by hand (made_season.h), so that no change of the model moves them; where the program itself is
/// run (`rate`), figures are replaced with '#'.
/// @throws std::runtime_error where the program cannot be run
std::map<std::string, std::string> outputs_to_approve();
}  // namespace ovendays::test
