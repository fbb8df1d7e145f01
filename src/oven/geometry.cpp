// SPDX-License-Identifier: MIT
#include "ovendays/oven/geometry.h"

#include <algorithm>
#include <cmath>

#include "flap_panels.h"
#include "ovendays/base/constants.h"

namespace ovendays::oven {
namespace {
using base::Point;
using base::Vec3;

struct Finish {
  int surface = kLiner;
  double reflectance = 0.0;
  double specular_share = 0.0;
  double ir_reflectance = 0.0;
};

// Box coordinates (x right, y back, z up, origin in the middle of the floor) to the mouth frame.
struct BoxFrame {
  double slope_rad = 0.0;
  double centre_height_m = 0.0;

  explicit BoxFrame(const Box& box)
      : slope_rad(box.glazing_slope_rad),
        centre_height_m(box.inner_height_m +
                        0.5 * box.inner_depth_m * std::tan(box.glazing_slope_rad)) {}
  [[nodiscard]] Vec3 turned(const Vec3& v) const {
    const double c = std::cos(slope_rad);
    const double s = std::sin(slope_rad);
    return {v.x, c * v.y + s * v.z, -s * v.y + c * v.z};
  }
  [[nodiscard]] Point mouth(double x, double y, double z) const {
    return turned({x, y, z - centre_height_m});
  }
};

struct Rectangle {  // level, in box coordinates, around the middle of the floor
  double half_width_m = 0.0;
  double half_depth_m = 0.0;
  double height_m = 0.0;
};

class Cavity {
 public:
  explicit Cavity(const OvenDesign& design) : design_(design), frame_(design.box) {}

  void add_box(OvenGeometry& out) const {
    const Box& box = design_.box;
    const double w = 0.5 * box.inner_width_m;
    const double d = 0.5 * box.inner_depth_m;
    const double front = box.inner_height_m;
    const double back = front + box.inner_depth_m * std::tan(box.glazing_slope_rad);
    const auto at = [&](double x, double y, double z) { return frame_.mouth(x, y, z); };
    const std::array<Point, 4> low{at(-w, -d, 0), at(w, -d, 0), at(w, d, 0), at(-w, d, 0)};
    const std::array<Point, 4> high{
        at(-w, -d, front), at(w, -d, front), at(w, d, back), at(-w, d, back)};
    add(out, {low[0], low[1], low[2], low[3]}, liner());
    for (std::size_t i = 0; i < 4; ++i) {
      const std::size_t k = (i + 1) % 4;
      add(out, {low[k], low[i], high[i], high[k]}, liner());
    }
    if (box.frame_m > 0.0) add_rim(out, high);
  }

  void add_tray(OvenGeometry& out, const Tray& tray) const {
    const Finish finish{kTray, 1.0 - tray.absorptance, 0.0, 1.0 - tray.emittance};
    const Rectangle plate{0.5 * tray.width_m, 0.5 * tray.depth_m, tray.height_m};
    add(out, level(plate, true), finish);
    add(out, level(plate, false), finish);
  }

  void add_pan(OvenGeometry& out, const Vessel& vessel, double stand_m) const {
    const Finish metal{kVessel, 1.0 - vessel.absorptance, 0.0, 1.0 - vessel.emittance};
    const Finish lid{kVesselTop, metal.reflectance, 0.0, metal.ir_reflectance};
    const Finish food{kVesselTop, 1.0 - kFoodAbsorptance, 0.0, 1.0 - kFoodEmittance};
    const Rectangle foot{0.5 * vessel.width_m, 0.5 * vessel.depth_m, stand_m};
    const Rectangle top{foot.half_width_m, foot.half_depth_m, stand_m + vessel.height_m};
    const std::vector<Point> low = level(foot, true);
    const std::vector<Point> high = level(top, true);
    for (std::size_t i = 0; i < 4; ++i) {
      const std::size_t k = (i + 1) % 4;
      add(out, {low[i], low[k], high[k], high[i]}, metal);
    }
    add(out, high, vessel.lid ? lid : food);
  }

  void add_pot(OvenGeometry& out, const Vessel& vessel, double stand_m) const {
    Cylinder pot;
    pot.base_centre = frame_.mouth(0.0, 0.0, stand_m);
    pot.axis = frame_.turned({0, 0, 1});
    pot.radius_m = 0.5 * vessel.diameter_m;
    pot.height_m = vessel.height_m;
    pot.reflectance = 1.0 - vessel.absorptance;
    pot.ir_reflectance = 1.0 - vessel.emittance;
    pot.top_reflectance = vessel.lid ? pot.reflectance : 1.0 - kFoodAbsorptance;
    pot.top_ir_reflectance = vessel.lid ? pot.ir_reflectance : 1.0 - kFoodEmittance;
    const double disc = base::kPi * pot.radius_m * pot.radius_m;
    out.area_m2[kVessel] += base::kTwoPi * pot.radius_m * pot.height_m;
    out.area_m2[static_cast<std::size_t>(pot.top_surface)] += disc;
    out.pot = pot;
  }

 private:
  [[nodiscard]] Finish liner() const {
    const Liner& facing = design_.liner;
    return {kLiner, 1.0 - facing.absorptance, facing.specular_share, 1.0 - facing.emittance};
  }

  [[nodiscard]] std::vector<Point> level(const Rectangle& r, bool faces_up) const {
    std::vector<Point> corners{frame_.mouth(-r.half_width_m, -r.half_depth_m, r.height_m),
                               frame_.mouth(r.half_width_m, -r.half_depth_m, r.height_m),
                               frame_.mouth(r.half_width_m, r.half_depth_m, r.height_m),
                               frame_.mouth(-r.half_width_m, r.half_depth_m, r.height_m)};
    if (!faces_up) std::reverse(corners.begin(), corners.end());
    return corners;
  }

  // The rim narrows the opening: four trapezoids between the box's edge and the glass.
  void add_rim(OvenGeometry& out, const std::array<Point, 4>& box_edge) const {
    const double gw = out.glass_half_width_m;
    const double gl = out.glass_half_length_m;
    const std::array<Point, 4> glass{
        Point{-gw, -gl, 0}, Point{gw, -gl, 0}, Point{gw, gl, 0}, Point{-gw, gl, 0}};
    for (std::size_t i = 0; i < 4; ++i) {
      const std::size_t k = (i + 1) % 4;
      add(out, {box_edge[i], glass[i], glass[k], box_edge[k]}, liner());
    }
  }

  static void add(OvenGeometry& out, const std::vector<Point>& corners, const Finish& finish) {
    Facet facet = facet_from_corners(corners);
    facet.surface = finish.surface;
    facet.reflectance = finish.reflectance;
    facet.specular_share = finish.specular_share;
    facet.ir_reflectance = finish.ir_reflectance;
    out.area_m2[static_cast<std::size_t>(finish.surface)] += facet.area_m2();
    out.cavity.push_back(facet);
  }

  const OvenDesign& design_;
  BoxFrame frame_;
};

void add_mouth_extents(OvenGeometry& out) {
  double x = out.glass_half_width_m;
  double x_low = -x;
  double y = out.glass_half_length_m;
  double y_low = -y;
  double z = 0.0;
  double radius = std::hypot(x, y);
  for (const Facet& flap : out.flaps) {
    for (int i = 0; i < flap.corners; ++i) {
      const Point& corner = flap.corner[static_cast<std::size_t>(i)];
      x = std::max(x, corner.x);
      x_low = std::min(x_low, corner.x);
      y = std::max(y, corner.y);
      y_low = std::min(y_low, corner.y);
      z = std::max(z, corner.z);
      radius = std::max(radius, base::norm(corner));
    }
  }
  out.mouth_width_m = x - x_low;
  out.mouth_length_m = y - y_low;
  out.mouth_height_m = z;
  out.mouth_radius_m = radius;
}

void stand_vessel(OvenGeometry& out, const OvenDesign& design, const Vessel& vessel) {
  const Cavity cavity(design);
  const double stand_m = design.tray ? design.tray->height_m : 0.0;
  double footprint_m2 = 0.0;
  if (vessel.kind == VesselKind::kPot) {
    cavity.add_pot(out, vessel, stand_m);
    footprint_m2 = base::kPi * 0.25 * vessel.diameter_m * vessel.diameter_m;
  } else {
    cavity.add_pan(out, vessel, stand_m);
    footprint_m2 = vessel.width_m * vessel.depth_m;
  }
  out.area_m2[design.tray ? kTray : kLiner] -= footprint_m2;
}
}  // namespace

double Facet::area_m2() const {
  Vec3 sum;
  for (int i = 1; i + 1 < corners; ++i) {
    const auto k = static_cast<std::size_t>(i);
    sum += base::cross(corner[k] - corner[0], corner[k + 1] - corner[0]);
  }
  return 0.5 * base::norm(sum);
}

OvenGeometry build_geometry(const OvenDesign& design, const Vessel* vessel, bool flaps_stowed) {
  OvenGeometry out;
  out.glass_half_width_m = 0.5 * design.glass_width_m();
  out.glass_half_length_m = 0.5 * design.glass_length_m();
  if (!flaps_stowed) {
    for (const Flap& flap : design.flaps) out.flaps.push_back(flap_facet(design, flap));
    if (design.corners.present) {
      const std::vector<Facet> corners = corner_facets(design);
      out.flaps.insert(out.flaps.end(), corners.begin(), corners.end());
    }
  }
  const Cavity cavity(design);
  cavity.add_box(out);
  if (design.tray) cavity.add_tray(out, *design.tray);
  if (vessel != nullptr) stand_vessel(out, design, *vessel);
  const double opening_m2 = 4.0 * out.glass_half_width_m * out.glass_half_length_m;
  for (std::size_t i = 0; i < design.panes.size(); ++i) out.area_m2[i] = opening_m2;
  add_mouth_extents(out);
  return out;
}

base::Frame mouth_frame(const base::Point& centre, double azimuth_rad, double glazing_tilt_rad) {
  const double sa = std::sin(azimuth_rad);
  const double ca = std::cos(azimuth_rad);
  const double st = std::sin(glazing_tilt_rad);
  const double ct = std::cos(glazing_tilt_rad);
  base::Frame frame;
  frame.origin = centre;
  frame.x = {-ca, sa, 0.0};
  frame.y = {-sa * ct, -ca * ct, st};
  frame.z = {sa * st, ca * st, ct};
  return frame;
}
}  // namespace ovendays::oven
