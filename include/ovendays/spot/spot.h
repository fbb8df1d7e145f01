// SPDX-License-Identifier: MIT
// The spot: the position of the oven and the obstructions around it. Coordinates in metres: x east,
// y north, z up from the ground under a reference point. Azimuths and turns run clockwise, azimuths
// from north. All solids block light and infrared alike.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "ovendays/base/case_node.h"
#include "ovendays/base/vec.h"

namespace ovendays::spot {

/// A flat roof or overhang: a horizontal slab.
struct Overhang {
  std::string name;
  double x_m = 0, y_m = 0;          ///< centre
  double width_m = 4, depth_m = 1;  ///< along its own x and y axes
  double turn_rad = 0;              ///< of these axes, clockwise seen from above
  double underside_m = 2.4;         ///< height of the underside
  double thickness_m = 0.2;
  double reflectance = 0.5;  ///< diffuse, of the underside
  bool operator==(const Overhang&) const = default;
};

/// An open bay: a garage or carport with a flat roof. A lintel closes the opening above `lintel_m`.
/// Every wall may be missing.
struct Bay {
  std::string name;
  double x_m = 0, y_m = 0;                ///< middle of the opening, on the ground
  double facing_rad = 3.141592653589793;  ///< azimuth that the opening faces
  double width_m = 2.7, depth_m = 6;      ///< of the floor plan
  double lintel_m = 2.1;                  ///< height of the opening
  double height_m = 2.4;                  ///< height of the roof
  bool left_wall = true, right_wall = true, back_wall = true;  ///< left and right looking OUT
  double reflectance = 0.4;                                    ///< diffuse
  bool operator==(const Bay&) const = default;
};

/// A thin vertical wall from (x1, y1) to (x2, y2).
struct Wall {
  std::string name;
  double x1_m = 0, y1_m = 0, x2_m = 0, y2_m = 0;
  double base_m = 0, top_m = 2;  ///< heights of its lower and upper edge
  double reflectance = 0.4;
  bool operator==(const Wall&) const = default;
};

/// A box-shaped building.
struct Block {
  std::string name;
  double x_m = 0, y_m = 0;          ///< centre of the footprint
  double width_m = 5, depth_m = 5;  ///< along its own x and y axes
  double height_m = 3;              ///< from its base to its top
  double base_m = 0;                ///< height of its base above the ground
  double turn_rad = 0;              ///< of its axes, clockwise seen from above
  double reflectance = 0.3;
  bool operator==(const Block&) const = default;
};

/// A tree: an ellipsoidal crown that transmits part of the light, on an opaque trunk. The trunk is
/// a square prism with the mean width of the round one.
struct Tree {
  std::string name;
  double x_m = 0, y_m = 0;
  double crown_base_m = 2, crown_top_m = 6;  ///< heights
  double crown_width_m = 4;
  double trunk_width_m = 0.3;             ///< 0: no trunk
  std::array<double, 12> transmission{};  ///< of the crown, January to December, 0..1
  double reflectance = 0.2;
  bool operator==(const Tree&) const = default;
};

using Obstruction = std::variant<Overhang, Bay, Wall, Block, Tree>;

/// The far horizon: elevations at azimuths, interpolated linearly and periodically. An empty table
/// is a flat horizon.
struct Horizon {
  std::vector<double> azimuth_rad;  ///< ascending, 0..2 pi
  std::vector<double> elevation_rad;
  /// Interpolated elevation [rad]; 0 if the table is empty.
  /// @param azimuth [rad] any value
  [[nodiscard]] double at(double azimuth) const;
  bool operator==(const Horizon&) const = default;
};

/// The terrain that the wind has crossed, which determines the wind profile.
enum class Terrain { kOpen = 0, kSuburban = 1, kCity = 2 };

/// The position of the oven with its surroundings.
struct Spot {
  std::string name = "open ground";
  base::Point mouth{0.0, 0.0, 0.9};  ///< centre of the oven's mouth [m]
  std::vector<Obstruction> obstructions;
  Horizon horizon;
  double wind_factor = 1.0;  ///< wind at the oven over wind at 10 m in the open, including shelter
  bool roofed = false;       ///< rain does not reach the oven
  // The input of wind_factor and roofed, so that moved_to() can recompute them.
  Terrain terrain = Terrain::kSuburban;
  std::optional<double> stated_shelter;  ///< 0..1; nullopt: computed from the surroundings
  std::optional<bool> stated_roofed;     ///< nullopt: computed from the surroundings
  bool operator==(const Spot&) const = default;
};

/// Largest number of obstructions in a case.
inline constexpr int kMostObstructions = 2000;

/// Reads the table [spot]. Keys: name, x, y, height (of the mouth), terrain, shelter, roofed; the
/// arrays [[spot.overhang]], [[spot.bay]], [[spot.wall]], [[spot.block]] and [[spot.tree]], whose
/// keys are the members above without their units; and [spot.horizon], with either the lists
/// azimuth and elevation or file = "x.csv" (see read_horizon_csv()). Every quantity may have a
/// unit.
///
/// `terrain` is "open", "suburban" or "city" and selects the wind profile, see
/// wind_profile_factor(). `shelter`, 0..1, is the share of that wind that the surroundings keep
/// off; the default is 1 minus Scene::shelter_factor(). `roofed` defaults to whether a solid is
/// above the mouth. Faults (a mouth inside a solid, a top below its base, a size of zero, more than
/// kMostObstructions) are recorded in the node's file, and reading continues. Throws nothing
/// itself.
Spot read_spot(const base::CaseNode& node);

/// Wind speed at a height over wind speed at 10 m in open country [1]:
/// (270/10)^0.14 (height/delta)^a, with the boundary layer thickness delta and exponent a of the
/// terrain: 270 m and 0.14 (open), 370 m and 0.22 (suburban), 460 m and 0.33 (city). ASHRAE
/// Handbook of Fundamentals, chapter on airflow around buildings (figures from memory). The power
/// law is meant for heights of metres and more; below, it is an extrapolation.
/// @param height_m above 0, checked
double wind_profile_factor(Terrain terrain, double height_m);

/// Reads the far horizon from a CSV file of the EU service: a table whose first two columns are
/// headed A [deg] and H_hor [deg], separated by commas, tabs, semicolons or spaces. All other
/// columns and lines are skipped. A counts from south, positive to the west, unless a line such as
/// "A: Azimuth (0 = N" states that it counts from north.
/// @throws base::InputError with the line
Horizon read_horizon_csv(const std::string& file);
/// The same for text in memory.
/// @param file the name to use in messages
Horizon read_horizon_csv_text(std::string_view text, const std::string& file);
/// The largest horizon file that is read [bytes]; a table of one row a degree takes 5 kB.
inline constexpr std::size_t kMostHorizonBytes = std::size_t{1} << 24;

/// A commented [spot] table for the starter case: a carport open to the south, a wall and a tree
/// (all invented).
const char* example_spot_toml();
}  // namespace ovendays::spot
