// SPDX-License-Identifier: MIT
#include <algorithm>

#include "ovendays/base/target_clones.h"
#include "walk.h"

namespace ovendays::optics {
namespace {
/// Room for parts of a ray that wait their turn; empty between rays.
struct Scratch {
  std::vector<Ray> entering;
  std::vector<Ray> leaving;
};

/// Inside, what leaves; outside, what enters again: turn and turn about until nothing is left.
void finish_ray(Walk& walk, const Ray& ray, Scratch& scratch) {
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
  std::vector<Walk> walks;
  std::vector<Follower> others;
  for (std::size_t load = 0; load < loads.size(); ++load) {
    walks.emplace_back(*loads[load], numbers, tallies[load]);
    if (load == 0) continue;
    others.push_back({loads[load].get(), loads[load]->holds_all_of(*loads[0])});
  }
  std::vector<Deposit> left;
  const auto may_follow = [](const Follower& other) { return other.may_follow; };
  if (std::any_of(others.begin(), others.end(), may_follow)) walks[0].lead(others, left);
  Scratch scratch;
  for (const Ray& ray : rays) {
    left.clear();
    for (Follower& other : others) other.follows = other.may_follow;
    finish_ray(walks[0], ray, scratch);
    for (std::size_t load = 1; load < loads.size(); ++load) {
      if (!others[load - 1].follows) {
        finish_ray(walks[load], ray, scratch);
        continue;
      }
      for (const Deposit& one : left) tallies[load].m2[one.place] += one.m2;
    }
  }
}
}  // namespace ovendays::optics
