// SPDX-License-Identifier: MIT
// Where the oven points through a day. Each aim holds from its start to the next; it is set on
// where the sun will stand halfway to the next re-aim, with the notch that brings the glass
// squarest to it.
#pragma once

#include <span>
#include <vector>

#include "ovendays/oven/design.h"
#include "ovendays/sky/sky_year.h"
#include "ovendays/task/routine.h"

namespace ovendays::task {

struct Aim {
  double from_s = 0.0;                     ///< holds until the next aim's from_s
  double azimuth_rad = 3.141592653589793;  ///< the front faces this way
  double box_tilt_rad = 0.0;               ///< floor against level
  double glazing_tilt_rad = 0.0;           ///< box tilt + glazing slope
  int notch = 0;                           ///< index into AimDesign::notch_tilt_rad
  double sun_s = 0.0;                      ///< the instant whose sun it was set on
};

/// Aims of a day, the first from 0 h. Never empty.
std::vector<Aim> day_aims(const Routine& routine,
                          const oven::OvenDesign& oven,
                          const sky::SkyDay& day);

/// What turning without end would do: a new aim at every segment of the day, best of the oven's own
/// notches.
std::vector<Aim> perfect_aims(const oven::OvenDesign& oven, const sky::SkyDay& day);

/// The aim in force at a time of the day [s]. @param aims as made here, never empty
const Aim& aim_at(std::span<const Aim> aims, double time_s);
}  // namespace ovendays::task
