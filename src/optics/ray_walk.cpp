// SPDX-License-Identifier: MIT
#include "ray_walk.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/random.h"
#include "ovendays/base/wide.h"

namespace ovendays::optics {
namespace {
constexpr int kFewestRays = 8;
constexpr std::uint16_t kMostFates = 10000;  // ends rays between perfect mirrors

/// What one ray and its parts leave where, in order.
struct Deposit {
  std::size_t place;
  double m2;
};

/// A load whose oven holds all that the leading one's does, and something more.
struct Follower {
  const Scene* scene;
  const Scene* lead;
  bool may_follow;
  bool follows = false;  ///< so far the ray has met nothing that the leading oven does not hold
};

// The mirror direction strayed by two Gaussian angles; never into the panel.
Direction off_flap(const Panel& flap, const Direction& heading, const RayNumbers::Pair& normal) {
  const Direction mirror = mirrored(heading, flap.plane.normal);
  if (flap.skin.scatter_rad == 0.0) return mirror;
  Direction tangent;
  Direction bitangent;
  tangents(mirror, tangent, bitangent);
  const double scatter = flap.skin.scatter_rad;
  const Direction strayed =
      base::normalized(mirror + (scatter * normal.u) * tangent + (scatter * normal.v) * bitangent);
  return base::dot(strayed, flap.plane.normal) < 0.0 ? mirrored(strayed, flap.plane.normal)
                                                     : strayed;
}

class Walk {
 public:
  Walk(const Scene& scene, const RayNumbers& numbers, Tally& tally)
      : scene_(scene), numbers_(numbers), tally_(tally) {}

  /// From now on these look on: where one follows a ray to its end, `left` is what it leaves.
  void lead(std::span<Follower> followers, std::vector<Deposit>& left) {
    followers_ = followers;
    left_ = &left;
  }

  // Follows a ray outside until it is absorbed or gone; its parts that enter go to `entering`.
  void outside(Ray ray, std::vector<Ray>& entering) {
    for (;;) {
      double away_m = std::numeric_limits<double>::infinity();
      const bool down = ray.heading.z < 0.0 && ray.at.z > 0.0;
      bool glass = false;
      if (down) {
        const double t = -ray.at.z / ray.heading.z;
        glass = scene_.on_glass(ray.at.x + t * ray.heading.x, ray.at.y + t * ray.heading.y);
        if (glass) away_m = t;
      }
      const int flap = scene_.hit_flap(ray.at, ray.heading, ray.flap, away_m);
      if (flap < 0 && !glass) {
        put(kEscaped, ray.weight_m2);
        return;
      }
      ray.at += away_m * ray.heading;
      if (!(flap >= 0 ? meet_flap(ray, flap) : meet_glass(ray, entering))) return;
    }
  }

  // @return false where the ray ends
  bool meet_flap(Ray& ray, int index) {
    const Panel& flap = scene_.flaps()[static_cast<std::size_t>(index)];
    const bool back = base::dot(ray.heading, flap.plane.normal) > 0.0;
    const double kept_m2 = back ? 0.0 : kept(ray, flap.skin.reflectance);
    put(kFlaps, ray.weight_m2 - kept_m2);
    if (kept_m2 == 0.0) return false;
    ray.weight_m2 = kept_m2;
    ray.ir_m2 *= flap.skin.ir_reflectance;
    ray.heading = off_flap(flap, ray.heading, numbers_.normal_pair(ray.id, ray.flap_bounces));
    ++ray.flap_bounces;
    ray.flap = index;
    return true;
  }

  bool meet_glass(Ray& ray, std::vector<Ray>& entering) {
    const StackSplit split = scene_.stack().from_outside(-ray.heading.z);
    const oven::Pane& outer = scene_.panes().front();
    put(kOuterIr, ray.ir_m2 * outer.ir_emittance);
    ray.ir_m2 *= 1.0 - outer.ir_emittance - outer.ir_transmittance;
    ray.at.z = 0.0;
    ray.flap = -1;
    Ray in = ray;
    share_out(split, ray, in);
    if (in.weight_m2 > 0.0) entering.push_back(in);
    if (scene_.flaps().empty()) {
      put(kEscaped, ray.weight_m2);
      return false;
    }
    ray.heading.z = -ray.heading.z;
    return ray.weight_m2 > 0.0;
  }

  // Follows a ray inside to its end; its parts that leave go to `leaving`.
  void inside(Ray ray, std::vector<Ray>& leaving) {
    Axes room;
    for (;;) {
      const InsideHit hit = scene_.hit_inside(ray.at, ray.heading, room);
      for (Follower& other : followers_) {
        other.follows = other.follows &&
                        !other.scene->meets_load(*other.lead, ray.at, ray.heading, hit.distance_m);
      }
      ray.at += std::max(0.0, hit.distance_m) * ray.heading;
      if (!(hit.skin != nullptr ? meet_skin(ray, hit) : meet_glazing(ray, leaving))) return;
    }
  }

  bool meet_skin(Ray& ray, const InsideHit& hit) {
    const Skin& skin = *hit.skin;
    const double kept_m2 = kept(ray, skin.reflectance);
    put(static_cast<std::size_t>(skin.surface), ray.weight_m2 - kept_m2);
    if (kept_m2 == 0.0) return false;
    ray.weight_m2 = kept_m2;
    if (skin.specular_share > 0.0 && numbers_.choice(ray.id, ray.bounces) < skin.specular_share) {
      ray.heading = mirrored(ray.heading, hit.axes->normal);
    } else {
      const Direction& local = numbers_.diffuse(ray.id, ray.bounces);
      ray.heading = local_to_world(local, *hit.axes);
    }
    ++ray.bounces;
    return true;
  }

  bool meet_glazing(Ray& ray, std::vector<Ray>& leaving) {
    ray.at.z = 0.0;
    ray.flap = -1;
    Ray out = ray;
    out.ir_m2 = 0.0;
    share_out(scene_.stack().from_inside(ray.heading.z), ray, out);
    if (scene_.flaps().empty()) {
      put(kEscaped, out.weight_m2);
    } else if (out.weight_m2 > 0.0) {
      leaving.push_back(out);
    }
    ray.heading.z = -ray.heading.z;
    return ray.weight_m2 > 0.0;
  }

 private:
  void put(std::size_t place, double m2) {
    tally_.m2[place] += m2;
    if (left_ != nullptr) left_->push_back({place, m2});
  }

  void put_panes(const StackSplit& split, double weight_m2) {
    for (std::size_t k = 0; k < scene_.panes().size(); ++k) put(k, weight_m2 * split.absorbed[k]);
  }

  // A fresh number for a faint ray's fate, apart from those that steer it.
  static double chance(Ray& ray) { return base::KeyedRandom(ray.id, ++ray.fates).uniform(); }

  // What a surface reflects of a ray; of a faint one all or nothing.
  static double kept(Ray& ray, double reflectance) {
    const double kept_m2 = ray.weight_m2 * reflectance;
    if (kept_m2 >= ray.faint_m2) return kept_m2;
    return ray.fates < kMostFates && chance(ray) < reflectance ? ray.weight_m2 : 0.0;
  }

  // Splits a ray at the glazing: `ray` becomes its reflected part, `through` its transmitted part;
  // a faint one goes whole one way, or to the panes.
  void share_out(const StackSplit& split, Ray& ray, Ray& through) {
    const double weight_m2 = ray.weight_m2;
    if (weight_m2 >= ray.faint_m2) {
      put_panes(split, weight_m2);
      ray.weight_m2 = weight_m2 * split.reflected;
      through.weight_m2 = weight_m2 * split.transmitted;
      return;
    }
    const double fate = ray.fates < kMostFates ? chance(ray) : 1.0;
    through.fates = ray.fates;
    const bool passes = fate < split.transmitted;
    const bool bounces = !passes && fate < split.transmitted + split.reflected;
    through.weight_m2 = passes ? weight_m2 : 0.0;
    ray.weight_m2 = bounces ? weight_m2 : 0.0;
    if (passes || bounces) return;
    double absorbed = 0.0;
    for (const double part : split.absorbed) absorbed += part;
    // glass that does not absorb at all is met here only when rounding has the last word
    if (absorbed <= 0.0)
      put(oven::kPane0, weight_m2);
    else
      put_panes(split, weight_m2 / absorbed);
  }

  const Scene& scene_;
  const RayNumbers& numbers_;
  Tally& tally_;
  std::span<Follower> followers_;
  std::vector<Deposit>* left_ = nullptr;
};

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

namespace {
double launch_plainly(const Scene& scene,
                      const RayNumbers& numbers,
                      const Bundle& bundle,
                      Tally& tally,
                      std::vector<Ray>& entering) {
  Walk walk(scene, numbers, tally);
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

void finish_plainly(std::span<const std::shared_ptr<const Scene>> loads,
                    const RayNumbers& numbers,
                    std::span<const Ray> rays,
                    std::span<Tally> tallies) {
  std::vector<Walk> walks;
  std::vector<Follower> others;
  for (std::size_t load = 0; load < loads.size(); ++load) {
    walks.emplace_back(*loads[load], numbers, tallies[load]);
    if (load == 0) continue;
    others.push_back({loads[load].get(), loads[0].get(), loads[load]->holds_all_of(*loads[0])});
  }
  std::vector<Deposit> left;
  if (!others.empty()) walks[0].lead(others, left);
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

#ifdef OVENDAYS_WIDE
OVENDAYS_WIDE double launch_wide(const Scene& scene,
                                 const RayNumbers& numbers,
                                 const Bundle& bundle,
                                 Tally& tally,
                                 std::vector<Ray>& entering) {
  return launch_plainly(scene, numbers, bundle, tally, entering);
}

OVENDAYS_WIDE void finish_wide(std::span<const std::shared_ptr<const Scene>> loads,
                               const RayNumbers& numbers,
                               std::span<const Ray> rays,
                               std::span<Tally> tallies) {
  finish_plainly(loads, numbers, rays, tallies);
}
#endif
}  // namespace

double launch(const Scene& scene,
              const RayNumbers& numbers,
              const Bundle& bundle,
              Tally& tally,
              std::vector<Ray>& entering) {
#ifdef OVENDAYS_WIDE
  if (base::widest_vectors() == base::Vectors::kWide)
    return launch_wide(scene, numbers, bundle, tally, entering);
#endif
  return launch_plainly(scene, numbers, bundle, tally, entering);
}

void finish_inside(std::span<const std::shared_ptr<const Scene>> loads,
                   const RayNumbers& numbers,
                   std::span<const Ray> rays,
                   std::span<Tally> tallies) {
#ifdef OVENDAYS_WIDE
  if (base::widest_vectors() == base::Vectors::kWide)
    return finish_wide(loads, numbers, rays, tallies);
#endif
  finish_plainly(loads, numbers, rays, tallies);
}
}  // namespace ovendays::optics
