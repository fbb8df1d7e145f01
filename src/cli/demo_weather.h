// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

#include "ovendays/weather/weather_make.h"

namespace ovendays::cli {
/// Seed with which the demo's year is drawn.
inline constexpr std::uint64_t kDemoSeed = 1;
/// Monthly normals of an invented place in a high desert: those of weather/high_desert.toml, kept
/// in the program so that the demo needs no file. A test holds the two together.
weather::MonthlyNormals demo_normals();
}  // namespace ovendays::cli
