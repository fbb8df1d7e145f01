// SPDX-License-Identifier: MIT
#include "ovendays/spot/plan_view.h"

#include <cmath>

#include "footprint.h"
#include "ovendays/base/constants.h"

namespace ovendays::spot {
namespace {
using base::Point;
using base::Vec3;
using Kind = PlanLine::Kind;

std::vector<Point> corners_of(const Footprint& footprint) {
  const Vec3 u = 0.5 * footprint.width_edge();
  const Vec3 v = 0.5 * footprint.depth_edge();
  const Point centre{footprint.x_m, footprint.y_m, 0.0};
  return {centre - u - v, centre + u - v, centre + u + v, centre - u + v};
}

std::vector<Point> circle(double x_m, double y_m, double radius_m) {
  constexpr int kCorners = 48;
  std::vector<Point> points;
  for (int i = 0; i < kCorners; ++i) {
    const double angle = base::kTwoPi * i / kCorners;
    points.push_back({x_m + radius_m * std::cos(angle), y_m + radius_m * std::sin(angle), 0.0});
  }
  return points;
}

std::vector<PlanLine> lines_of(const Overhang& o) {
  return {{Kind::kRoof, o.name, corners_of({o.x_m, o.y_m, o.width_m, o.depth_m, o.turn_rad})}};
}

std::vector<PlanLine> lines_of(const Block& b) {
  const Kind kind = b.base_m > 0.0 ? Kind::kRoof : Kind::kSolid;
  return {{kind, b.name, corners_of({b.x_m, b.y_m, b.width_m, b.depth_m, b.turn_rad})}};
}

std::vector<PlanLine> lines_of(const Wall& w) {
  return {{Kind::kWall, w.name, {{w.x1_m, w.y1_m, 0.0}, {w.x2_m, w.y2_m, 0.0}}}};
}

std::vector<PlanLine> lines_of(const Bay& b) {
  const Vec3 out{std::sin(b.facing_rad), std::cos(b.facing_rad), 0.0};
  const Vec3 half_left = 0.5 * b.width_m * Vec3{-out.y, out.x, 0.0};
  const Point front{b.x_m, b.y_m, 0.0};
  const Point back = front - b.depth_m * out;
  std::vector<PlanLine> lines = {
      {Kind::kRoof,
       b.name,
       {front - half_left, front + half_left, back + half_left, back - half_left}}};
  const auto wall = [&](bool stands, const Point& from, const Point& to) {
    if (stands) lines.push_back({Kind::kWall, b.name, {from, to}});
  };
  wall(b.left_wall, front + half_left, back + half_left);
  wall(b.right_wall, front - half_left, back - half_left);
  wall(b.back_wall, back - half_left, back + half_left);
  return lines;
}

std::vector<PlanLine> lines_of(const Tree& t) {
  std::vector<PlanLine> lines = {
      {Kind::kCrown, t.name, circle(t.x_m, t.y_m, 0.5 * t.crown_width_m)}};
  if (t.trunk_width_m > 0.0) {
    lines.push_back({Kind::kTrunk, t.name, circle(t.x_m, t.y_m, 0.5 * t.trunk_width_m)});
  }
  return lines;
}
}  // namespace

std::vector<PlanLine> plan_view(const Obstruction& obstruction) {
  return std::visit([](const auto& o) { return lines_of(o); }, obstruction);
}
}  // namespace ovendays::spot
