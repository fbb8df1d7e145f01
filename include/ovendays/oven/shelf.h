// SPDX-License-Identifier: MIT
// Whether a vessel can be used when the box is tilted. A vessel that is fixed to the box tilts with
// it: its liquid reaches the rim, or it slides. A level rack turns the vessel back; then it must
// find room between tray and glass.
//
// The geometry is that of a box that is tipped about its bottom front edge, seen from the side: the
// box's axes are y towards the back and z up from the floor, as in design.h. When the back of the
// box has been raised by the tilt, the vertical leans towards the back of the box, so a vessel that
// stands level has its foot's back edge lowest. The side view of a pot and of a pan is a rectangle:
// diameter (or depth) by height.
//
// Simplified: a vessel stands in the middle of the box. Its lowest edge rests on the tray; a rack
// that hangs needs the same room in its steepest notch if its pivot is at half the free height and
// at half the vessel's height. Walls of the vessel are thin. A lid does not keep a liquid in, and
// nothing is set aside for boiling over or for a jolt. In the rays' way the vessel stands upright
// on the tray in every notch (see src/doc/physics.md for how much light that misplaces), and its
// foot touches the rack as it would touch the tray (Vessel::foot_gap_m).
#pragma once

#include <vector>

#include "ovendays/oven/design.h"

namespace ovendays::oven {

/// What keeps a vessel out of a notch.
enum class TiltLimit {
  kNone,    ///< the notch can be used
  kSpills,  ///< the liquid reaches the rim
  kSlides,  ///< the vessel slides
  kGlass    ///< the rack would press it against the glass or a wall
};

/// The tilt [rad] at which a liquid reaches the vessel's rim:
///   tan(tilt) = 2 freeboard / length,   freeboard = height - volume / base area,
/// the length being a pot's diameter or a pan's depth. Its surface then passes through the lowest
/// point of the rim and, by symmetry, through the middle of the level surface. Exact while the foot
/// is wet all over (a vessel at least half full). One that is less full spills later than this.
/// @param volume_m3 of the liquid; where it is more than the vessel holds the result is 0
double spill_tilt_rad(const Vessel& vessel, double volume_m3);

/// The tilt [rad] at which a vessel slides on tray or rack: tan(tilt) = friction (Coulomb).
double slide_tilt_rad(const Shelf& shelf);

/// True where a vessel that is turned back by an angle [rad], against the box's floor, stays below
/// the glass and between front and back wall.
bool has_room(const OvenDesign& design, const Vessel& vessel, double turned_back_rad);

/// How a vessel stands in one notch.
struct Stand {
  TiltLimit limit = TiltLimit::kNone;
  double turned_back_rad = 0.0;  ///< against the box's floor, by the rack
  double tilt_rad = 0.0;         ///< of the vessel, against level; negative: towards the back
  bool operator==(const Stand&) const = default;
};

/// How a vessel stands in each notch of the oven. A rack with settings (Shelf::step_rad > 0) is
/// used at the setting nearest to level, the lower one of two, or where that leaves no room below
/// the glass at the next lower one that does; what tilt then remains may neither spill nor slide.
/// @param liquid_m3 volume of what can spill; 0 for solid food
std::vector<Stand> stands(const OvenDesign& design, const Vessel& vessel, double liquid_m3);
}  // namespace ovendays::oven
