// SPDX-License-Identifier: MIT
#include "ovendays/spot/siting.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "footprint.h"
#include "ovendays/spot/plan_view.h"
#include "ovendays/spot/scene.h"

namespace ovendays::spot {
namespace {
using base::Point;

constexpr double kFar_m = std::numeric_limits<double>::infinity();

// Distance in plan from p to the line segment from a to b.
double to_segment_m(const Point& p, const Point& a, const Point& b) {
  const double length2 = (b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y);
  const double along = ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / length2;
  const double share = std::clamp(along, 0.0, 1.0);
  return std::hypot(p.x - a.x - share * (b.x - a.x), p.y - a.y - share * (b.y - a.y));
}

// Clearance from one obstruction, one function for each kind.
double clearance_from_m(const Overhang& o, const Point& p) {
  if (o.underside_m >= p.z) return kFar_m;
  return Footprint{o.x_m, o.y_m, o.width_m, o.depth_m, o.turn_rad}.distance_m(p);
}

double clearance_from_m(const Block& b, const Point& p) {
  if (b.base_m >= p.z) return kFar_m;
  return Footprint{b.x_m, b.y_m, b.width_m, b.depth_m, b.turn_rad}.distance_m(p);
}

double clearance_from_m(const Wall& w, const Point& p) {
  if (w.base_m >= p.z) return kFar_m;
  return to_segment_m(p, {w.x1_m, w.y1_m, 0.0}, {w.x2_m, w.y2_m, 0.0});
}

double clearance_from_m(const Bay& b, const Point& p) {
  double clearance = kFar_m;
  for (const PlanLine& line : plan_view(b)) {
    // The first side of the roof's outline is the opening, which the lintel closes if the mouth is
    // higher.
    const bool closed = line.kind == PlanLine::Kind::kWall || b.lintel_m < p.z;
    if (closed) clearance = std::min(clearance, to_segment_m(p, line.points[0], line.points[1]));
  }
  if (b.height_m >= p.z) return clearance;
  const double half_m = 0.5 * b.depth_m;
  const Footprint plan{b.x_m - half_m * std::sin(b.facing_rad),
                       b.y_m - half_m * std::cos(b.facing_rad),
                       b.width_m,
                       b.depth_m,
                       b.facing_rad};
  return std::min(clearance, plan.distance_m(p));
}

double clearance_from_m(const Tree& t, const Point& p) {
  if (inside_crown(t, p)) return 0.0;
  if (t.trunk_width_m <= 0.0) return kFar_m;
  return std::max(0.0, std::hypot(p.x - t.x_m, p.y - t.y_m) - 0.5 * t.trunk_width_m);
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

double clearance_m(const Spot& spot, const base::Point& mouth) {
  double clearance = kFar_m;
  for (const Obstruction& obstruction : spot.obstructions) {
    clearance = std::min(
        clearance,
        std::visit([&](const auto& o) { return clearance_from_m(o, mouth); }, obstruction));
  }
  return clearance;
}
}  // namespace ovendays::spot
