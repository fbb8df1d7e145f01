// SPDX-License-Identifier: MIT
// Builds the scene of the ray tracer from the geometry of an oven, and finds what rays hit.
#include "scene.h"

#include <algorithm>
#include <utility>

#include "ovendays/base/check.h"

namespace ovendays::optics {
namespace {
// A point of the floor is moved off it by this distance to find out whether it is inside the pot.
constexpr double kNudge_m = 1e-6;

Skin skin_of(const oven::Facet& facet) {
  return {facet.surface,
          facet.reflectance,
          facet.specular_share,
          facet.scatter_rad,
          facet.ir_reflectance};
}
}  // namespace

Panel::Panel(const oven::Facet& facet)
    : edges(facet.corners), skin(skin_of(facet)), origin(facet.corner[0]) {
  plane = {facet.normal, -base::dot(facet.normal, origin)};
  axes.normal = facet.normal;
  tangents(facet.normal, axes.tangent, axes.bitangent);
  for (int i = 0; i < edges; ++i) {
    const Point& from = facet.corner[static_cast<std::size_t>(i)];
    const Point& to = facet.corner[static_cast<std::size_t>((i + 1) % edges)];
    const Direction inward = base::normalized(base::cross(facet.normal, to - from));
    edge[static_cast<std::size_t>(i)] = {inward, -base::dot(inward, from)};
  }
  side = {facet.corner[1] - origin,
          facet.corner[2] - origin,
          facet.corner[static_cast<std::size_t>(edges - 1)] - origin};
  parallelogram = edges == 4 && base::norm(side[0] + side[2] - side[1]) < kFlush_m;
  const double first_m2 = 0.5 * base::norm(base::cross(side[0], side[1]));
  area_m2 = facet.area_m2();
  first_area_share = edges == 4 ? first_m2 / area_m2 : 1.0;
}

Point Panel::point(double u, double v) const {
  if (parallelogram) return origin + u * side[0] + v * side[2];
  // The polygon is divided into triangles that share the first corner. In a triangle the area
  // within a relative distance r of that corner is r^2, hence the square root.
  const bool first = u < first_area_share;
  const double share =
      first ? u / first_area_share : (u - first_area_share) / (1.0 - first_area_share);
  const Vec3& from = first ? side[0] : side[1];
  const Vec3& to = first ? side[1] : side[2];
  return origin + std::sqrt(v) * ((1.0 - share) * from + share * to);
}

Scene::Scene(const oven::OvenGeometry& geometry,
             std::span<const oven::Pane> panes,
             std::shared_ptr<const StackTable> stack)
    : geometry_(geometry), panes_(panes.begin(), panes.end()), stack_(std::move(stack)) {
  OVENDAYS_CHECK(!panes_.empty());
  for (const oven::Facet& facet : geometry.flaps) flaps_.emplace_back(facet);
  for (const oven::Facet& facet : geometry.cavity) cavity_.emplace_back(facet);
  sort_cavity();
  if (!geometry.pot) return;
  const oven::Cylinder& pot = *geometry.pot;
  pot_side_ = {pot.side_surface, pot.reflectance, 0.0, 0.0, pot.ir_reflectance};
  pot_top_ = {pot.top_surface, pot.top_reflectance, 0.0, 0.0, pot.top_ir_reflectance};
  pot_top_axes_.normal = pot.axis;
  tangents(pot.axis, pot_top_axes_.tangent, pot_top_axes_.bitangent);
}

// Sorts the facets into the hull of the cavity, the rim of the glass, and what stands inside. All
// corners of the cavity are in front of a wall or on it, which is not true of a tray or a pan. The
// hull is closed if the vector areas of walls, rim and glazing add up to zero (divergence theorem).
void Scene::sort_cavity() {
  const double gw = geometry_.glass_half_width_m;
  const double gl = geometry_.glass_half_length_m;
  std::vector<Point> corners{{-gw, -gl, 0}, {gw, -gl, 0}, {gw, gl, 0}, {-gw, gl, 0}};
  for (const oven::Facet& facet : geometry_.cavity) {
    corners.insert(corners.end(), facet.corner.begin(), facet.corner.begin() + facet.corners);
  }
  Vec3 open{0.0, 0.0, -glass_area_m2()};
  for (const Panel& panel : cavity_) {
    const bool wall = std::all_of(corners.begin(), corners.end(), [&](const Point& corner) {
      return panel.plane.distance(corner) >= -kFlush_m;
    });
    if (!wall) {
      inner_.push_back(panel);
      continue;
    }
    open += panel.area_m2 * panel.plane.normal;
    if (panel.plane.normal.z < -1.0 + kFlush_m && std::abs(panel.plane.offset_m) < kFlush_m) {
      rim_ = panel.skin;
    } else {
      hull_.push_back(panel);
      hull_planes_.push_back(panel.plane);
    }
  }
  OVENDAYS_CHECK(base::norm(open) < 1e-6 * glass_area_m2());
}

void Scene::hit_pot(const Point& p, const Direction& d, InsideHit& hit, Axes& room) const {
  const oven::Cylinder& pot = *geometry_.pot;
  const Vec3 from = p - pot.base_centre;
  const double height_m = base::dot(from, pot.axis);
  const double climb = base::dot(d, pot.axis);
  const Vec3 flat = from - height_m * pot.axis;
  const Vec3 heading = d - climb * pot.axis;
  const double r2 = pot.radius_m * pot.radius_m;
  if (climb < 0.0 && height_m >= pot.height_m) {
    const double t = (height_m - pot.height_m) / -climb;
    const Vec3 place = flat + t * heading;
    if (t < hit.distance_m && base::dot(place, place) <= r2) {
      hit = {t, &pot_top_, &pot_top_axes_};
      return;
    }
  }
  const double a = base::dot(heading, heading);
  const double b = base::dot(flat, heading);
  const double c = base::dot(flat, flat) - r2;
  const double root2 = b * b - a * c;
  // With b >= 0 the ray moves away from the axis. This includes rays that start on the side.
  if (b >= 0.0 || root2 <= 0.0) return;
  const double t = (-b - std::sqrt(root2)) / a;
  const double at_m = height_m + t * climb;
  if (t < -kFlush_m || t >= hit.distance_m || at_m < 0.0 || at_m > pot.height_m) return;
  const Direction normal = (1.0 / pot.radius_m) * (flat + t * heading);
  room = {normal, pot.axis, base::cross(normal, pot.axis)};
  hit = {t, &pot_side_, &room};
}

// The facets of the cavity begin with those that both ovens have, in the same order; a load that is
// a pan adds its facets at the end. A pot is a cylinder of its own.
bool Scene::contains_all_of(const Scene& other) const {
  const oven::OvenGeometry& mine = geometry_;
  const oven::OvenGeometry& its = other.geometry_;
  return panes_ == other.panes_ && mine.glass_half_width_m == its.glass_half_width_m &&
         mine.glass_half_length_m == its.glass_half_length_m && mine.flaps == its.flaps &&
         mine.cavity.size() >= its.cavity.size() &&
         std::equal(its.cavity.begin(), its.cavity.end(), mine.cavity.begin()) &&
         hull_.size() == other.hull_.size() && rim_.has_value() == other.rim_.has_value() &&
         !its.pot;
}

bool Scene::hits_load(const Scene& other,
                      const Point& p,
                      const Direction& d,
                      double within_m) const {
  for (std::size_t i = other.inner_.size(); i < inner_.size(); ++i) {
    double away_m = 0.0;
    if (inner_[i].hit_from_front(p, d, within_m, away_m)) return true;
  }
  if (!geometry_.pot) return false;
  InsideHit hit;
  hit.distance_m = within_m;
  Axes room;
  hit_pot(p, d, hit, room);
  return hit.skin != nullptr;
}

bool Scene::covered(const Point& p, const Direction& normal) const {
  const Point q = p + kNudge_m * normal;
  if (geometry_.pot) {
    const oven::Cylinder& pot = *geometry_.pot;
    const Vec3 from = q - pot.base_centre;
    const double height_m = base::dot(from, pot.axis);
    const Vec3 flat = from - height_m * pot.axis;
    return height_m > 0.0 && height_m < pot.height_m &&
           base::dot(flat, flat) < pot.radius_m * pot.radius_m;
  }
  bool pan = false;
  for (const Panel& panel : inner_) {
    if (panel.skin.surface != oven::kVessel && panel.skin.surface != oven::kVesselTop) continue;
    pan = true;
    // A point is inside a rectangular pan if it is behind every face and within its edges.
    if (panel.plane.distance(q) >= 0.0 || !panel.contains(q)) return false;
  }
  return pan;
}
}  // namespace ovendays::optics
