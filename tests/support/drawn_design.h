// SPDX-License-Identifier: MIT
// The default oven, clean and with straight flaps: the one that a single trace of rays follows.
#pragma once

#include "ovendays/oven/design.h"

namespace ovendays::test {
inline oven::OvenDesign drawn_design() {
  oven::OvenDesign design = oven::default_design();
  design.as_built = oven::kAsDrawn;
  return design;
}
}  // namespace ovendays::test
