// SPDX-License-Identifier: MIT
#include "ovendays/oven/shelf.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"

namespace ovendays::oven {
namespace {

/// Rounding of angles that were written in degrees, and of lengths that were written in inches.
constexpr double kWritten_rad = 1e-9;
constexpr double kWritten_m = 1e-9;

/// Of the vessel's side view, along the direction in which the box is tilted.
double tilted_length_m(const Vessel& vessel) {
  return vessel.kind == VesselKind::kPot ? vessel.diameter_m : vessel.depth_m;
}

/// The rack's setting nearest to level (the lower of two), as a number of steps.
int nearest_setting(double box_tilt_rad, double step_rad) {
  return static_cast<int>(std::ceil(box_tilt_rad / step_rad - 0.5 - kWritten_rad));
}

/// How the rack holds the vessel in a notch, whatever spills or slides. A rack that swings freely
/// cannot be set lower where there is no room.
Stand on_rack(const OvenDesign& design, const Vessel& vessel, double box_tilt_rad) {
  const double step_rad = design.shelf.step_rad;
  if (!(step_rad > 0.0)) {
    const bool room = has_room(design, vessel, box_tilt_rad);
    return {room ? TiltLimit::kNone : TiltLimit::kGlass, box_tilt_rad, 0.0};
  }
  for (int setting = nearest_setting(box_tilt_rad, step_rad); setting > 0; --setting) {
    const double turned_rad = setting * step_rad;
    if (has_room(design, vessel, turned_rad))
      return {TiltLimit::kNone, turned_rad, box_tilt_rad - turned_rad};
  }
  return {TiltLimit::kNone, 0.0, box_tilt_rad};  // flat on the tray, where it always has room
}
}  // namespace

double spill_tilt_rad(const Vessel& vessel, double volume_m3) {
  const double freeboard_m = vessel.height_m - volume_m3 / vessel.base_m2();
  return std::atan(2.0 * std::max(0.0, freeboard_m) / tilted_length_m(vessel));
}

double slide_tilt_rad(const Shelf& shelf) { return std::atan(shelf.friction); }

bool has_room(const OvenDesign& design, const Vessel& vessel, double turned_back_rad) {
  const Box& box = design.box;
  const double s = std::sin(turned_back_rad);
  const double c = std::cos(turned_back_rad);
  const double length = tilted_length_m(vessel);
  const double height = vessel.height_m;
  // From the front of the foot, raised, to the back of the top, lowered.
  const double extent_m = length * c + height * s;
  if (extent_m > box.inner_depth_m + kWritten_m) return false;
  const double stand_m = design.tray ? design.tray->height_m : 0.0;
  const double back_foot_y = 0.5 * (length * c - height * s);  // from the box's middle
  const auto below_glass = [&](double y, double z) {
    const double glass_m =
        box.inner_height_m + (y + 0.5 * box.inner_depth_m) * std::tan(box.glazing_slope_rad);
    return z < glass_m + kWritten_m;
  };
  const double front_y = back_foot_y - length * c;
  return below_glass(front_y, stand_m + length * s) &&
         below_glass(front_y + height * s, stand_m + length * s + height * c) &&
         below_glass(back_foot_y + height * s, stand_m + height * c);
}

std::vector<Stand> stands(const OvenDesign& design, const Vessel& vessel, double liquid_m3) {
  const double slide_rad = slide_tilt_rad(design.shelf);
  const double spill_rad = liquid_m3 > 0.0 ? spill_tilt_rad(vessel, liquid_m3) : base::kPi;
  std::vector<Stand> all;
  for (const double box_tilt_rad : design.aim.notch_tilt_rad) {
    Stand stand{TiltLimit::kNone, 0.0, box_tilt_rad};
    if (design.shelf.level) stand = on_rack(design, vessel, box_tilt_rad);
    const double left_rad = std::abs(stand.tilt_rad) - kWritten_rad;
    if (stand.limit == TiltLimit::kNone && left_rad > std::min(spill_rad, slide_rad)) {
      // A rack that could not be turned far enough for want of room is held back by the glass.
      const bool cramped = design.shelf.level && stand.tilt_rad > 0.5 * design.shelf.step_rad;
      stand.limit = cramped                 ? TiltLimit::kGlass
                    : spill_rad < slide_rad ? TiltLimit::kSpills
                                            : TiltLimit::kSlides;
    }
    all.push_back(stand);
  }
  return all;
}
}  // namespace ovendays::oven
