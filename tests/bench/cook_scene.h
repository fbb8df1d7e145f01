// SPDX-License-Identifier: MIT
// The cook that every integrator is timed on: a preheated default oven of one pane, a black pot
// with 2 kg that heat and boil like water, from 9 h to 17 h, the lid open for 30 s at loading and
// for a minute at 11 h.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "oven_days.h"

namespace ovendays::bench {

struct CookScene {
  std::string name;
  heat::HeatModel model;
  test::OvenDay day;
  heat::State start{};
  std::vector<heat::LidOpening> lid;

  [[nodiscard]] heat::Run run() const {
    heat::Run one;
    one.forcing = day.view();
    one.start_s = day.air.front().start_s;
    one.end_s = day.air.back().end_s;
    one.state = start;
    one.lid_open = lid;
    return one;
  }
};

inline constexpr double kHour_s = 3600.0;

/// The oven after two hours empty in the sun, the pot cold.
inline heat::State preheated_state() {
  const heat::HeatModel empty = test::default_oven(1);
  test::DayOptions day;
  day.from_s = 7.0 * kHour_s;
  day.to_s = 9.0 * kHour_s;
  day.noon_gain_W = 420.0;
  const test::OvenDay morning = test::clear_day(day);
  heat::Run run;
  run.forcing = morning.view();
  run.start_s = day.from_s;
  run.end_s = day.to_s;
  run.state = heat::uniform_state(288.0);
  heat::integrate(empty, run, {});
  run.state[heat::kNodeVessel] = run.state[heat::kNodeFood] = 293.15;
  return run.state;
}

enum class SkyKind { kClear, kBroken };

/// @param key of the clouds and gusts of a broken sky
inline CookScene cook_scene(SkyKind sky, std::uint64_t key = 20) {
  CookScene scene;
  heat::FoodLoad food;
  food.mass_kg = food.water_kg = 2.0;
  food.specific_heat_JkgK = 4186.0;
  scene.model = test::default_oven(1, "black pot", food);
  test::DayOptions day;
  day.from_s = 9.0 * kHour_s;
  day.to_s = 17.0 * kHour_s;
  day.noon_gain_W = 480.0;
  day.loaded = true;
  const bool clear = sky == SkyKind::kClear;
  scene.name = clear ? "clear" : "broken cloud";
  scene.day = clear ? test::clear_day(day) : test::broken_day(day, key);
  scene.start = preheated_state();
  scene.lid = {{day.from_s, day.from_s + 30.0}, {11.0 * kHour_s, 11.0 * kHour_s + 60.0}};
  return scene;
}

/// The same cook from ovens up to 14 K hotter, so that lanes take steps of their own; the first is
/// the scene's.
inline std::vector<heat::Run> pack_of(const CookScene& scene, std::size_t count) {
  std::vector<heat::Run> runs(count, scene.run());
  for (std::size_t i = 0; i < count; ++i) {
    for (const int n : {heat::kNodeAir, heat::kNodeLiner, heat::kNodeTray})
      runs[i].state[static_cast<std::size_t>(n)] += 2.0 * static_cast<double>(i % 8);
  }
  return runs;
}
}  // namespace ovendays::bench
