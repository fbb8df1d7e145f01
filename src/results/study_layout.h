// SPDX-License-Identifier: MIT
// What writing and reading a study have in common.
#pragma once

#include <cstdint>

#include "h5.h"

namespace ovendays::results {
/// The outcome of an alternative that has not been run, after those of season::Outcome.
inline constexpr std::uint8_t kNotRun = 4;
/// The kind of file, in its seal.
inline constexpr const char* kStudySeal = "study";
/// Words of season::Outcome and season::Cause.
h5::Flags outcome_words();
h5::Flags cause_words();
}  // namespace ovendays::results
