// SPDX-License-Identifier: MIT
// Constants and words shared by the writer and the reader of studies.
#pragma once

#include <cstdint>

#include "h5.h"

namespace ovendays::results {
/// Stands for the outcome in alternatives that have not been run; follows those of season::Outcome.
inline constexpr std::uint8_t kNotRun = 4;
/// Kind of file that the seal names.
inline constexpr const char* kStudySeal = "study";
/// Words of season::Outcome and season::Cause.
h5::Flags outcome_words();
h5::Flags cause_words();
}  // namespace ovendays::results
