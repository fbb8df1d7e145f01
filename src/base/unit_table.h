// SPDX-License-Identifier: MIT
// Conversion factors of units: a short table of everyday spellings, and UDUNITS-2 for all others.
// The table saves the 3 to 4 ms that UDUNITS-2 takes to load its database, which most cases do not
// need. A test checks that every row equals UDUNITS-2. Private to base.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "ovendays/base/units.h"

namespace ovendays::base {

/// SI value = scale * value + offset. Only temperatures have an offset.
struct UnitFactor {
  double scale = 1.0;
  double offset = 0.0;
};

struct KnownUnit {
  Dimension dimension;
  std::string_view spelling;
  UnitFactor factor;
};

/// All rows of the built-in table.
std::span<const KnownUnit> known_units();

/// The factor of a unit according to UDUNITS-2, after everyday spellings have been translated.
/// @return nullopt if the unit is unknown or of another dimension
/// @throws RunError if the library's unit database cannot be read
/// Thread-safe: yes; a mutex guards the library.
std::optional<UnitFactor> udunits_factor(std::string_view spelling, Dimension dimension);
}  // namespace ovendays::base
