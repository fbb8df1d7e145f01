// SPDX-License-Identifier: MIT
// The opaque rim that narrows the glazing on each side.
#include "catch.h"
#include "ovendays/oven/design.h"
#include "ovendays/oven/geometry.h"

namespace oven = ovendays::oven;
using ovendays::test::within_abs;

TEST_CASE("a frame narrows the glass on both sides of width and length", "[oven][unit]") {
  oven::OvenDesign design = oven::default_design();
  design.flaps.clear();
  design.box.inner_width_m = 0.50;
  design.box.inner_depth_m = 0.40;
  design.box.frame_m = 0.03;
  // 0.50 and 0.40 m less 3 cm at either end; rounding only.
  CHECK_THAT(design.glass_width_m(), within_abs(0.44, 1e-12));
  CHECK_THAT(design.glass_length_m(), within_abs(0.34, 1e-12));
  const oven::OvenGeometry geometry = oven::build_geometry(design, nullptr, false);
  CHECK_THAT(geometry.glass_half_width_m, within_abs(0.22, 1e-12));
  CHECK_THAT(geometry.glass_half_length_m, within_abs(0.17, 1e-12));
}
