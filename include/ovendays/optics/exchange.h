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

/// @param rays per surface. Also holds the exchange between neighbouring panes (parallel plates,
/// closed form).
ExchangeAreas exchange_areas(const oven::OvenGeometry& geometry,
                             std::span<const oven::Pane> panes,
                             int rays = 8192);

/// Net radiation conductance factor of two parallel grey plates: 1 / (1/e1 + 1/e2 - 1).
double parallel_plates(double emittance_1, double emittance_2);
}  // namespace ovendays::optics
