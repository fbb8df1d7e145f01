// SPDX-License-Identifier: MIT
// Tracing of one bundle, and the look-up in an acceptance table.
#include "ovendays/optics/acceptance.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/check.h"
#include "ray_bundle.h"

namespace ovendays::optics {

double Acceptance::inside_m2() const {
  return absorbed_m2[oven::kLiner] + absorbed_m2[oven::kTray] + absorbed_m2[oven::kVessel] +
         absorbed_m2[oven::kVesselTop];
}

Tracer::Tracer(const oven::OvenGeometry& geometry, std::span<const oven::Pane> panes)
    : scene_(std::make_shared<const Scene>(
          geometry, panes, std::make_shared<const StackTable>(panes))) {}

const oven::OvenGeometry& Tracer::geometry() const { return scene_->geometry(); }

BundleTally Tracer::trace(const base::Direction& towards, int rays, double faint) const {
  const RayNumbers numbers(start_runs(*scene_, rays), RayNumbers::Purpose::kSunlight);
  Tally tally;
  std::vector<Ray> entering;
  BundleTally out;
  out.launched_m2 = launch(*scene_, numbers, {towards, faint, true}, tally, entering);
  finish_inside(std::span(&scene_, 1), numbers, entering, std::span(&tally, 1));
  out.acceptance = tally.acceptance();
  out.flaps_m2 = tally.m2[kFlaps];
  out.escaped_m2 = tally.m2[kEscaped];
  return out;
}

// The inverse of the projection that AcceptanceTable describes: with r2 = u^2 + v^2 = 1 - z follows
// sqrt(1 + z) = sqrt(2 - r2).
base::Direction AcceptanceTable::node_direction(int row, int column, int grid) {
  const double u = -1.0 + 2.0 * column / (grid - 1);
  const double v = -1.0 + 2.0 * row / (grid - 1);
  const double r2 = u * u + v * v;
  const double stretch = std::sqrt(std::max(0.0, 2.0 - r2));
  return {u * stretch, v * stretch, 1.0 - r2};
}

Acceptance AcceptanceTable::at(const base::Direction& towards) const {
  if (towards.z <= 0.0 || nodes_.empty()) return {};
  return in(cell_of(towards));
}
}  // namespace ovendays::optics
