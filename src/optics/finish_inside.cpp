// SPDX-License-Identifier: MIT
// Traces rays that have entered the cavity to their ends, for all loads of an oven.
//
// Many rays never hit the load, such as a pot in the middle of the box. Rays are therefore traced
// in the first oven, usually the empty one, which also keeps a record of what they deposit. For
// another load the record is copied if the ray hit nothing of that load; otherwise the ray is
// traced again. The results have the same bits as if every ray had been traced for every load.
#include <algorithm>

#include "one_ray.h"
#include "ovendays/base/target_clones.h"

namespace ovendays::optics {
namespace {
/// Parts of a ray that still have to be traced. Empty between rays.
struct Scratch {
  std::vector<Ray> entering;
  std::vector<Ray> leaving;
};

/// A ray that meets the glazing is split. The parts that leave are traced outside, where flaps may
/// send them in again, and so on until no part is left.
void finish_ray(RayWalk& walk, const Ray& ray, Scratch& scratch) {
  scratch.entering.push_back(ray);
  while (!scratch.entering.empty()) {
    const Ray next = scratch.entering.back();
    scratch.entering.pop_back();
    walk.inside(next, scratch.leaving);
    for (const Ray& out : scratch.leaving) walk.outside(out, scratch.entering);
    scratch.leaving.clear();
  }
}
}  // namespace

OVENDAYS_CLONES void finish_inside(std::span<const std::shared_ptr<const Scene>> loads,
                                   const RayNumbers& numbers,
                                   std::span<const Ray> rays,
                                   std::span<Tally> tallies) {
  std::vector<RayWalk> walks;
  std::vector<OtherLoad> others;
  for (std::size_t load = 0; load < loads.size(); ++load) {
    walks.emplace_back(*loads[load], numbers, tallies[load]);
    if (load == 0) continue;
    others.push_back({loads[load].get(), loads[load]->contains_all_of(*loads[0])});
  }
  std::vector<Deposit> deposits;
  const auto comparable = [](const OtherLoad& other) { return other.comparable; };
  if (std::any_of(others.begin(), others.end(), comparable)) walks[0].record(deposits, others);
  Scratch scratch;
  for (const Ray& ray : rays) {
    deposits.clear();
    for (OtherLoad& other : others) other.same_path = other.comparable;
    finish_ray(walks[0], ray, scratch);
    for (std::size_t load = 1; load < loads.size(); ++load) {
      if (!others[load - 1].same_path) {
        finish_ray(walks[load], ray, scratch);
        continue;
      }
      for (const Deposit& one : deposits) tallies[load].m2[one.place] += one.m2;
    }
  }
}
}  // namespace ovendays::optics
