// SPDX-License-Identifier: MIT
#include "ovendays/spot/standing.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "footprint.h"
#include "ovendays/spot/plan.h"
#include "ovendays/spot/scene.h"

namespace ovendays::spot {
namespace {
using base::Point;

constexpr double kFar_m = std::numeric_limits<double>::infinity();

// To a wall from a to b, in plan.
double to_segment_m(const Point& p, const Point& a, const Point& b) {
  const double length2 = (b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y);
  const double along = ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / length2;
  const double share = std::clamp(along, 0.0, 1.0);
  return std::hypot(p.x - a.x - share * (b.x - a.x), p.y - a.y - share * (b.y - a.y));
}

double room_m(const Overhang& o, const Point& p) {
  if (o.underside_m >= p.z) return kFar_m;
  return Footprint{o.x_m, o.y_m, o.width_m, o.depth_m, o.turn_rad}.distance_m(p);
}

double room_m(const Block& b, const Point& p) {
  if (b.base_m >= p.z) return kFar_m;
  return Footprint{b.x_m, b.y_m, b.width_m, b.depth_m, b.turn_rad}.distance_m(p);
}

double room_m(const Wall& w, const Point& p) {
  if (w.base_m >= p.z) return kFar_m;
  return to_segment_m(p, {w.x1_m, w.y1_m, 0.0}, {w.x2_m, w.y2_m, 0.0});
}

double room_m(const Bay& b, const Point& p) {
  double room = kFar_m;
  for (const PlanLine& line : plan_of(b)) {
    // The roof's first edge is the opening's, closed to a mouth above the lintel.
    const bool shut = line.kind == PlanLine::Kind::kWall || b.lintel_m < p.z;
    if (shut) room = std::min(room, to_segment_m(p, line.points[0], line.points[1]));
  }
  if (b.height_m >= p.z) return room;
  const double half_m = 0.5 * b.depth_m;
  const Footprint plan{b.x_m - half_m * std::sin(b.facing_rad),
                       b.y_m - half_m * std::cos(b.facing_rad),
                       b.width_m,
                       b.depth_m,
                       b.facing_rad};
  return std::min(room, plan.distance_m(p));
}

double room_m(const Tree& t, const Point& p) {
  const double aside_m = std::hypot(p.x - t.x_m, p.y - t.y_m);
  const double middle_m = 0.5 * (t.crown_base_m + t.crown_top_m);
  const double across = aside_m / (0.5 * t.crown_width_m);
  const double up = (p.z - middle_m) / (0.5 * (t.crown_top_m - t.crown_base_m));
  if (across * across + up * up < 1.0) return 0.0;
  if (t.trunk_width_m <= 0.0) return kFar_m;
  return std::max(0.0, aside_m - 0.5 * t.trunk_width_m);
}
}  // namespace

Spot moved_to(const Spot& spot, const base::Point& mouth) {
  Spot moved = spot;
  moved.mouth = mouth;
  const Scene scene(moved);
  const double sheltered =
      moved.stated_shelter ? 1.0 - *moved.stated_shelter : scene.shelter_factor();
  moved.wind_factor = wind_profile_factor(moved.terrain, mouth.z) * sheltered;
  moved.roofed = moved.stated_roofed.value_or(scene.covered(mouth));
  return moved;
}

double room_to_stand_m(const Spot& spot, const base::Point& mouth) {
  double room = kFar_m;
  for (const Obstruction& obstruction : spot.obstructions) {
    room = std::min(room, std::visit([&](const auto& o) { return room_m(o, mouth); }, obstruction));
  }
  return room;
}
}  // namespace ovendays::spot
