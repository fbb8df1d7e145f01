// SPDX-License-Identifier: MIT
// What an oven is made of. Box axes: x to the right (width), y from the front, which faces the sun,
// to the back (depth), z up from the floor. The glazing closes the box's top and may slope: its
// back edge then stands higher by inner_depth * tan(glazing_slope).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "ovendays/base/case_node.h"

namespace ovendays::oven {

/// A material of the table (materials.h) or of the case file.
struct Material {
  std::string name;
  double conductivity_WmK = 0.05;      ///< at 25 degC
  double conductivity_slope_1K = 0.0;  ///< relative rise per kelvin above 25 degC
  double density_kgm3 = 100.0;
  double specific_heat_JkgK = 1400.0;
  double service_limit_K = 1e9;  ///< above it the material is damaged: a warning, not an error
  std::string source;
};

struct Layer {
  Material material;
  double thickness_m = 0.025;
};

struct Box {
  double inner_width_m = 0.4572;
  double inner_depth_m = 0.4572;
  double inner_height_m = 0.2286;  ///< at the front
  double glazing_slope_rad = 0.0;  ///< of the glazing against the floor, 0..60 deg
  double frame_m = 0.0;            ///< opaque rim that narrows the opening on each side
  std::vector<Layer> wall;         ///< from the inside out
  std::vector<Layer> floor;        ///< from the inside out
  double leak_area_m2 = 2e-4;      ///< effective area of all gaps of lid and door
  double skin_absorptance = 0.7;   ///< outer skin, solar
  double skin_emittance = 0.9;
};

/// The inside facing: walls and floor.
struct Liner {
  double absorptance = 0.93;    ///< solar
  double emittance = 0.9;       ///< infrared
  double specular_share = 0.0;  ///< of what it reflects, 0..1 (bare foil 1, paint 0)
  double mass_kg = 0.3;         ///< of all liner sheets together
  double specific_heat_JkgK = 900.0;
  double thickness_m = 0.0003;      ///< of the sheet: how well it carries heat sideways
  double conductivity_WmK = 230.0;  ///< aluminium; steel 50
};

/// A dark plate on or above the floor on which the vessel stands.
struct Tray {
  double width_m = 0.4064;
  double depth_m = 0.4064;
  double height_m = 0.0127;  ///< above the floor
  double mass_kg = 0.4;
  double specific_heat_JkgK = 900.0;
  double absorptance = 0.93;
  double emittance = 0.9;
  double floor_conductance_WK = 0.5;  ///< through feet and the air below, tray to liner
  double thickness_m = 0.0009;        ///< of the sheet: how well it carries heat sideways
  double conductivity_WmK = 230.0;    ///< aluminium; steel 50
};

/// A pane, the outermost first.
struct Pane {
  double thickness_m = 0.003175;
  double index = 1.526;
  double extinction_1m = 26.0;
  double ir_emittance = 0.84;     ///< both faces
  double ir_transmittance = 0.0;  ///< films only
  double gap_m = 0.015;           ///< air gap to the next pane inward
  double density_kgm3 = 2500.0;
  double specific_heat_JkgK = 840.0;
  bool operator==(const Pane&) const = default;
};
inline constexpr int kMostPanes = 3;

enum class Edge { kFront = 0, kRight = 1, kBack = 2, kLeft = 3 };

/// A flat reflector hinged at an edge of the glazing.
struct Flap {
  std::string name;
  Edge edge = Edge::kBack;
  double length_m = 0.4572;    ///< from hinge to outer edge, in the panel
  double hinge_width_m = 0.0;  ///< 0: as wide as the glazing edge
  double outer_width_m = 0.0;  ///< 0: as the hinge
  double flare_angle_rad =
      1.0471975511965976;     ///< from the glazing plane: 90 deg upright, 0 laid out flat
  double reflectance = 0.78;  ///< solar, total
  double scatter_rad =
      0.035;  ///< half-angle (one standard deviation) by which a ray strays: foil is not a mirror
  double emittance = 0.05;  ///< infrared
};

struct CornerPanels {
  bool present = false;  ///< flat triangles between neighbouring flaps
  double reflectance = 0.78;
  double scatter_rad = 0.035;
  double emittance = 0.05;
};

enum class VesselKind {
  kPot,
  kPan
};  ///< pot: upright cylinder; pan: rectangular (loaf tin, cookie sheet)

struct Vessel {
  std::string name;
  VesselKind kind = VesselKind::kPot;
  double diameter_m = 0.20;  ///< pot
  double width_m = 0.30;     ///< pan, along x
  double depth_m = 0.25;     ///< pan, along y
  double height_m = 0.11;
  double mass_kg = 0.8;  ///< with lid
  /// Length of the rim; 0: that of the sizes above. Several vessels merged into one keep the sum of
  /// their rims (study::several_as_one). No key of the case file.
  double rim_m = 0.0;
  double specific_heat_JkgK = 480.0;
  double absorptance = 0.92;
  double emittance = 0.9;
  bool lid = true;
  /// Mean air gap under the foot, which stands uneven on its plate. 1 mm gives about 35 W/m2K;
  /// published for a pan on a plate: 28.6 W/m2K.
  double foot_gap_m = 0.001;
  // Of the lid:
  double lid_transmittance = 0.0;    ///< of the sun that meets it, to the food: glass 0.8, metal 0
  double lid_inner_emittance = 0.3;  ///< infrared, underside: bare metal 0.3, enamel 0.9
  double lid_rim_contact_Wm2K = 10.0;  ///< to the pot's wall, over the lid's area; 3..20, judgement
  double lid_steam_share = 0.05;       ///< steam past the lid over an open pot's; 0.02..0.12

  /// Area of the base, and the volume up to the rim. Both follow from the outer sizes: the wall is
  /// thin.
  [[nodiscard]] double base_m2() const;
  [[nodiscard]] double volume_m3() const { return base_m2() * height_m; }
};

/// How the oven can be pointed.
struct AimDesign {
  bool turns = true;  ///< on a cart or a turntable; else it stays at the routine's facing
  std::vector<double> notch_tilt_rad{
      0.0};  ///< tilts of the whole box, floor against level; ascending
  bool operator==(const AimDesign&) const = default;
};

/// What the vessel stands on when the box is tilted (see oven/shelf.h).
struct Shelf {
  bool level = false;  ///< a rack that hangs or is set level in each notch; else the vessel tilts
  double step_rad = 0.0;  ///< angle between the rack's settings; 0: it swings freely
  /// Coefficient of friction of a vessel on tray or rack: it slides where tan(tilt) is more. Common
  /// practice, no source; a ledge that stops the vessel counts as much more.
  double friction = 0.5;
  bool operator==(const Shelf&) const = default;
};

/// What a finished oven loses against its drawing, in the mean over its use. The factors are 1 for
/// the oven as designed; uncertainty (study/spread.h) and a fit to measurements vary them.
struct AsBuilt {
  /// Share of the light that dirty glass still passes, and that dirty foil still reflects, in the
  /// mean between two washings; judgement (0.90 neglected, 1 washed before use). Where the routine
  /// says how often it is washed (task::Routine::wash_every_s), that right after washing.
  double cleanliness = 0.96;
  /// Light that reaches the glass from flaps as they stand, over that from flat flaps at the exact
  /// angle: foil sags and gaps open. Judgement: 0.85 to 1; rigid mirrors 1.
  double flap_set = 0.93;
  double light_factor = 1.0;  ///< on all sun that the oven absorbs
  /// On the conductance of walls, floor and rim, the leak area and the convection at the inner
  /// pane.
  double loss_factor = 1.0;
  double lid_factor = 1.0;  ///< on all that passes between a lid and the food or pot below it
  /// How quickly the load heats up over what the model says: divides the load's heat capacity.
  double food_heat_factor = 1.0;
  bool operator==(const AsBuilt&) const = default;
};
/// Clean and straight, as under a test procedure.
inline constexpr AsBuilt kAsDrawn{.cleanliness = 1.0, .flap_set = 1.0};

struct OvenDesign {
  std::string name;
  Box box;
  Liner liner;
  std::optional<Tray> tray = Tray{};
  std::vector<Pane> panes{Pane{}};
  std::vector<Flap> flaps;
  CornerPanels corners;
  std::vector<Vessel> vessels;
  AimDesign aim;
  Shelf shelf;
  AsBuilt as_built;

  /// Opening of the glazing [m]: width along x and length along the slope.
  [[nodiscard]] double glass_width_m() const;
  [[nodiscard]] double glass_length_m() const;
  /// @return nullptr where no vessel has that name.
  [[nodiscard]] const Vessel* vessel(const std::string& name) const;
};

/// A home-built box with 18 in glass, four foil flaps at 60 deg and three vessels: what
/// example_oven_toml() describes, for tests, benchmarks and pictures.
OvenDesign default_design();

/// Something impossible in a design: which table of [oven], which one of several, which key.
struct DesignFault {
  std::string table;      ///< "box", "tray", "flap", "vessel", ...; empty for [oven] itself
  std::size_t index = 0;  ///< among [[oven.flap]], [[oven.vessel]], ...
  std::string key;
  std::string got;
  std::string allowed;
};
/// What cannot be built although every number alone is in its range: flaps that pass through each
/// other, a frame that closes the opening, a tray or vessel that does not fit under the glass,
/// tilts that do not ascend, no insulation, two vessels of one name. Empty where all is well.
std::vector<DesignFault> check_design(const OvenDesign& design);

/// Reads the table [oven]. Keys are the members' names without their units; every quantity may have
/// its unit, fields left out keep the defaults of the structs above.
///   [oven.box] [oven.liner] [oven.tray] (present = false leaves it out) [oven.corners] (present)
///   [[oven.layer]] side = "both" | "wall" | "floor", material = "name", thickness; own numbers
///       (conductivity, conductivity_slope, density, specific_heat, service_limit) override the row
///   [[oven.material]] name, conductivity, density, specific_heat; for layers of this case
///   [[oven.pane]] outermost first; none: one pane of common glass
///   [[oven.flap]] edge = "front" | "right" | "back" | "left" | "all" (four alike)
///   [[oven.vessel]] name, kind = "pot" (diameter) | "pan" (width, depth), height, ...
///   [oven.aim] turns, notches = ["0 deg", ...]
///   [oven.shelf] level, step, friction
///   [oven.as_built] cleanliness, flap_set, light_factor, loss_factor, lid_factor, food_heat_factor
/// floor_conductance is a plain number in W/K.
/// Values out of range and what check_design() finds are recorded in the node's file, at their
/// lines; the design returned then holds fallbacks. Throws nothing itself.
OvenDesign read_oven(const base::CaseNode& node);

/// A commented [oven] block for the starter case; parses without faults.
const char* example_oven_toml();
}  // namespace ovendays::oven
