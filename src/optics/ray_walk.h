// SPDX-License-Identifier: MIT
// The walk of rays through flaps, panes and cavity, shared by sunlight and infrared.
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

/// A ray on its way. Weights are powers over irradiance [m2].
struct Ray {
  Point at;
  Direction heading;
  double weight_m2 = 0.0;
  double faint_m2 = 0.0;  ///< weight below which it is no longer split
  double ir_m2 = 0.0;     ///< weight of the same path for infrared; outside only
  std::uint32_t id = 0;   ///< of its numbers
  std::uint16_t flap_bounces = 0;
  std::uint16_t bounces = 0;  ///< inside
  std::uint16_t fates = 0;    ///< all-or-nothing decisions taken
  int flap = -1;              ///< the flap it leaves
};

/// Where light ends: on a surface (by its number), or at one of these places.
enum Place : std::size_t { kOuterIr = oven::kSurfaces, kFlaps, kEscaped, kPlaces };

/// How much ends where.
struct Tally {
  std::array<double, kPlaces> m2{};
  [[nodiscard]] Acceptance acceptance() const {
    Acceptance told;
    std::copy_n(m2.begin(), told.absorbed_m2.size(), told.absorbed_m2.begin());
    told.outer_ir_m2 = m2[kOuterIr];
    return told;
  }
};

/// How many rays start on the glass and on each flap: a quarter on the glass, the rest in
/// proportion to the flaps' areas, but at least eight on each; without flaps all on
/// the glass.
std::vector<int> start_runs(const Scene& scene, int rays);

/// Starts a bundle from `towards` and takes it as far as the cavity: what enters is appended to
/// `entering`. @param backs also trace what falls on the flaps' backs (it heats nothing)
/// @return cross-section launched [m2]
struct Bundle {
  Direction towards;
  double faint = 0.02;
  bool backs = true;
};
double launch(const Scene& scene,
              const RayNumbers& numbers,
              const Bundle& bundle,
              Tally& tally,
              std::vector<Ray>& entering);

/// Takes rays that are inside to their ends, out through the glazing and back where they so go, in
/// an oven under each of its loads. The first load leads: under another that only holds more, what
/// a ray leaves is taken over where it never met the surplus; else the ray is followed there too.
/// @param tallies by load; added to
void finish_inside(std::span<const std::shared_ptr<const Scene>> loads,
                   const RayNumbers& numbers,
                   std::span<const Ray> rays,
                   std::span<Tally> tallies);
}  // namespace ovendays::optics
