// SPDX-License-Identifier: MIT
// Remarks about the notches that a task cannot use because its pot would spill, slide or meet the
// glass. Private to season.
#pragma once

#include <string>
#include <vector>

#include "setup.h"

namespace ovendays::season {

/// One remark for each group of tasks with the same notches: which tasks, which notches, why, and,
/// where causes were looked for, how many days that costs and what would win them.
/// @param result days with their causes
std::vector<std::string> tilt_notes(const Setup& setup,
                                    const SeasonResult& result,
                                    bool causes_known);
}  // namespace ovendays::season
