// SPDX-License-Identifier: MIT
// Bundles of parallel sunlight: where their rays start, what reaches the cavity, and how the rays
// inside are traced to their ends. One ray's path is in one_ray.h.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "ovendays/optics/acceptance.h"
#include "ray_numbers.h"
#include "scene.h"

namespace ovendays::optics {

/// A ray, or the part of one that is left after reflections. Weights are power over irradiance
/// [m2].
struct Ray {
  Point at;
  Direction heading;
  double weight_m2 = 0.0;
  double faint_m2 = 0.0;           ///< weight below which Russian roulette decides, see Tracer
  double ir_m2 = 0.0;              ///< weight of the same path for infrared, outside the glazing
  std::uint32_t id = 0;            ///< selects its numbers in RayNumbers
  std::uint16_t flap_bounces = 0;  ///< reflections by flaps
  std::uint16_t bounces = 0;       ///< reflections in the cavity
  std::uint16_t roulettes = 0;     ///< games of Russian roulette so far
  int flap = -1;                   ///< the flap that it has just left, or -1
};

/// Places where light can end in addition to the surfaces of the oven, which have their own
/// numbers. kOuterIr is the infrared that the outermost pane absorbs.
enum Place : std::size_t { kOuterIr = oven::kSurfaces, kFlaps, kEscaped, kPlaces };

/// The power over irradiance [m2] that has ended at each place.
struct Tally {
  std::array<double, kPlaces> m2{};
  [[nodiscard]] Acceptance acceptance() const {
    Acceptance out;
    std::copy_n(m2.begin(), out.absorbed_m2.size(), out.absorbed_m2.begin());
    out.outer_ir_m2 = m2[kOuterIr];
    return out;
  }
};

/// The number of rays that start on the glass and on each flap: a quarter on the glass and the rest
/// on the flaps in proportion to their areas, with at least eight on each. Without flaps all of
/// them start on the glass.
std::vector<int> start_runs(const Scene& scene, int rays);

/// Parallel light.
struct Bundle {
  Direction towards;    ///< from the oven to the source
  double faint = 0.02;  ///< see OpticsOptions
  bool backs = true;    ///< also trace light that falls on the backs of flaps, which heats nothing
};
/// Starts the rays of a bundle and traces them until they enter the cavity, are absorbed or escape.
/// @param entering rays that enter the cavity are appended
/// @return cross-section of the bundle that was launched [m2]
double launch(const Scene& scene,
              const RayNumbers& numbers,
              const Bundle& bundle,
              Tally& tally,
              std::vector<Ray>& entering);

/// Traces rays in the cavity to their ends, including the parts that leave through the glazing and
/// come back, for an oven with each of its loads. Rays are traced for the first load; for another
/// load that contains everything of the first one and more, the results of a ray that meets nothing
/// of the surplus are copied.
/// @param tallies one per load, to which the results are added
void finish_inside(std::span<const std::shared_ptr<const Scene>> loads,
                   const RayNumbers& numbers,
                   std::span<const Ray> rays,
                   std::span<Tally> tallies);
}  // namespace ovendays::optics
