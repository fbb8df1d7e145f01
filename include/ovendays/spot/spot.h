// SPDX-License-Identifier: MIT
// Where the oven stands and what stands around it. Plan coordinates in metres: x east, y north, z
// up from the ground under the oven's reference point. All solids block light and infrared alike.
#pragma once

#include <array>
#include <optional>
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
  bool operator==(const Overhang&) const = default;
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
  bool left_wall = true, right_wall = true, back_wall = true;  ///< left, right: looking OUT
  double reflectance = 0.4;
  bool operator==(const Bay&) const = default;
};

/// A thin upright wall from (x1,y1) to (x2,y2), from `base_m` to `top_m`.
struct Wall {
  std::string name;
  double x1_m = 0, y1_m = 0, x2_m = 0, y2_m = 0;
  double base_m = 0, top_m = 2;
  double reflectance = 0.4;
  bool operator==(const Wall&) const = default;
};

/// A box-shaped building: footprint centre, sizes along its own axes, turned clockwise.
struct Block {
  std::string name;
  double x_m = 0, y_m = 0;
  double width_m = 5, depth_m = 5;
  double height_m = 3;  ///< from its base to its top
  double base_m = 0;    ///< height of its base above the ground
  double turn_rad = 0;
  double reflectance = 0.3;
  bool operator==(const Block&) const = default;
};

/// A tree: an ellipsoid crown on an opaque trunk, round in the mean over all sides.
struct Tree {
  std::string name;
  double x_m = 0, y_m = 0;
  double crown_base_m = 2, crown_top_m = 6, crown_width_m = 4;
  double trunk_width_m = 0.3;
  std::array<double, 12> transmission{};  ///< share of light through the crown, by month, 0..1
  double reflectance = 0.2;
  bool operator==(const Tree&) const = default;
};

using Obstruction = std::variant<Overhang, Bay, Wall, Block, Tree>;

/// Far horizon: elevation [rad] at azimuths, linear between, periodic. Empty: flat.
struct Horizon {
  std::vector<double> azimuth_rad;  ///< ascending, 0..2 pi
  std::vector<double> elevation_rad;
  /// Elevation [rad] at any azimuth [rad]; 0 where the table is empty.
  [[nodiscard]] double at(double azimuth) const;
  bool operator==(const Horizon&) const = default;
};

/// What the wind has crossed.
enum class Terrain { kOpen = 0, kSuburban = 1, kCity = 2 };

struct Spot {
  std::string name = "open ground";
  base::Point mouth{0.0, 0.0, 0.9};  ///< centre of the oven's mouth [m]
  std::vector<Obstruction> obstructions;
  Horizon horizon;
  double wind_factor = 1.0;  ///< wind at the oven over wind at 10 m in the open, shelter included
  bool roofed = false;       ///< rain does not reach the oven
  // What wind_factor and roofed were made from, for other places in the same surroundings.
  Terrain terrain = Terrain::kSuburban;
  std::optional<double> stated_shelter;  ///< 0..1; nullopt: worked out from the surroundings
  std::optional<bool> stated_roofed;     ///< nullopt: worked out
  bool operator==(const Spot&) const = default;
};

inline constexpr int kMostObstructions = 2000;

/// Reads [spot]: name, x, y, height (of the mouth), terrain, shelter, roofed; with
/// [[spot.overhang]], [[spot.bay]], [[spot.wall]], [[spot.block]], [[spot.tree]], whose keys are
/// the members above without their units; and [spot.horizon] (arrays azimuth and elevation, or file
/// = "x.csv" in the CSV form that the EU service prints). Every quantity may carry its unit.
///
/// `terrain` open, suburban or city sets the wind profile (see wind_profile_factor). `shelter` 0..1
/// is the share of that wind which the surroundings keep off; where absent it is 1 minus
/// Scene::shelter_factor. `roofed` is, where absent, whether a solid stands above the mouth.
/// Faults (a mouth inside a solid, a top below its base, no extent, more than kMostObstructions)
/// are recorded in the node's file, and reading goes on.
Spot read_spot(const base::CaseNode& node);

/// Wind speed at a height over that at 10 m in open country [1]:
/// (270/10)^0.14 (height/delta)^a, with layer thickness delta and exponent a by terrain: open 270 m
/// 0.14, suburban 370 m 0.22, city 460 m 0.33. ASHRAE Handbook of Fundamentals, chapter on airflow
/// around buildings (figures from memory). The power law is meant for heights of metres and more;
/// below, it is an extrapolation.
/// @param height_m > 0
double wind_profile_factor(Terrain terrain, double height_m);

/// The far horizon from the EU service's CSV: a table whose first two columns are headed A [deg]
/// and H_hor [deg], comma, tab, semicolon or spaces between; the sun-path columns beside it and all
/// other lines are skipped. A counts from south, west positive, unless a line such as
/// "A: Azimuth (0 = N" says north.
/// @throws base::InputError with the line
Horizon read_horizon_csv(const std::string& file);

/// A commented [spot] to start from: a carport open to the south, a wall and a tree (invented).
const char* example_spot_toml();
}  // namespace ovendays::spot
