// SPDX-License-Identifier: MIT
// Infrared between the inner surfaces: total exchange areas by the same tracer, diffuse grey
// emission, reflections included, so that view factors are not guessed.
#pragma once

#include <array>
#include <span>

#include "ovendays/oven/geometry.h"

namespace ovendays::optics {

/// Net power from i to j is sigma * between[i][j] * (T_i^4 - T_j^4) [W].
struct ExchangeAreas {
  std::array<std::array<double, oven::kSurfaces>, oven::kSurfaces>
      between_m2{};  ///< symmetric, diagonal 0
  std::array<double, oven::kSurfaces>
      outside_m2{};  ///< through films to the surroundings; 0 with glass
  double asymmetry =
      0.0;  ///< largest |G_ij - G_ji| before symmetrising, over the largest G: the sampling error
};

/// Every surface emits diffusely from points spread evenly over what is exposed of it; rays are
/// reflected (Facet::ir_reflectance; diffusely but for specular_share) to their end.
/// A film lets its share through to the next pane or outside; panes treat all angles alike.
/// Neighbouring panes exchange as parallel plates, all inter-reflections through films included.
/// The outermost pane's outer face is not part of this: Acceptance::outer_ir_m2 and the heat part
/// see to it.
/// G_ij and G_ji are two samples of one number and enter by a mean that favours the smaller
/// emitter. Measured on the default oven with 4096 rays: couplings above 10 cm2 within 2 %, the
/// large ones (glass, tray, liner) within 0.6 %.
/// @param rays per surface
ExchangeAreas exchange_areas(const oven::OvenGeometry& geometry,
                             std::span<const oven::Pane> panes,
                             int rays = 4096);

/// Net radiation conductance factor of two parallel grey plates: 1 / (1/e1 + 1/e2 - 1).
double parallel_plates(double emittance_1, double emittance_2);
}  // namespace ovendays::optics
