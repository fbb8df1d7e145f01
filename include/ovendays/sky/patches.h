// SPDX-License-Identifier: MIT
// Discretisation of the sphere of directions: rings of equal height in elevation, each divided into
// patches that are about as wide as high. The upper hemisphere is sky (145 patches or more for 8
// rings or more), the lower one is ground. World axes are x east, y north, z up; azimuths run
// clockwise from north. All functions are pure and thread-safe.
#pragma once

#include <cstddef>
#include <vector>

#include "ovendays/base/vec.h"

namespace ovendays::sky {

/// One patch of the sphere, bounded by two elevations and two azimuths.
struct Patch {
  base::Direction direction;  ///< centre, which halves the solid angle both ways; world axes
  double azimuth_rad;         ///< of the centre, 0..2 pi
  double elevation_rad;       ///< of the centre, negative below the horizon
  double half_height_rad;     ///< half of the height of the ring
  double half_width_rad;      ///< half of the width in azimuth
  double solid_angle_sr;      ///< exact, (sin e2 - sin e1) dphi
};

/// The set of patches has this rotational symmetry about the zenith: a rotation by a multiple of
/// 2 pi / kPatchTurns only permutes the patches.
inline constexpr int kPatchTurns = 36;

/// The patches of the upper hemisphere, ring by ring from the horizon up, each ring clockwise from
/// north. The number in a ring is a multiple of kPatchTurns, which also makes the set symmetric
/// about north-south and east-west; the patches of the highest rings are therefore narrower than
/// high. The solid angles sum to 2 pi, and solid angle times sin(elevation of the centre) sums to
/// pi, both to rounding, because the sine of a centre is the mean of the sines of its ring's edges.
/// @param rings number of elevation rings over 90 deg, >= 1 (18 gives 5 deg each and 936 patches)
std::vector<Patch> sky_patches(int rings = 18);

/// The patches of the lower hemisphere: the mirror image of sky_patches(rings).
/// @param rings >= 1
std::vector<Patch> ground_patches(int rings = 9);

/// For each patch, the index of the patch onto which a counter-clockwise rotation by
/// `turns` * 2 pi / kPatchTurns maps it.
/// @param patches as sky_patches() or ground_patches() returned them
/// @param turns 0..kPatchTurns - 1
std::vector<std::size_t> turned_patches(const std::vector<Patch>& patches, int turns);

/// Directions along the horizon (elevation 0, evenly spaced in azimuth) that represent the horizon
/// band of the Perez model. All have an equal share: each lights a plane normal to it with
/// pi PerezParts::horizon_Wm2 / count. A plane of tilt b then receives pi horizon_Wm2 times the
/// mean of max(0, cos incidence), which converges to the model's closed form, horizon_Wm2 sin b. A
/// horizontal plane receives nothing.
/// @param count >= 4, checked
std::vector<base::Direction> horizon_directions(int count = 72);
}  // namespace ovendays::sky
