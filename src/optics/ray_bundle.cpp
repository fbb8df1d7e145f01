// SPDX-License-Identifier: MIT
// Starts bundles of parallel light on the glass and on the flaps.
#include "ray_bundle.h"

#include <algorithm>
#include <cmath>

#include "one_ray.h"
#include "ovendays/base/target_clones.h"

namespace ovendays::optics {
namespace {
constexpr int kFewestRays = 8;
}  // namespace

std::vector<int> start_runs(const Scene& scene, int rays) {
  double flaps_m2 = 0.0;
  for (const Panel& flap : scene.flaps()) flaps_m2 += flap.area_m2;
  std::vector<int> runs{flaps_m2 > 0.0 ? std::max(kFewestRays, rays / 4) : rays};
  for (const Panel& flap : scene.flaps()) {
    const double share = 0.75 * flap.area_m2 / flaps_m2;
    runs.push_back(std::max(kFewestRays, static_cast<int>(std::lround(share * rays))));
  }
  return runs;
}

OVENDAYS_CLONES double launch(const Scene& scene,
                              const RayNumbers& numbers,
                              const Bundle& bundle,
                              Tally& tally,
                              std::vector<Ray>& entering) {
  RayWalk walk(scene, numbers, tally);
  const oven::OvenGeometry& geometry = scene.geometry();
  double launched_m2 = 0.0;
  for (std::size_t run = 0; run <= scene.flaps().size(); ++run) {
    const int flap = static_cast<int>(run) - 1;
    const Panel* panel = flap < 0 ? nullptr : &scene.flaps()[run - 1];
    const Direction normal = panel != nullptr ? panel->plane.normal : Direction{0, 0, 1};
    const double cosine = base::dot(bundle.towards, normal);
    if (cosine == 0.0 || (cosine < 0.0 && (panel == nullptr || !bundle.backs))) continue;
    const double area_m2 = panel != nullptr ? panel->area_m2 : scene.glass_area_m2();
    const int count = numbers.run_size(run);
    const double weight_m2 = area_m2 * std::abs(cosine) / count;
    int started = 0;
    for (int i = 0; i < count; ++i) {
      Ray ray;
      ray.id = static_cast<std::uint32_t>(numbers.run_begin(run) + i);
      const RayNumbers::Pair& start = numbers.start(ray.id);
      ray.at = panel != nullptr ? panel->point(start.u, start.v)
                                : Point{(2.0 * start.u - 1.0) * geometry.glass_half_width_m,
                                        (2.0 * start.v - 1.0) * geometry.glass_half_length_m,
                                        0.0};
      // The light that another flap intercepts is represented by the rays that start on that flap.
      double shade_m = std::numeric_limits<double>::infinity();
      if (scene.hit_flap(ray.at, bundle.towards, flap, shade_m) >= 0) continue;
      ++started;
      ray.heading = -bundle.towards;
      ray.weight_m2 = weight_m2;
      ray.faint_m2 = bundle.faint * weight_m2;
      ray.ir_m2 = weight_m2;
      const bool on = panel != nullptr ? walk.meet_flap(ray, flap) : walk.meet_glass(ray, entering);
      if (on) walk.outside(ray, entering);
    }
    launched_m2 += started * weight_m2;
  }
  return launched_m2;
}
}  // namespace ovendays::optics
