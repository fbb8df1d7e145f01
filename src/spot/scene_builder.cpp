// SPDX-License-Identifier: MIT

#include "scene_builder.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"

namespace ovendays::spot {
namespace {
using base::Point;
using base::Vec3;
}  // namespace

void SceneParts::Builder::rectangle(const Point& corner,
                                    const Vec3& u,
                                    const Vec3& v,
                                    double reflectance) {
  const double uu = base::dot(u, u);
  const double vv = base::dot(v, v);
  if (uu <= 0.0 || vv <= 0.0) return;  // for example the lintel of a bay that is open to its roof
  Facet facet;
  facet.corner = corner;
  facet.along_u = (1.0 / uu) * u;
  facet.along_v = (1.0 / vv) * v;
  facet.normal = base::normalized(base::cross(u, v));
  facet.offset_m = base::dot(facet.normal, corner);
  facet.reflectance = reflectance;
  scene.facets_.push_back(facet);
  for (const Point& p : {corner, corner + u, corner + v, corner + u + v}) corners.push_back(p);
}

void SceneParts::Builder::box(const Footprint& plan,
                              double base_m,
                              double top_m,
                              double reflectance) {
  const Vec3 u = plan.width_edge();
  const Vec3 v = plan.depth_edge();
  const Vec3 up{0.0, 0.0, top_m - base_m};
  const Point corner = Point{plan.x_m, plan.y_m, base_m} - 0.5 * (u + v);
  rectangle(corner, u, v, reflectance);
  rectangle(corner + up, u, v, reflectance);
  rectangle(corner, u, up, reflectance);
  rectangle(corner + v, u, up, reflectance);
  rectangle(corner, v, up, reflectance);
  rectangle(corner + u, v, up, reflectance);
}

void SceneParts::Builder::add(const Overhang& o) {
  box({o.x_m, o.y_m, o.width_m, o.depth_m, o.turn_rad},
      o.underside_m,
      o.underside_m + o.thickness_m,
      o.reflectance);
}

void SceneParts::Builder::add(const Block& b) {
  box({b.x_m, b.y_m, b.width_m, b.depth_m, b.turn_rad},
      b.base_m,
      b.base_m + b.height_m,
      b.reflectance);
}

void SceneParts::Builder::add(const Wall& w) {
  rectangle({w.x1_m, w.y1_m, w.base_m},
            {w.x2_m - w.x1_m, w.y2_m - w.y1_m, 0.0},
            {0.0, 0.0, w.top_m - w.base_m},
            w.reflectance);
}

// The panels of a bay are thin and block light from both sides, because the sun also reaches the
// mouth from behind a wall of the bay if that wall is missing or low.
void SceneParts::Builder::add(const Bay& b) {
  const Vec3 out{std::sin(b.facing_rad), std::cos(b.facing_rad), 0.0};
  const Vec3 left{-out.y, out.x, 0.0};
  const Point right_front = Point{b.x_m, b.y_m, 0.0} - 0.5 * b.width_m * left;
  const Vec3 across = b.width_m * left;
  const Vec3 inward = -b.depth_m * out;
  const Vec3 up{0.0, 0.0, b.height_m};
  const Vec3 to_lintel{0.0, 0.0, b.lintel_m};
  rectangle(right_front + up, across, inward, b.reflectance);
  rectangle(right_front + to_lintel, across, up - to_lintel, b.reflectance);
  if (b.left_wall) rectangle(right_front + across, inward, up, b.reflectance);
  if (b.right_wall) rectangle(right_front, inward, up, b.reflectance);
  if (b.back_wall) rectangle(right_front + inward, across, up, b.reflectance);
}

void SceneParts::Builder::add(const Tree& t) {
  Crown crown;
  const double middle_m = 0.5 * (t.crown_base_m + t.crown_top_m);
  const double half_height_m = 0.5 * (t.crown_top_m - t.crown_base_m);
  const double half_width_m = 0.5 * t.crown_width_m;
  crown.centre = {t.x_m, t.y_m, middle_m};
  crown.inverse_half = {1.0 / half_width_m, 1.0 / half_width_m, 1.0 / half_height_m};
  crown.ball = {crown.centre, std::max(half_width_m, half_height_m) * kBallMargin};
  crown.transmission = t.transmission;
  crown.reflectance = t.reflectance;
  scene.crowns_.push_back(crown);
  // The trunk is a square prism. Seen from all sides in turn a square of side s is 4 s / pi wide on
  // average; this mean is set equal to the diameter of the round trunk. The prism ends in the
  // middle of the crown.
  const double side_m = t.trunk_width_m * base::kPi / 4.0;
  if (side_m > 0.0) box({t.x_m, t.y_m, side_m, side_m, 0.0}, 0.0, middle_m, t.reflectance);
}

// The centre of the ball is that of the corners' axis-parallel bounding box. The ball is not the
// smallest possible one, but for these shapes it is larger by a few per cent only.
void SceneParts::Builder::close(std::size_t first) {
  const std::size_t count = scene.facets_.size() - first;
  if (count == 0) return;
  Point low = corners.front();
  Point high = corners.front();
  for (const Point& p : corners) {
    low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
  }
  const Point centre = 0.5 * (low + high);
  double radius = 0.0;
  for (const Point& p : corners) radius = std::max(radius, base::norm(p - centre));
  scene.solids_.push_back({{centre, radius * kBallMargin}, first, count});
  corners.clear();
}

SceneParts::SceneParts(const Spot& spot) : spot_(spot) {
  Builder builder{*this, {}};
  for (const Obstruction& obstruction : spot_.obstructions) {
    const std::size_t first = facets_.size();
    std::visit([&builder](const auto& shape) { builder.add(shape); }, obstruction);
    builder.close(first);
  }
  // The horizon is interpolated linearly, so that no direction is higher than the highest point.
  for (const double elevation_rad : spot_.horizon.elevation_rad)
    highest_hill_sine_ = std::max(highest_hill_sine_, std::sin(elevation_rad));
}
}  // namespace ovendays::spot
