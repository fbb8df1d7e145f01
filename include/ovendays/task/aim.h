// SPDX-License-Identifier: MIT
// Where the oven points in the course of a day. An aim is in force until the next one. It points to
// where the sun will be halfway to the next re-aim, with the notch that turns the glass most
// squarely to the sun, of those that the food in the oven allows (see task/notches.h).
#pragma once

#include <span>
#include <vector>

#include "ovendays/oven/design.h"
#include "ovendays/sky/sky_year.h"
#include "ovendays/task/notches.h"
#include "ovendays/task/routine.h"

namespace ovendays::task {

struct Aim {
  double from_s = 0.0;                     ///< in force until from_s of the next aim
  double azimuth_rad = 3.141592653589793;  ///< the front faces this way
  double box_tilt_rad = 0.0;               ///< floor against level
  double glazing_tilt_rad = 0.0;           ///< box tilt + glazing slope
  int notch = 0;                           ///< index into AimDesign::notch_tilt_rad
  double sun_s = 0.0;                      ///< the time whose sun it points to
};

/// Aims of a day, the first from 0 h. Never empty.
/// @param allowed the notches to choose from; not without any (see no_notch())
std::vector<Aim> day_aims(const Routine& routine,
                          const oven::OvenDesign& oven,
                          const sky::SkyDay& day,
                          const NotchSet& allowed = {});

/// Aims of a cook who never stops turning the oven: a new one at every sky segment, each with the
/// best of the allowed notches.
std::vector<Aim> perfect_aims(const oven::OvenDesign& oven,
                              const sky::SkyDay& day,
                              const NotchSet& allowed = {});

/// The aim in force at a time of the day [s]. @param aims not empty
const Aim& aim_at(std::span<const Aim> aims, double time_s);
}  // namespace ovendays::task
