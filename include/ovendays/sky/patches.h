// SPDX-License-Identifier: MIT
// The sphere cut into patches: rings of equal height in elevation, each cut into patches about as
// wide as high. The upper half is sky (145 patches or more from 8 rings on), the lower half ground.
// World axes x east, y north, z up; azimuth clockwise from north. Thread-safe: no state is kept.
#pragma once

#include <cstddef>
#include <vector>

#include "ovendays/base/vec.h"

namespace ovendays::sky {

struct Patch {
  base::Direction direction;  ///< centre (halves the solid angle both ways), world axes
  double azimuth_rad;         ///< of the centre, 0..2 pi
  double elevation_rad;       ///< of the centre, negative below the horizon
  double half_height_rad;     ///< half of the ring's height
  double half_width_rad;      ///< half of the patch's width in azimuth
  double solid_angle_sr;      ///< exact: (sin e2 - sin e1) dphi
};

/// Turned by a whole number of these parts of a circle about the zenith, the patches are themselves
/// again.
inline constexpr int kPatchTurns = 36;

/// Upper half, ring by ring from the horizon up, each ring clockwise from north. The number in a
/// ring is a multiple of kPatchTurns, so that the set is symmetric about north-south and east-west
/// too; the highest rings are narrower than high for it.
/// Sum of solid angles is 2 pi; sum of solid angle x sin(elevation of the centre) is pi; both to
/// rounding (since the centre's sine is the mean of the ring's edges).
/// @param rings number of elevation rings over 90 deg, >= 1 (18: 5 deg each, 936 patches)
std::vector<Patch> sky_patches(int rings = 18);

/// Lower half, the mirror image of sky_patches(rings).
std::vector<Patch> ground_patches(int rings = 9);

/// For each patch the one that lies where it comes to lie when turned back, counter-clockwise, by
/// `turns` parts of kPatchTurns. @param turns 0..kPatchTurns - 1
std::vector<std::size_t> turned_patches(const std::vector<Patch>& patches, int turns);

/// Directions along the horizon for the Perez horizon band, evenly spaced in azimuth, elevation 0.
/// Each stands for an equal share: it lights a plane normal to it with pi PerezParts::horizon_Wm2 /
/// count. A plane of tilt b then gets pi horizon_Wm2 x (mean of max(0, cos incidence)), which tends
/// to horizon_Wm2 sin b, the closed form. A horizontal plane gets nothing.
/// @param count >= 4
std::vector<base::Direction> horizon_directions(int count = 72);
}  // namespace ovendays::sky
