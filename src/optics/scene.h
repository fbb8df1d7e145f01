// SPDX-License-Identifier: MIT
// The oven made ready for rays: planes and edges worked out once, plain loops, nothing allocated.
#pragma once

#include <array>
#include <cmath>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "ovendays/base/vec.h"
#include "ovendays/optics/pane_optics.h"
#include "ovendays/oven/geometry.h"

namespace ovendays::optics {

using base::Direction;
using base::Point;
using base::Vec3;

inline constexpr double kFlush_m = 1e-9;  ///< points this near to a plane lie in it

/// What a surface does with light that falls on it.
struct Skin {
  int surface = oven::kLiner;
  double reflectance = 0.0;
  double specular_share = 0.0;
  double scatter_rad = 0.0;
  double ir_reflectance = 0.0;
};

/// A plane by its normal: normal . p + offset is the distance of p in front of it.
struct Plane {
  Vec3 normal;
  double offset_m = 0.0;
  [[nodiscard]] double distance(const Point& p) const { return base::dot(normal, p) + offset_m; }
};

/// An orthonormal frame on a surface.
struct Axes {
  Direction normal;
  Direction tangent;
  Direction bitangent;
};

/// A convex polygon: its plane, and planes through its edges with the polygon in front of each.
struct Panel {
  Plane plane;
  std::array<Plane, 4> edge{};
  int edges = 4;
  Skin skin;
  Axes axes;
  Point origin;                ///< first corner
  std::array<Vec3, 3> side{};  ///< from there to the others
  bool parallelogram = false;
  double area_m2 = 0.0;
  double first_area_share = 1.0;  ///< of triangle (origin, corner 1, corner 2)

  explicit Panel(const oven::Facet& facet);
  Panel() = default;
  [[nodiscard]] bool holds(const Point& p) const {
    for (int i = 0; i < edges; ++i) {
      if (edge[static_cast<std::size_t>(i)].distance(p) < 0.0) return false;
    }
    return true;
  }
  /// Of a plate, which is two panels back to back: does a ray meet it from the front and before
  /// `within_m`? Then `at_m` is where. One that leaves the other panel lies in this one's plane.
  [[nodiscard]] bool met(const Point& p, const Direction& d, double within_m, double& at_m) const {
    const double speed = -base::dot(plane.normal, d);
    if (speed <= 0.0) return false;
    const double away_m = plane.distance(p);
    if (away_m < kFlush_m || away_m >= within_m * speed) return false;
    const double t = away_m / speed;
    if (!holds(p + t * d)) return false;
    at_m = t;
    return true;
  }
  /// A point of the polygon from two numbers in [0, 1), area preserving.
  [[nodiscard]] Point point(double u, double v) const;
};

/// What a ray inside the cavity hits first.
struct InsideHit {
  double distance_m = std::numeric_limits<double>::infinity();
  const Skin* skin = nullptr;  ///< nullptr: the glazing
  const Axes* axes = nullptr;  ///< of the skin
};

class Scene {
 public:
  /// @param stack of the same panes, shared by the loads of one oven; nullptr where no sunlight is
  /// traced
  Scene(const oven::OvenGeometry& geometry,
        std::span<const oven::Pane> panes,
        std::shared_ptr<const StackTable> stack);

  /// @param room for the axes of a skin that is curved
  [[nodiscard]] InsideHit hit_inside(const Point& p, const Direction& d, Axes& room) const;
  /// Does this oven hold all that the other one does, which holds no pot, in the same places? What
  /// it holds more is called its load.
  [[nodiscard]] bool holds_all_of(const Scene& other) const;
  /// Is anything of the load met, of an oven that holds all of the other one, before `within_m`?
  [[nodiscard]] bool meets_load(const Scene& other,
                                const Point& p,
                                const Direction& d,
                                double within_m) const;
  /// Index of the flap hit first in front of `most_m`, or -1; `skip` is the flap the ray leaves.
  [[nodiscard]] int hit_flap(const Point& p, const Direction& d, int skip, double& most_m) const;
  [[nodiscard]] bool on_glass(double x, double y) const {
    return std::abs(x) <= geometry_.glass_half_width_m &&
           std::abs(y) <= geometry_.glass_half_length_m;
  }
  /// True for a point of floor or tray on which the vessel stands; `normal` is the facet's.
  [[nodiscard]] bool covered(const Point& p, const Direction& normal) const;

  [[nodiscard]] const oven::OvenGeometry& geometry() const { return geometry_; }
  [[nodiscard]] std::span<const oven::Pane> panes() const { return panes_; }
  [[nodiscard]] const StackTable& stack() const { return *stack_; }
  [[nodiscard]] std::span<const Panel> flaps() const { return flaps_; }
  [[nodiscard]] std::span<const Panel> cavity() const { return cavity_; }
  [[nodiscard]] double glass_area_m2() const {
    return 4.0 * geometry_.glass_half_width_m * geometry_.glass_half_length_m;
  }

 private:
  void hit_pot(const Point& p, const Direction& d, InsideHit& hit, Axes& room) const;
  void sort_cavity();

  oven::OvenGeometry geometry_;
  std::vector<oven::Pane> panes_;
  std::shared_ptr<const StackTable> stack_;
  std::vector<Panel> flaps_;
  std::vector<Panel> cavity_;
  std::vector<Panel> hull_;  ///< of the convex cavity, without what lies in the glazing's plane
  std::vector<Plane> hull_planes_;  ///< the same, close together
  std::vector<Panel> inner_;        ///< tray and pan
  std::optional<Skin> rim_;
  Skin pot_side_;
  Skin pot_top_;
  Axes pot_top_axes_;
  Axes rim_axes_{{0.0, 0.0, -1.0}, {1.0, 0.0, 0.0}, {0.0, -1.0, 0.0}};
};

/// Two unit vectors that make an orthonormal frame with `normal` (Duff et al. 2017).
inline void tangents(const Direction& normal, Direction& tangent, Direction& bitangent) {
  const double sign = std::copysign(1.0, normal.z);
  const double a = -1.0 / (sign + normal.z);
  const double b = normal.x * normal.y * a;
  tangent = {1.0 + sign * normal.x * normal.x * a, sign * b, -sign * normal.x};
  bitangent = {b, sign + normal.y * normal.y * a, -normal.y};
}

inline Direction local_to_world(const Direction& local, const Axes& axes) {
  return local.x * axes.tangent + local.y * axes.bitangent + local.z * axes.normal;
}

inline Direction mirrored(const Direction& d, const Direction& normal) {
  return d - (2.0 * base::dot(d, normal)) * normal;
}

inline InsideHit Scene::hit_inside(const Point& p, const Direction& d, Axes& room) const {
  InsideHit hit;
  const Panel* best = nullptr;
  if (d.z > 0.0) hit.distance_m = -p.z / d.z;
  for (std::size_t i = 0; i < hull_planes_.size(); ++i) {
    // Closed and convex: the first plane met from its front is the wall met.
    const Plane& plane = hull_planes_[i];
    const double speed = -base::dot(plane.normal, d);
    const double away_m = plane.distance(p);
    if (speed > 0.0 && away_m < hit.distance_m * speed) {
      hit.distance_m = away_m / speed;
      best = &hull_[i];
    }
  }
  for (const Panel& panel : inner_) {
    if (panel.met(p, d, hit.distance_m, hit.distance_m)) best = &panel;
  }
  if (best != nullptr) {
    hit.skin = &best->skin;
    hit.axes = &best->axes;
  }
  if (geometry_.pot) hit_pot(p, d, hit, room);
  if (hit.skin == nullptr && rim_) {
    if (!on_glass(p.x + hit.distance_m * d.x, p.y + hit.distance_m * d.y)) {
      hit.skin = &*rim_;
      hit.axes = &rim_axes_;
    }
  }
  return hit;
}

inline int Scene::hit_flap(const Point& p, const Direction& d, int skip, double& most_m) const {
  int found = -1;
  for (int i = 0; i < static_cast<int>(flaps_.size()); ++i) {
    const Panel& flap = flaps_[static_cast<std::size_t>(i)];
    const double speed = base::dot(flap.plane.normal, d);
    const double away_m = -flap.plane.distance(p);
    // both signs alike: met in front of the ray
    if (i == skip || away_m * speed <= 0.0) continue;
    const double t = away_m / speed;
    if (t >= most_m || !flap.holds(p + t * d)) continue;
    most_m = t;
    found = i;
  }
  return found;
}
}  // namespace ovendays::optics
