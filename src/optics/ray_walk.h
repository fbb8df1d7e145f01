// SPDX-License-Identifier: MIT
// The walk of rays through flaps, panes and cavity, shared by sunlight and infrared.
#pragma once

#include <array>
#include <cstdint>
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

struct Tally {
  std::array<double, oven::kSurfaces> absorbed_m2{};
  double outer_ir_m2 = 0.0;
  double flaps_m2 = 0.0;
  double escaped_m2 = 0.0;
};

/// How many rays start on the glass and on each flap: half on the glass, the rest by flap area.
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

/// Room for parts of a ray that wait their turn; empty between rays.
struct Scratch {
  std::vector<Ray> entering;
  std::vector<Ray> leaving;
};

/// Takes rays that are inside to their ends, out through the glazing and back where they so go.
void finish_inside(const Scene& scene,
                   const RayNumbers& numbers,
                   std::span<const Ray> rays,
                   Tally& tally,
                   Scratch& scratch);
}  // namespace ovendays::optics
