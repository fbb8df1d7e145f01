// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

#include "ovendays/weather/weather_make.h"

namespace ovendays::cli {
/// Seed of the demo's weather year.
inline constexpr std::uint64_t kDemoSeed = 1;
/// Monthly normals of an invented place in a high desert. They repeat weather/high_desert.toml, so
/// that the demo needs no file; a test checks that the two agree.
weather::MonthlyNormals demo_normals();
}  // namespace ovendays::cli
