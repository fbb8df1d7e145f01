// SPDX-License-Identifier: MIT
#include "flap_panels.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "ovendays/base/check.h"

namespace ovendays::oven {
namespace {
using base::cross;
using base::dot;
using base::Point;
using base::Vec3;

constexpr double kTouch_m = 1e-3;  // panels of cardboard that meet may overlap by this much

struct HingeLine {
  Point middle;
  Vec3 along;    // counter-clockwise around the mouth seen from above
  Vec3 outward;  // in the glazing plane
  double edge_length_m = 0.0;
};

HingeLine hinge_line(const OvenDesign& design, Edge edge) {
  const double half_width = 0.5 * design.glass_width_m();
  const double half_length = 0.5 * design.glass_length_m();
  switch (edge) {
    case Edge::kFront:
      return {{0.0, -half_length, 0.0}, {1, 0, 0}, {0, -1, 0}, 2.0 * half_width};
    case Edge::kRight:
      return {{half_width, 0.0, 0.0}, {0, 1, 0}, {1, 0, 0}, 2.0 * half_length};
    case Edge::kBack:
      return {{0.0, half_length, 0.0}, {-1, 0, 0}, {0, 1, 0}, 2.0 * half_width};
    case Edge::kLeft:
      return {{-half_width, 0.0, 0.0}, {0, -1, 0}, {-1, 0, 0}, 2.0 * half_length};
  }
  return {};
}

std::pair<double, double> shadow(const Facet& facet, const Vec3& axis) {
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (int i = 0; i < facet.corners; ++i) {
    const double place = dot(facet.corner[static_cast<std::size_t>(i)], axis);
    low = std::min(low, place);
    high = std::max(high, place);
  }
  return {low, high};
}

bool apart_along(const Facet& a, const Facet& b, const Vec3& axis) {
  const auto [a_low, a_high] = shadow(a, axis);
  const auto [b_low, b_high] = shadow(b, axis);
  return a_high <= b_low + kTouch_m || b_high <= a_low + kTouch_m;
}

Vec3 edge_of(const Facet& facet, int i) {
  const int next = (i + 1) % facet.corners;
  return facet.corner[static_cast<std::size_t>(next)] - facet.corner[static_cast<std::size_t>(i)];
}

// A corner triangle is left out where the neighbours already meet.
void add_triangle(std::vector<Facet>& out,
                  const std::vector<Point>& corners,
                  const CornerPanels& panel,
                  const AsBuilt& built) {
  constexpr double kSliver_m2 = 1e-8;
  const Vec3 span = cross(corners[1] - corners[0], corners[2] - corners[0]);
  if (0.5 * base::norm(span) < kSliver_m2) return;
  Facet facet = facet_from_corners(corners);
  facet.surface = -1;
  facet.reflectance = built.cleanliness * built.flap_set * panel.reflectance;
  facet.specular_share = 1.0;
  facet.scatter_rad = panel.scatter_rad;
  facet.ir_reflectance = 1.0 - panel.emittance;
  out.push_back(facet);
}
}  // namespace

Facet facet_from_corners(const std::vector<Point>& corners) {
  OVENDAYS_CHECK(corners.size() == 3 || corners.size() == 4);
  Facet facet;
  facet.corners = static_cast<int>(corners.size());
  std::copy(corners.begin(), corners.end(), facet.corner.begin());
  const Vec3 first = corners[1] - corners[0];
  const Vec3 second = corners[2] - corners[0];
  facet.normal = base::normalized(cross(first, second));
  return facet;
}

Facet flap_facet(const OvenDesign& design, const Flap& flap) {
  const AsBuilt& built = design.as_built;
  const HingeLine hinge = hinge_line(design, flap.edge);
  const double hinge_width = flap.hinge_width_m > 0.0 ? flap.hinge_width_m : hinge.edge_length_m;
  const double outer_width = flap.outer_width_m > 0.0 ? flap.outer_width_m : hinge_width;
  const Vec3 reach = flap.length_m * (std::cos(flap.flare_angle_rad) * hinge.outward +
                                      std::sin(flap.flare_angle_rad) * Vec3{0, 0, 1});
  const Point outer = hinge.middle + reach;
  Facet facet = facet_from_corners({hinge.middle - 0.5 * hinge_width * hinge.along,
                                    outer - 0.5 * outer_width * hinge.along,
                                    outer + 0.5 * outer_width * hinge.along,
                                    hinge.middle + 0.5 * hinge_width * hinge.along});
  // Upright and flared panels alike must look at the mouth: up and inwards.
  const Vec3 inward = std::cos(flap.flare_angle_rad) * Vec3{0, 0, 1} -
                      std::sin(flap.flare_angle_rad) * hinge.outward;
  if (dot(facet.normal, inward) < 0.0) {
    std::reverse(facet.corner.begin(), facet.corner.end());
    facet.normal = -facet.normal;
  }
  facet.surface = -1;
  facet.reflectance = built.cleanliness * built.flap_set * flap.reflectance;
  facet.specular_share = 1.0;
  facet.scatter_rad = flap.scatter_rad;
  facet.ir_reflectance = 1.0 - flap.emittance;
  return facet;
}

std::vector<Facet> corner_facets(const OvenDesign& design) {
  std::vector<Facet> out;
  for (const Flap& first : design.flaps) {
    for (const Flap& second : design.flaps) {
      const int next_edge = (static_cast<int>(first.edge) + 1) % 4;
      if (static_cast<int>(second.edge) != next_edge) continue;
      // Edges run front, right, back, left: counter-clockwise seen from above, so the end of the
      // first hinge meets the start of the second.
      const Vec3 first_along = hinge_line(design, first.edge).along;
      const Vec3 second_along = hinge_line(design, second.edge).along;
      const auto end_of = [](const Facet& facet, const Vec3& along, bool far_end, bool outer) {
        const Point* best = nullptr;
        for (int k = 0; k < 4; ++k) {
          const Point& corner = facet.corner[static_cast<std::size_t>(k)];
          if ((corner.z > 1e-12) != outer) continue;
          if (best == nullptr || (dot(corner - *best, along) > 0.0) == far_end) best = &corner;
        }
        return best;
      };
      const Facet a = flap_facet(design, first);
      const Facet b = flap_facet(design, second);
      const Point* a_outer = end_of(a, first_along, true, true);
      const Point* b_outer = end_of(b, second_along, false, true);
      const Point* a_hinge = end_of(a, first_along, true, false);
      const Point* b_hinge = end_of(b, second_along, false, false);
      if (a_outer == nullptr || b_outer == nullptr) continue;  // laid flat: no gap to fill
      add_triangle(out, {*a_hinge, *b_outer, *a_outer}, design.corners, design.as_built);
      add_triangle(out, {*a_hinge, *b_hinge, *b_outer}, design.corners, design.as_built);
    }
  }
  for (Facet& facet : out) {
    Point middle;
    for (int k = 0; k < facet.corners; ++k) middle += facet.corner[static_cast<std::size_t>(k)];
    // The mouth's axis is on the inside of every corner panel.
    if (dot(facet.normal, Vec3{-middle.x, -middle.y, 0.0}) < 0.0) {
      std::swap(facet.corner[1], facet.corner[2]);
      facet.normal = -facet.normal;
    }
  }
  return out;
}

bool panels_cross(const Facet& a, const Facet& b) {
  const bool coplanar = base::norm(cross(a.normal, b.normal)) < 1e-6 &&
                        std::abs(dot(a.normal, b.corner[0] - a.corner[0])) < kTouch_m;
  std::vector<Vec3> axes;  // of the separating-axis theorem for convex polygons in space
  if (!coplanar) axes = {a.normal, b.normal};
  for (int i = 0; i < a.corners; ++i) {
    if (coplanar) axes.push_back(cross(a.normal, edge_of(a, i)));
    for (int k = 0; !coplanar && k < b.corners; ++k) {
      axes.push_back(cross(edge_of(a, i), edge_of(b, k)));
    }
  }
  for (int k = 0; coplanar && k < b.corners; ++k) axes.push_back(cross(b.normal, edge_of(b, k)));
  return std::none_of(axes.begin(), axes.end(), [&](const Vec3& axis) {
    const double length = base::norm(axis);
    return length > 1e-9 && apart_along(a, b, (1.0 / length) * axis);
  });
}
}  // namespace ovendays::oven
