// SPDX-License-Identifier: MIT
// Where the oven stands and what stands around it. Plan coordinates in metres: x east, y north, z
// up from the ground under the oven's reference point. All solids block light and infrared alike.
#pragma once

#include <array>
#include <string>
#include <variant>
#include <vector>

#include "ovendays/base/case_node.h"
#include "ovendays/base/vec.h"

namespace ovendays::spot {

/// A flat roof or overhang: a horizontal slab. Edges along its own axes, turned by `turn_rad`
/// clockwise seen from above.
struct Overhang {
  std::string name;
  double x_m = 0, y_m = 0;          ///< centre
  double width_m = 4, depth_m = 1;  ///< along own x and own y
  double turn_rad = 0;
  double underside_m = 2.4;  ///< height of the underside
  double thickness_m = 0.2;
  double reflectance = 0.5;  ///< diffuse, of the underside
};

/// An open bay: a garage or carport. Floor plan `width` x `depth`; the opening is the side that
/// faces `facing_rad`; a lintel closes the opening above `lintel_m`; roof at `height_m`; side and
/// back walls.
struct Bay {
  std::string name;
  double x_m = 0, y_m = 0;                ///< middle of the opening, on the ground
  double facing_rad = 3.141592653589793;  ///< azimuth towards which the opening looks
  double width_m = 2.7, depth_m = 6;
  double lintel_m = 2.1, height_m = 2.4;
  bool left_wall = true, right_wall = true,
       back_wall = true;  ///< left and right as seen looking OUT
  double reflectance = 0.4;
};

/// A thin upright wall from (x1,y1) to (x2,y2), from `base_m` to `top_m`.
struct Wall {
  std::string name;
  double x1_m = 0, y1_m = 0, x2_m = 0, y2_m = 0;
  double base_m = 0, top_m = 2;
  double reflectance = 0.4;
};

/// A box-shaped building: footprint centre, sizes along its own axes, turned clockwise.
struct Block {
  std::string name;
  double x_m = 0, y_m = 0;
  double width_m = 5, depth_m = 5, height_m = 3, base_m = 0;
  double turn_rad = 0;
  double reflectance = 0.3;
};

/// A tree: an ellipsoid crown on a trunk (the trunk is a thin vertical cylinder).
struct Tree {
  std::string name;
  double x_m = 0, y_m = 0;
  double crown_base_m = 2, crown_top_m = 6, crown_width_m = 4;
  double trunk_width_m = 0.3;
  std::array<double, 12> transmission{};  ///< share of light through the crown, by month, 0..1
  double reflectance = 0.2;
};

using Obstruction = std::variant<Overhang, Bay, Wall, Block, Tree>;

/// Far horizon: elevation [rad] at azimuths, linear between, periodic. Empty: flat.
struct Horizon {
  std::vector<double> azimuth_rad;  ///< ascending, 0..2 pi
  std::vector<double> elevation_rad;
  [[nodiscard]] double at(double azimuth_rad) const;
};

struct Spot {
  std::string name = "open ground";
  base::Point mouth{0.0, 0.0, 0.9};  ///< centre of the oven's mouth [m]
  std::vector<Obstruction> obstructions;
  Horizon horizon;
  double wind_factor =
      1.0;  ///< wind at the oven over wind at 10 m, shelter included; see read_spot
  bool roofed =
      false;  ///< rain does not reach the oven; true also where an overhang or bay covers the mouth
};

inline constexpr int kMostObstructions = 2000;

/// Reads [spot] with [[spot.overhang]], [[spot.bay]], [[spot.wall]], [[spot.block]], [[spot.tree]],
/// [spot.horizon] (arrays azimuth and elevation, or file = "x.csv" in the CSV form that the EU
/// service prints). Faults are recorded in the node's file.
Spot read_spot(const base::CaseNode& node);

/// The far horizon from the EU service's CSV (azimuth there from south or north as its header
/// says).
/// @throws base::InputError
Horizon read_horizon_csv(const std::string& file);
}  // namespace ovendays::spot
