// SPDX-License-Identifier: MIT
// One ray's way outside and inside, meeting by meeting. Private to optics.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>
#include <vector>

#include "ovendays/base/random.h"
#include "ray_walk.h"

namespace ovendays::optics {
inline constexpr std::uint16_t kMostFates = 10000;  // ends rays between perfect mirrors

/// What one ray and its parts leave where, in order.
struct Deposit {
  std::size_t place;
  double m2;
};

/// A load beside the leading one.
struct Follower {
  const Scene* scene;
  bool may_follow;       ///< it holds all that the leading one does, and more
  bool follows = false;  ///< so far the ray has met nothing that the leading oven does not hold
};

// The mirror direction strayed by two Gaussian angles; never into the panel.
inline Direction off_flap(const Panel& flap,
                          const Direction& heading,
                          const RayNumbers::Pair& normal) {
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

/// A ray in one oven; what it leaves goes to a tally.
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
        other.follows =
            other.follows && !other.scene->meets_load(scene_, ray.at, ray.heading, hit.distance_m);
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
}  // namespace ovendays::optics
