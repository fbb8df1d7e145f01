// SPDX-License-Identifier: MIT
// Flaps and the triangles between them as facets of the mouth frame.
#pragma once

#include <vector>

#include "ovendays/oven/geometry.h"

namespace ovendays::oven {
/// Hinge left to right as seen from inside, then the outer edge; normal towards the mouth.
Facet flap_facet(const OvenDesign& design, const Flap& flap);
/// One or two triangles between each pair of flaps on neighbouring edges.
std::vector<Facet> corner_facets(const OvenDesign& design);
/// True where two panels pass through each other by more than a millimetre; touching is allowed.
bool panels_cross(const Facet& a, const Facet& b);
/// Facet from corners that run counter-clockwise seen from where the normal points.
Facet facet_from_corners(const std::vector<base::Point>& corners);
}  // namespace ovendays::oven
