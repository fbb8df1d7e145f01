// SPDX-License-Identifier: MIT
// The oven's surfaces as flat polygons and a cylinder, for the ray tracer and the pictures. All in
// the MOUTH FRAME: origin at the glazing's centre, x to the right, y up the slope (towards the
// back), z the glazing's outward normal.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "ovendays/base/vec.h"
#include "ovendays/oven/design.h"

namespace ovendays::oven {

/// Surfaces that absorb, with fixed places in every array. Panes from the outside in.
enum SurfaceId : int {
  kPane0 = 0,
  kPane1 = 1,
  kPane2 = 2,
  kLiner = 3,
  kTray = 4,
  kVessel = 5,
  kVesselTop = 6  ///< the lid, or the food's surface where the vessel has no lid
};
inline constexpr int kSurfaces = 7;

/// A flat convex polygon, corners counter-clockwise seen from the side the normal points to.
struct Facet {
  std::array<base::Point, 4> corner{};
  int corners = 4;
  base::Direction normal;
  int surface = kLiner;         ///< SurfaceId, or -1 for flaps (what they absorb heats no node)
  double reflectance = 0.0;     ///< solar, of the side the normal points to
  double specular_share = 0.0;  ///< of the reflected light
  double scatter_rad = 0.0;     ///< of the specular part
  double ir_reflectance = 0.0;
  [[nodiscard]] double area_m2() const;
  bool operator==(const Facet&) const = default;
};

/// An upright pot: axis along the floor's normal.
struct Cylinder {
  base::Point base_centre;
  base::Direction axis;  ///< unit, from base to top
  double radius_m = 0.1;
  double height_m = 0.1;
  double reflectance = 0.08;
  double ir_reflectance = 0.1;
  int side_surface = kVessel;
  int top_surface = kVesselTop;
  double top_reflectance = 0.08;
  double top_ir_reflectance = 0.1;
  bool operator==(const Cylinder&) const = default;
};

struct OvenGeometry {
  double glass_half_width_m = 0.2;   ///< along x
  double glass_half_length_m = 0.2;  ///< along y
  std::vector<Facet> flaps;   ///< flaps and corner panels, normals towards the mouth (inside)
  std::vector<Facet> cavity;  ///< liner walls, floor, rim, tray, pan: normals into the cavity
  std::optional<Cylinder> pot;
  double mouth_width_m = 0.4;  ///< of the rim of flaps seen along the normal
  double mouth_length_m = 0.4;
  double mouth_height_m = 0.0;  ///< z of the rim's highest point
  double mouth_radius_m = 0.3;  ///< of a sphere around the origin that encloses glass and flaps
  std::array<double, kSurfaces>
      area_m2{};  ///< exposed inside area of each surface (panes: the opening)
  bool operator==(const OvenGeometry&) const = default;
};

/// Solar reflectance of food that stands open in a vessel (dough, broth): 1 - absorptance.
inline constexpr double kFoodAbsorptance = 0.75;
inline constexpr double kFoodEmittance = 0.95;

/// @param vessel nullptr for the empty oven; @param flaps_stowed leaves the flaps out
/// The pot or pan stands in the middle of the tray (of the floor where there is no tray).
OvenGeometry build_geometry(const OvenDesign& design, const Vessel* vessel, bool flaps_stowed);

/// The mouth frame in world axes for a facing azimuth [rad] and a glazing tilt from horizontal
/// [rad]: z = outward normal towards the azimuth, x = to the right seen from the front looking at
/// the oven.
base::Frame mouth_frame(const base::Point& centre, double azimuth_rad, double glazing_tilt_rad);
}  // namespace ovendays::oven
