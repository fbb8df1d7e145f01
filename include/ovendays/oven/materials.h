// SPDX-License-Identifier: MIT
// The table of materials, each row with its source.
#pragma once

#include <optional>
#include <span>
#include <string>

#include "ovendays/oven/design.h"

namespace ovendays::oven {
/// All rows, by name.
std::span<const Material> materials();
/// nullopt where the name is unknown.
std::optional<Material> find_material(const std::string& name);
}  // namespace ovendays::oven
