// SPDX-License-Identifier: MIT
// Infrared radiation between the inner surfaces of an oven: total exchange areas, computed by ray
// tracing with diffuse grey emission. They include all reflections; no view factors are needed.
#pragma once

#include <array>
#include <span>

#include "ovendays/oven/geometry.h"

namespace ovendays::optics {

/// Total exchange areas. The net power from i to j is sigma * between[i][j] * (T_i^4 - T_j^4) [W].
struct ExchangeAreas {
  /// Symmetric, with zeros on the diagonal.
  std::array<std::array<double, oven::kSurfaces>, oven::kSurfaces> between_m2{};
  /// From each surface through films to the surroundings; 0 with glass, which is opaque to
  /// infrared.
  std::array<double, oven::kSurfaces> outside_m2{};
  /// The largest |G_ij - G_ji| before symmetrising over the largest G: a measure of the sampling
  /// error.
  double asymmetry = 0.0;
};

/// Computes the exchange areas. Every surface emits diffusely from points that are spread evenly
/// over its exposed area. Rays are reflected by Facet::ir_reflectance, diffusely except for the
/// specular share, until they are absorbed. A film transmits its share to the next pane or outside;
/// the properties of panes do not depend on the angle. Neighbouring panes exchange radiation as
/// parallel plates, including all reflections through films. The outer face of the outermost pane
/// is not part of this; see Acceptance::outer_ir_m2.
///
/// G_ij and G_ji are two estimates of the same number; their weighted mean is used. Sampling errors
/// on the default oven with 4096 rays: couplings above 10 cm2 within 2 %, the large ones (glass,
/// tray, liner) within 0.6 %.
/// @param rays per surface
ExchangeAreas exchange_areas(const oven::OvenGeometry& geometry,
                             std::span<const oven::Pane> panes,
                             int rays = 4096);

/// The factor for the net radiation between two parallel grey plates [1]: 1 / (1/e1 + 1/e2 - 1).
double parallel_plates(double emittance_1, double emittance_2);
}  // namespace ovendays::optics
