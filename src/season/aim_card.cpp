// SPDX-License-Identifier: MIT
#include "ovendays/season/aim_card.h"

#include <algorithm>
#include <cmath>

#include "day_forcing.h"
#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/season/day_trace.h"

namespace ovendays::season {
namespace {

/// The share of the sun that the mouth sees in the course of one day.
class SunWatch {
 public:
  SunWatch(const Case& c, const sky::SkyDay& day, const std::vector<task::Aim>& aims)
      : mouth_(c.spot.mouth),
        scene_(c.spot),
        geometry_(oven::build_geometry(c.oven, nullptr, false)),
        day_(day),
        aims_(aims) {}

  [[nodiscard]] double share(double time_s) const {
    const base::Direction sun = sky::sun_at(day_, time_s);
    if (sun.z <= 0.0) return 0.0;
    const task::Aim& aim = task::aim_at(aims_, time_s);
    const base::Frame frame = oven::mouth_frame(mouth_, aim.azimuth_rad, aim.glazing_tilt_rad);
    const spot::MouthGrid mouth =
        spot::mouth_grid(frame, geometry_.mouth_width_m, geometry_.mouth_length_m, kMouthGrid);
    return scene_.visible_share(mouth, sun, day_.date.month);
  }

  [[nodiscard]] std::vector<SunSpell> spells() const {
    std::vector<SunSpell> found;
    bool before = false;
    for (int minute = 0; minute <= kMinutes; ++minute) {
      const double t = 60.0 * minute;
      // With less than half of the mouth lit an oven does not heat up.
      const bool lit = share(t) > 0.5;
      if (lit && !before) found.push_back({t, t});
      if (lit) found.back().to_s = t;
      before = lit;
    }
    return found;
  }

 private:
  base::Point mouth_;
  spot::Scene scene_;
  oven::OvenGeometry geometry_;
  const sky::SkyDay& day_;
  const std::vector<task::Aim>& aims_;
};

/// The notches of one task, or those that some task can use.
task::NotchSet card_notches(const Case& c, std::optional<std::size_t> task) {
  if (task) return task::usable_notches(c.oven, c.tasks[*task]);
  task::NotchSet any(c.oven.aim.notch_tilt_rad.size(), false);
  for (const task::Task& each : c.tasks) {
    const task::NotchSet own = task::usable_notches(c.oven, each);
    if (own.empty()) return {};
    for (std::size_t i = 0; i < own.size(); ++i) any[i] = any[i] || own[i];
  }
  return any;
}

/// The notches that a task on the card cannot use, one entry for all tasks with the same ones.
std::vector<NotchesShut> notches_shut(const Case& c, std::optional<std::size_t> task) {
  std::vector<NotchesShut> all;
  for (std::size_t t = 0; t < c.tasks.size(); ++t) {
    if (task && *task != t) continue;
    const task::NotchSet usable = task::usable_notches(c.oven, c.tasks[t]);
    std::vector<int> shut;
    for (std::size_t i = 0; i < usable.size(); ++i) {
      if (!usable[i]) shut.push_back(static_cast<int>(i));
    }
    if (shut.empty()) continue;
    auto same = std::find_if(
        all.begin(), all.end(), [&](const NotchesShut& other) { return other.notches == shut; });
    if (same == all.end()) same = all.insert(all.end(), NotchesShut{shut, {}});
    same->task_names.push_back(c.tasks[t].name);
  }
  return all;
}

AimRow row_of(const sky::SkyDay& day, const SunWatch& watch, const task::Aim& aim, double time_s) {
  AimRow row;
  row.time_s = time_s;
  row.aim = aim;
  const base::Direction sun = sky::sun_at(day, time_s);
  row.sun_azimuth_rad = base::azimuth_of(sun);
  row.sun_elevation_rad = std::asin(std::clamp(sun.z, -1.0, 1.0));
  row.visible_share = watch.share(time_s);
  if (row.sun_elevation_rad >= kLeastShadow_rad) row.shadow = 1.0 / std::tan(row.sun_elevation_rad);
  return row;
}
}  // namespace

double magnetic_bearing_rad(double true_rad, double declination_rad) {
  const double bearing_rad = std::fmod(true_rad - declination_rad, base::kTwoPi);
  return bearing_rad < 0.0 ? bearing_rad + base::kTwoPi : bearing_rad;
}

AimCard make_aim_card(const Case& c,
                      const weather::WeatherYear& year,
                      int day_index,
                      std::optional<std::size_t> task) {
  OVENDAYS_CHECK(day_index >= 0 && day_index < 365);
  OVENDAYS_CHECK(!task || *task < c.tasks.size());
  const task::NotchSet notches = card_notches(c, task);
  const sky::SkyDay day = sky::make_sky_day(year, day_index, c.sky);
  AimCard card{.date = day.date,
               .site_name = year.place.name,
               .spot_name = c.spot.name,
               .oven_name = c.oven.name,
               .place = year.place,
               .light = day.light,
               .declination_rad = c.declination_rad,
               .task_name = task ? c.tasks[*task].name : "",
               .shut = notches_shut(c, task),
               .turns = c.oven.aim.turns && c.routine.re_aim != task::ReAim::kNever,
               .rows = {},
               .spells = {}};
  if (!day.light.up) return card;
  task::Routine plan = c.routine;
  plan.re_aim_late_s = 0.0;  // the card says when to turn, not when it is done
  const std::vector<task::Aim> aims = task::day_aims(plan, c.oven, day, notches);
  const SunWatch watch(c, day, aims);
  for (std::size_t i = 0; i < aims.size(); ++i) {
    const bool last = i + 1 == aims.size();
    // Aims that end before sunrise or begin after sunset are of no use.
    if (!last && aims[i + 1].from_s <= day.light.sunrise_s) continue;
    if (aims[i].from_s >= day.light.sunset_s) break;
    const double time_s =
        i == 0 ? std::max(c.routine.set_out_s, c.routine.home_from_s) : aims[i].from_s;
    card.rows.push_back(row_of(day, watch, aims[i], time_s));
  }
  card.spells = watch.spells();
  return card;
}
}  // namespace ovendays::season
