// SPDX-License-Identifier: MIT
// The path of one ray, from one surface to the next. Private to optics.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>
#include <vector>

#include "ovendays/base/random.h"
#include "ray_bundle.h"

namespace ovendays::optics {
// Ends rays that are caught between perfect mirrors.
inline constexpr std::uint16_t kMostRoulettes = 10000;

/// What a ray leaves at one place [m2].
struct Deposit {
  std::size_t place;
  double m2;
};

/// An oven with another load, compared with the first one while a ray is traced there.
struct OtherLoad {
  const Scene* scene;
  bool comparable;         ///< it contains everything that the first one contains
  bool same_path = false;  ///< so far the ray has met nothing that only this oven contains
};

// The mirror direction, scattered by two Gaussian angles. A direction that would lead into the
// panel is mirrored out of it, so that scattering loses no light.
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

/// Traces rays in one oven and adds what they leave to a tally.
class RayWalk {
 public:
  RayWalk(const Scene& scene, const RayNumbers& numbers, Tally& tally)
      : scene_(scene), numbers_(numbers), tally_(tally) {}

  /// From now on every deposit is also appended to `deposits`, and same_path of each of `others` is
  /// cleared when a ray meets something that only that oven contains.
  void record(std::vector<Deposit>& deposits, std::span<OtherLoad> others) {
    deposits_ = &deposits;
    others_ = others;
  }

  /// Traces a ray outside the glazing until it is absorbed or escapes. The parts that enter the
  /// cavity are appended to `entering`.
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
        deposit(kEscaped, ray.weight_m2);
        return;
      }
      ray.at += away_m * ray.heading;
      if (!(flap >= 0 ? meet_flap(ray, flap) : meet_glass(ray, entering))) return;
    }
  }

  /// Each of the functions that follow treats one meeting with a surface, and returns false if the
  /// ray ends there.
  bool meet_flap(Ray& ray, int index) {
    const Panel& flap = scene_.flaps()[static_cast<std::size_t>(index)];
    const bool back = base::dot(ray.heading, flap.plane.normal) > 0.0;
    const double kept_m2 = back ? 0.0 : kept(ray, flap.skin.reflectance);
    deposit(kFlaps, ray.weight_m2 - kept_m2);
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
    deposit(kOuterIr, ray.ir_m2 * outer.ir_emittance);
    ray.ir_m2 *= 1.0 - outer.ir_emittance - outer.ir_transmittance;
    ray.at.z = 0.0;
    ray.flap = -1;
    Ray in = ray;
    split_at_glazing(split, ray, in);
    if (in.weight_m2 > 0.0) entering.push_back(in);
    if (scene_.flaps().empty()) {  // nothing outside could send it back
      deposit(kEscaped, ray.weight_m2);
      return false;
    }
    ray.heading.z = -ray.heading.z;
    return ray.weight_m2 > 0.0;
  }

  /// Traces a ray in the cavity to its end. The parts that leave through the glazing are appended
  /// to `leaving`.
  void inside(Ray ray, std::vector<Ray>& leaving) {
    Axes room;
    for (;;) {
      const InsideHit hit = scene_.hit_inside(ray.at, ray.heading, room);
      for (OtherLoad& other : others_) {
        other.same_path =
            other.same_path && !other.scene->hits_load(scene_, ray.at, ray.heading, hit.distance_m);
      }
      ray.at += std::max(0.0, hit.distance_m) * ray.heading;
      if (!(hit.skin != nullptr ? meet_skin(ray, hit) : meet_glazing(ray, leaving))) return;
    }
  }

  bool meet_skin(Ray& ray, const InsideHit& hit) {
    const Skin& skin = *hit.skin;
    const double kept_m2 = kept(ray, skin.reflectance);
    deposit(static_cast<std::size_t>(skin.surface), ray.weight_m2 - kept_m2);
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
    split_at_glazing(scene_.stack().from_inside(ray.heading.z), ray, out);
    if (scene_.flaps().empty()) {
      deposit(kEscaped, out.weight_m2);
    } else if (out.weight_m2 > 0.0) {
      leaving.push_back(out);
    }
    ray.heading.z = -ray.heading.z;
    return ray.weight_m2 > 0.0;
  }

 private:
  void deposit(std::size_t place, double m2) {
    tally_.m2[place] += m2;
    if (deposits_ != nullptr) deposits_->push_back({place, m2});
  }

  void deposit_in_panes(const StackSplit& split, double weight_m2) {
    for (std::size_t k = 0; k < scene_.panes().size(); ++k)
      deposit(k, weight_m2 * split.absorbed[k]);
  }

  // A number in [0, 1) for Russian roulette. It is independent of the numbers that decide where the
  // ray goes, because otherwise the survivors would prefer certain directions.
  static double roulette(Ray& ray) { return base::KeyedRandom(ray.id, ++ray.roulettes).uniform(); }

  // The weight that a surface reflects.
  static double kept(Ray& ray, double reflectance) {
    const double kept_m2 = ray.weight_m2 * reflectance;
    if (kept_m2 >= ray.faint_m2) return kept_m2;
    return ray.roulettes < kMostRoulettes && roulette(ray) < reflectance ? ray.weight_m2 : 0.0;
  }

  // Splits a ray at the glazing: `ray` becomes the reflected part and `through` the transmitted
  // one. A faint ray is reflected, transmitted or absorbed as a whole.
  void split_at_glazing(const StackSplit& split, Ray& ray, Ray& through) {
    const double weight_m2 = ray.weight_m2;
    if (weight_m2 >= ray.faint_m2) {
      deposit_in_panes(split, weight_m2);
      ray.weight_m2 = weight_m2 * split.reflected;
      through.weight_m2 = weight_m2 * split.transmitted;
      return;
    }
    const double number = ray.roulettes < kMostRoulettes ? roulette(ray) : 1.0;
    through.roulettes = ray.roulettes;
    const bool passes = number < split.transmitted;
    const bool bounces = !passes && number < split.transmitted + split.reflected;
    through.weight_m2 = passes ? weight_m2 : 0.0;
    ray.weight_m2 = bounces ? weight_m2 : 0.0;
    if (passes || bounces) return;
    double absorbed = 0.0;
    for (const double part : split.absorbed) absorbed += part;
    // Panes that absorb nothing transmit or reflect everything; only rounding leads here with them.
    if (absorbed <= 0.0)
      deposit(oven::kPane0, weight_m2);
    else
      deposit_in_panes(split, weight_m2 / absorbed);
  }

  const Scene& scene_;
  const RayNumbers& numbers_;
  Tally& tally_;
  std::span<OtherLoad> others_;
  std::vector<Deposit>* deposits_ = nullptr;
};
}  // namespace ovendays::optics
