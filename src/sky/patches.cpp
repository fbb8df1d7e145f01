// SPDX-License-Identifier: MIT
#include "ovendays/sky/patches.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::sky {
namespace {
using base::kPi;
using base::kTwoPi;

struct Ring {
  double low_rad;
  double high_rad;
  int count;
};

void add_ring(const Ring& ring, std::vector<Patch>& patches) {
  const double sin_low = std::sin(ring.low_rad);
  const double sin_high = std::sin(ring.high_rad);
  const double width_rad = kTwoPi / ring.count;
  Patch patch{};
  patch.elevation_rad = std::asin(0.5 * (sin_low + sin_high));
  patch.half_height_rad = 0.5 * (ring.high_rad - ring.low_rad);
  patch.half_width_rad = 0.5 * width_rad;
  patch.solid_angle_sr = (sin_high - sin_low) * width_rad;
  const double cosine = std::cos(patch.elevation_rad);
  const double sine = std::sin(patch.elevation_rad);
  for (int k = 0; k < ring.count; ++k) {
    patch.azimuth_rad = (k + 0.5) * width_rad;
    patch.direction = {
        cosine * std::sin(patch.azimuth_rad), cosine * std::cos(patch.azimuth_rad), sine};
    patches.push_back(patch);
  }
}
}  // namespace

std::vector<Patch> sky_patches(int rings) {
  OVENDAYS_CHECK(rings >= 1);
  const double height_rad = 0.5 * kPi / rings;
  std::vector<Patch> patches;
  for (int i = 0; i < rings; ++i) {
    const double low_rad = i * height_rad;
    const double around = kTwoPi * std::cos(low_rad + 0.5 * height_rad) / height_rad;
    const int turns = std::max(1, static_cast<int>(std::lround(around / kPatchTurns)));
    add_ring({low_rad, low_rad + height_rad, kPatchTurns * turns}, patches);
  }
  return patches;
}

std::vector<Patch> ground_patches(int rings) {
  std::vector<Patch> patches = sky_patches(rings);
  for (Patch& patch : patches) {
    patch.elevation_rad = -patch.elevation_rad;
    patch.direction.z = -patch.direction.z;
  }
  return patches;
}

std::vector<std::size_t> turned_patches(const std::vector<Patch>& patches, int turns) {
  std::vector<std::size_t> places(patches.size());
  std::size_t first = 0;
  while (first < patches.size()) {
    const auto count = static_cast<std::size_t>(std::lround(kPi / patches[first].half_width_rad));
    const std::size_t shift = static_cast<std::size_t>(turns) * (count / kPatchTurns);
    for (std::size_t k = 0; k < count; ++k) places[first + k] = first + (k + count - shift) % count;
    first += count;
  }
  return places;
}

std::vector<base::Direction> horizon_directions(int count) {
  OVENDAYS_CHECK(count >= 4);
  std::vector<base::Direction> directions;
  directions.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    directions.push_back(base::direction_from_sky((i + 0.5) * kTwoPi / count, 0.0));
  }
  return directions;
}
}  // namespace ovendays::sky
