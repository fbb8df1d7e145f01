// SPDX-License-Identifier: MIT
#include "ovendays/task/aim.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::task {
namespace {

/// Points the oven at the sun, as far as it can be turned, with the best of the allowed notches
/// unless its tilt is fixed.
Aim point_at(const base::Direction& sun,
             const oven::OvenDesign& oven,
             const NotchSet& allowed,
             bool turns,
             double facing_rad,
             double fixed_tilt_rad) {
  Aim aim;
  const double slope_rad = oven.box.glazing_slope_rad;
  aim.azimuth_rad = turns ? base::azimuth_of(sun) : facing_rad;
  const auto& notches = oven.aim.notch_tilt_rad;
  const double ahead = sun.x * std::sin(aim.azimuth_rad) + sun.y * std::cos(aim.azimuth_rad);
  const auto cos_incidence = [&](double tilt_rad) {
    return std::sin(tilt_rad) * ahead + std::cos(tilt_rad) * sun.z;
  };
  double best = -1e9;
  for (std::size_t i = 0; i < notches.size(); ++i) {
    if (!allowed.empty() && !allowed[i]) continue;
    const double off = fixed_tilt_rad >= 0.0 ? -std::abs(notches[i] - fixed_tilt_rad)
                                             : cos_incidence(notches[i] + slope_rad);
    if (off <= best + 1e-12) continue;
    best = off;
    aim.notch = static_cast<int>(i);
    aim.box_tilt_rad = notches[i];
  }
  aim.glazing_tilt_rad = aim.box_tilt_rad + slope_rad;
  return aim;
}

/// Times at which the cook turns the oven.
std::vector<double> turning_times(const Routine& routine, const sky::SkyDay& day) {
  std::vector<double> times;
  switch (routine.re_aim) {
    case ReAim::kEvery: {
      const double from_s = std::max(routine.set_out_s, routine.home_from_s);
      const double until_s =
          std::min({routine.home_until_s, day.light.sunset_s, base::kSecondsPerDay});
      for (int i = 0; from_s + i * routine.re_aim_every_s < until_s; ++i) {
        times.push_back(from_s + i * routine.re_aim_every_s);
      }
      break;
    }
    case ReAim::kAtTimes:
    case ReAim::kOnce:
      times = routine.re_aim_s;
      break;
    case ReAim::kNever:
      break;
  }
  return times;
}
}  // namespace

std::vector<Aim> day_aims(const Routine& routine,
                          const oven::OvenDesign& oven,
                          const sky::SkyDay& day,
                          const NotchSet& allowed) {
  OVENDAYS_CHECK(allowed.empty() || allowed.size() == oven.aim.notch_tilt_rad.size());
  const bool turns = oven.aim.turns && routine.re_aim != ReAim::kNever;
  std::vector<double> times = turning_times(routine, day);
  const double noon_s = std::clamp(day.light.transit_s, 0.0, base::kSecondsPerDay);
  if (times.empty()) times.push_back(noon_s);
  std::vector<Aim> aims;
  for (std::size_t i = 0; i < times.size(); ++i) {
    const bool last = i + 1 == times.size();
    const double next_s =
        last ? times[i] + (routine.re_aim == ReAim::kEvery ? routine.re_aim_every_s : 0.0)
             : times[i + 1];
    // Between turns the sun moves on, so the aim is set for halfway. An oven that is pointed only
    // once is pointed at the present sun, and one that never turns has its notch set for noon.
    const double sun_s = routine.re_aim == ReAim::kEvery || routine.re_aim == ReAim::kAtTimes
                             ? 0.5 * (times[i] + next_s)
                             : times[i];
    base::Direction sun = sky::sun_at(day, sun_s);
    // While the sun is down, the aim is that for a sun just above the horizon.
    if (sun.z <= 0.0)
      sun =
          sky::sun_at(day,
                      std::clamp(sun_s,
                                 day.light.sunrise_s + 60.0,
                                 std::max(day.light.sunrise_s + 60.0, day.light.sunset_s - 60.0)));
    Aim aim = point_at(sun, oven, allowed, turns, routine.facing_rad, routine.fixed_tilt_rad);
    aim.from_s = i == 0 ? 0.0 : times[i] + routine.re_aim_late_s;
    aim.sun_s = sun_s;
    aims.push_back(aim);
  }
  return aims;
}

std::vector<Aim> perfect_aims(const oven::OvenDesign& oven,
                              const sky::SkyDay& day,
                              const NotchSet& allowed) {
  OVENDAYS_CHECK(allowed.empty() || allowed.size() == oven.aim.notch_tilt_rad.size());
  std::vector<Aim> aims;
  for (const sky::SkySegment& segment : day.segments) {
    const double middle_s = 0.5 * (segment.start_s + segment.end_s);
    const base::Direction sun = sky::sun_at(day, middle_s);
    if (sun.z <= 0.0 && !aims.empty()) continue;
    Aim aim = point_at(sun, oven, allowed, true, 0.0, -1.0);
    aim.from_s = aims.empty() ? 0.0 : segment.start_s;
    aim.sun_s = middle_s;
    aims.push_back(aim);
  }
  return aims;
}

const Aim& aim_at(std::span<const Aim> aims, double time_s) {
  OVENDAYS_CHECK(!aims.empty());
  const Aim* aim = &aims.front();
  for (const Aim& candidate : aims) {
    if (candidate.from_s <= time_s) aim = &candidate;
  }
  return *aim;
}
}  // namespace ovendays::task
