// SPDX-License-Identifier: MIT
// The two ways from a unit's spelling to a factor: a short table of everyday spellings, and
// UDUNITS-2 for all others. The table exists because UDUNITS-2 takes 3 to 4 ms to load its
// database, which a plain case need not pay; a test holds every row equal to UDUNITS-2.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "ovendays/base/units.h"

namespace ovendays::base {

/// SI value = scale * value + offset. `offset` is other than 0 for temperatures only.
struct UnitFactor {
  double scale = 1.0;
  double offset = 0.0;
};

struct KnownUnit {
  Dimension dimension;
  std::string_view spelling;
  UnitFactor factor;
};

/// All rows of the table.
std::span<const KnownUnit> known_units();

/// The factor of a spelling after UDUNITS-2; nullopt where it is unknown there or of another
/// dimension. Kitchen spellings are rewritten first. Thread-safe: yes (the library's system is
/// guarded).
std::optional<UnitFactor> udunits_factor(std::string_view spelling, Dimension dimension);
}  // namespace ovendays::base
