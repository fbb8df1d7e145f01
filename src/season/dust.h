// SPDX-License-Identifier: MIT
// Dust on glass and foil between washings, and the light that it takes. Private to season.
//
// Dust builds up as in Kimber, Mitchell, Hogradi, Wenger 2006 (IEEE 4th World Conference on
// Photovoltaic Energy Conversion), in the form and with the values that pvlib's documentation gives
// for pvlib.soiling.kimber: by the same share each day, up to 0.3; to nothing on a day of washing,
// or of more than 6 mm of rain; and not at all while the ground is damp, which it is for 14 days
// from such a rain. The model is that of panels that always stand in the rain. An oven under a
// roof, or one that stays in when it rains, is not washed by rain, but the damp ground counts for
// it too. The rates were measured on panels tilted by up to 20 deg or so; they are taken for glass
// and foil at any tilt, in use or not (judgement).
#pragma once

#include <span>
#include <vector>

#include "day_forcing.h"
#include "ovendays/oven/design.h"
#include "ovendays/task/routine.h"

namespace ovendays::season {

inline constexpr double kCleaningRain_m = 0.006;
inline constexpr int kDampDays = 14;
inline constexpr double kMostDust = 0.3;

/// A day's rain.
struct DayRain {
  double rain_m = 0.0;
  bool on_oven = false;  ///< it falls on the oven
};

/// Share that dust takes of light that passes it once, on each day. The year is a ring: its first
/// days may be damp from its last. Washings are counted from its first day, which is one of them.
/// @param year one entry a day
/// @param routine with wash_every_s > 0
std::vector<double> dust_shares(std::span<const DayRain> year, const task::Routine& routine);

/// How often light has met a flap before it is absorbed inside the empty oven, in the mean, with
/// the sun on the axis of the mouth: d ln(absorbed light) / d ln(reflectance of the flaps), by the
/// ray tracer. 0 for an oven without flaps.
double flap_reflections(const oven::OvenDesign& design);

/// Light that is left when dust takes a share of it at each pass: once at the glass, and once at
/// each reflection by a flap,
///   left = (1 - share)^(1 + reflections).
/// One factor for all light is exact without flaps. With flaps it is that of light along the axis.
/// Light far off the axis, and light of the sky, meets them less often, so that dust takes a little
/// too much of it: with a share of 0.1, 3 % at 30 deg (judgement; tests/season/dust_test.cpp).
std::vector<DustyLight> dusty_light(std::span<const double> shares, double reflections);

/// The year's dust in a remark; empty where the case does not say how often the oven is washed.
std::vector<std::string> dust_notes(const task::Routine& routine,
                                    std::span<const DustyLight> light,
                                    bool rain_known);
}  // namespace ovendays::season
