// SPDX-License-Identifier: MIT
// Angles of tests are written in degrees: 30 * kDeg.
#pragma once

#include "ovendays/base/constants.h"

namespace ovendays::test {
inline constexpr double kDeg = base::kRadPerDeg;
}  // namespace ovendays::test
