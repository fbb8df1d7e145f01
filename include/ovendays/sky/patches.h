// SPDX-License-Identifier: MIT
// The sphere cut into patches: rings of about 5 deg in elevation, each with patches about as wide
// as high. The upper half is sky (at least 145 patches), the lower half ground.
#pragma once

#include <vector>

#include "ovendays/base/vec.h"

namespace ovendays::sky {

struct Patch {
  base::Direction direction;  ///< centre (by solid angle), world axes
  double azimuth_rad;
  double elevation_rad;
  double half_height_rad;  ///< half of the ring's height
  double half_width_rad;   ///< half of the patch's width in azimuth
  double solid_angle_sr;   ///< exact: (sin e2 - sin e1) dphi
};

/// Upper half. Sum of solid angles is 2 pi to 1e-12; sum of solid angle x sin(elevation at centre)
/// is pi within 0.1 %.
/// @param rings number of elevation rings over 90 deg
std::vector<Patch> sky_patches(int rings = 18);
/// Lower half, mirrored.
std::vector<Patch> ground_patches(int rings = 9);
/// Directions along the horizon for the Perez horizon band, evenly spaced in azimuth, elevation 0.
/// Each stands for an equal share: a plane of tilt b gets F2 DHI/2 * mean over directions of max(0,
/// cos incidence) * pi.
std::vector<base::Direction> horizon_directions(int count = 72);
}  // namespace ovendays::sky
