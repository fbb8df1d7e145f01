// SPDX-License-Identifier: MIT
// The geometry of an oven in the form that ray tracing needs: planes and edges are computed once,
// queries are plain loops without allocation. Frame of the mouth: x right, y up the slope, z
// outward; the glazing is in the plane z = 0 and the cavity below it.
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

inline constexpr double kFlush_m = 1e-9;  ///< points within this distance of a plane count as on it

/// Optical properties of a surface.
struct Skin {
  int surface = oven::kLiner;
  double reflectance = 0.0;
  double specular_share = 0.0;
  double scatter_rad = 0.0;
  double ir_reflectance = 0.0;
};

/// A plane. The signed distance of p, positive in front, is normal . p + offset.
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

/// A convex polygon with three or four corners.
struct Panel {
  Plane plane;
  std::array<Plane, 4> edge{};  ///< planes through the edges, with the polygon in front of each
  int edges = 4;
  Skin skin;
  Axes axes;
  Point origin;                ///< first corner
  std::array<Vec3, 3> side{};  ///< from the first corner to the others
  bool parallelogram = false;
  double area_m2 = 0.0;
  double first_area_share = 1.0;  ///< share of the triangle (origin, corner 1, corner 2)

  explicit Panel(const oven::Facet& facet);
  Panel() = default;
  /// True for a point of the plane that is within the polygon.
  [[nodiscard]] bool contains(const Point& p) const {
    for (int i = 0; i < edges; ++i) {
      if (edge[static_cast<std::size_t>(i)].distance(p) < 0.0) return false;
    }
    return true;
  }
  /// True if a ray hits the front of the panel at a distance of less than `within_m`, which is then
  /// stored in `at_m`. A thin plate consists of two panels back to back. A ray that leaves one of
  /// them starts in the plane of the other, which must not count as a hit.
  [[nodiscard]] bool hit_from_front(const Point& p,
                                    const Direction& d,
                                    double within_m,
                                    double& at_m) const {
    const double approach = -base::dot(plane.normal, d);
    if (approach <= 0.0) return false;
    const double away_m = plane.distance(p);
    // Without a division for the panels that are missed.
    if (away_m < kFlush_m || away_m >= within_m * approach) return false;
    const double t = away_m / approach;
    if (!contains(p + t * d)) return false;
    at_m = t;
    return true;
  }
  /// The point of the polygon that two numbers in [0, 1) select. The mapping preserves area.
  [[nodiscard]] Point point(double u, double v) const;
};

/// What a ray inside the cavity hits first.
struct InsideHit {
  double distance_m = std::numeric_limits<double>::infinity();
  const Skin* skin = nullptr;  ///< nullptr: the glazing
  const Axes* axes = nullptr;  ///< of the skin
};

/// An oven with one load. Immutable, thread-safe.
class Scene {
 public:
  /// @param stack table of the same panes, shared by all loads of an oven; nullptr if no sunlight
  /// is to be traced
  Scene(const oven::OvenGeometry& geometry,
        std::span<const oven::Pane> panes,
        std::shared_ptr<const StackTable> stack);

  /// @param room memory for the axes of the hit point, which InsideHit::axes may point to
  [[nodiscard]] InsideHit hit_inside(const Point& p, const Direction& d, Axes& room) const;
  /// True if `other` has no pot, and this oven contains everything that the other one contains in
  /// the same places. What it contains in addition is called its load.
  [[nodiscard]] bool contains_all_of(const Scene& other) const;
  /// True if a ray hits the load at a distance of less than `within_m`.
  /// @param other an oven for which contains_all_of() is true
  [[nodiscard]] bool hits_load(const Scene& other,
                               const Point& p,
                               const Direction& d,
                               double within_m) const;
  /// Index of the first flap that a ray hits at a distance of less than `most_m`, or -1. The
  /// distance is stored in `most_m`. @param skip the flap that the ray has just left, or -1
  [[nodiscard]] int hit_flap(const Point& p, const Direction& d, int skip, double& most_m) const;
  [[nodiscard]] bool on_glass(double x, double y) const {
    return std::abs(x) <= geometry_.glass_half_width_m &&
           std::abs(y) <= geometry_.glass_half_length_m;
  }
  /// True for a point of the floor or the tray on which the vessel stands.
  /// @param normal the normal of the floor or tray
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
  std::vector<Panel> hull_;         ///< walls and floor of the convex cavity
  std::vector<Plane> hull_planes_;  ///< their planes, next to each other in memory
  std::vector<Panel> inner_;        ///< tray and pan
  std::optional<Skin> rim_;         ///< the frame around the glass, in the plane z = 0
  Skin pot_side_;
  Skin pot_top_;
  Axes pot_top_axes_;
  Axes rim_axes_{{0.0, 0.0, -1.0}, {1.0, 0.0, 0.0}, {0.0, -1.0, 0.0}};
};

/// Two unit vectors that form an orthonormal frame with `normal` (Duff et al. 2017).
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
    // The cavity is closed and convex: the wall that is hit is the one whose plane the ray reaches
    // first. The edges of the walls need not be tested.
    const Plane& plane = hull_planes_[i];
    const double approach = -base::dot(plane.normal, d);
    const double away_m = plane.distance(p);
    if (approach > 0.0 && away_m < hit.distance_m * approach) {
      hit.distance_m = away_m / approach;
      best = &hull_[i];
    }
  }
  for (const Panel& panel : inner_) {
    if (panel.hit_from_front(p, d, hit.distance_m, hit.distance_m)) best = &panel;
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
    const double approach = base::dot(flap.plane.normal, d);
    const double away_m = -flap.plane.distance(p);
    // Flaps are hit from both sides. Equal signs mean that the plane is ahead of the ray.
    if (i == skip || away_m * approach <= 0.0) continue;
    const double t = away_m / approach;
    if (t >= most_m || !flap.contains(p + t * d)) continue;
    most_m = t;
    found = i;
  }
  return found;
}
}  // namespace ovendays::optics
