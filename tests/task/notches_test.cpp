// SPDX-License-Identifier: MIT
// The notches that a task can use, and that the aim keeps to them.
#include "ovendays/task/notches.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "catch.h"
#include "degrees.h"
#include "ovendays/base/case_node.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/random.h"
#include "ovendays/task/aim.h"

using namespace ovendays;
using task::Aim;
using task::NotchSet;
using test::contains;
using test::kDeg;

namespace {
std::vector<task::Task> starter_tasks(const oven::OvenDesign& oven) {
  base::CaseFile file(task::example_tasks_toml(), "case.toml");
  return task::read_tasks(file.root(), oven);
}

/// How many notches from the lowest on can be used.
std::size_t first_ones(const NotchSet& notches) {
  const auto end = std::find(notches.begin(), notches.end(), false);
  CHECK(std::find(end, notches.end(), true) == notches.end());
  return static_cast<std::size_t>(end - notches.begin());
}

/// A day whose sun goes by random heights and bearings.
sky::SkyDay random_day(base::KeyedRandom& random) {
  sky::SkyDay day;
  day.light = {true, 6.0 * 3600, 18.0 * 3600, 12.0 * 3600};
  for (int i = 0; i < 48; ++i)
    day.segments.push_back({1800.0 * i, 1800.0 * (i + 1), static_cast<std::size_t>(i)});
  for (int i = 0; i <= 48; ++i) {
    sky::SkyState state;
    state.to_sun = base::direction_from_sky(base::kTwoPi * random.uniform(),
                                            (100.0 * random.uniform() - 10.0) * kDeg);
    day.states.push_back(state);
  }
  return day;
}

task::Routine random_routine(base::KeyedRandom& random) {
  task::Routine routine;
  const double which = random.uniform();
  routine.re_aim = which < 0.5   ? task::ReAim::kEvery
                   : which < 0.7 ? task::ReAim::kAtTimes
                   : which < 0.9 ? task::ReAim::kOnce
                                 : task::ReAim::kNever;
  routine.re_aim_every_s = 600.0 + 7200.0 * random.uniform();
  routine.re_aim_s = {9.0 * 3600, 13.0 * 3600};
  if (routine.re_aim == task::ReAim::kOnce) routine.re_aim_s = {11.0 * 3600};
  if (random.uniform() < 0.3) routine.fixed_tilt_rad = 60.0 * kDeg * random.uniform();
  return routine;
}

oven::OvenDesign random_oven(base::KeyedRandom& random) {
  oven::OvenDesign oven = oven::default_design();
  oven.box.glazing_slope_rad = 30.0 * kDeg * random.uniform();
  oven.aim.notch_tilt_rad = {0.0};
  while (oven.aim.notch_tilt_rad.size() < 8)
    oven.aim.notch_tilt_rad.push_back(oven.aim.notch_tilt_rad.back() +
                                      (1.0 + 10.0 * random.uniform()) * kDeg);
  oven.shelf.level = random.uniform() < 0.5;
  oven.shelf.step_rad = random.uniform() < 0.3 ? 0.0 : (5.0 + 20.0 * random.uniform()) * kDeg;
  oven.shelf.friction = 0.2 + random.uniform();
  return oven;
}
}  // namespace

TEST_CASE("on a fixed shelf the starter's tasks keep to gentle notches", "[task][unit]") {
  oven::OvenDesign oven = oven::default_design();
  oven.shelf = {};
  for (const task::Task& each : starter_tasks(oven)) {
    INFO(each.name);
    // Notches of 0, 10, 20, ... deg: three litres of water spill from 10.4 deg on, everything else
    // spills or slides between 22 and 26.6 deg.
    CHECK(first_ones(task::usable_notches(oven, each)) == (contains(each.name, "water") ? 2U : 3U));
  }
}

TEST_CASE("on its level rack the starter uses every notch for every task", "[task][unit]") {
  const oven::OvenDesign oven = oven::default_design();
  for (const task::Task& each : starter_tasks(oven)) {
    INFO(each.name);
    CHECK(task::usable_notches(oven, each).empty());
  }
}

TEST_CASE("in a low box a full pot loses the steep notches first", "[task][unit]") {
  oven::OvenDesign oven = oven::default_design();
  const std::vector<task::Task> tasks = starter_tasks(oven);
  oven.box.inner_height_m = 8.0 * 0.0254;  // the rack turns by 20 deg (tests/oven/shelf_test.cpp)
  CHECK(first_ones(task::usable_notches(oven, tasks.back())) == 4U);  // water
  CHECK(first_ones(task::usable_notches(oven, tasks[2])) == 5U);      // rice
}

TEST_CASE("only stirred food spills", "[task][unit]") {
  oven::OvenDesign oven = oven::default_design();
  for (const task::Task& each : starter_tasks(oven)) {
    const bool stirred = each.food.shape == heat::FoodShape::kStirred;
    CHECK((task::liquid_m3(each) > 0.0) == stirred);
  }
}

TEST_CASE("the reason names the angle from which a pot spills or slides", "[task][unit]") {
  oven::OvenDesign oven = oven::default_design();
  const std::vector<task::Task> tasks = starter_tasks(oven);
  CHECK_FALSE(task::notch_limit(oven, tasks.front()));
  oven.box.inner_height_m = 8.0 * 0.0254;
  CHECK(task::limit_text({*task::notch_limit(oven, tasks.back())}) == "would touch the glass");
  oven.shelf = {};
  const task::NotchLimit water = *task::notch_limit(oven, tasks.back());
  const task::NotchLimit rice = *task::notch_limit(oven, tasks[2]);
  CHECK(task::limit_text({water}) == "would spill from 10.4 deg on");
  CHECK(task::limit_text({rice}) == "would slide from 26.6 deg on");
  CHECK(task::limit_text({rice, water}) == "would spill or slide from 10.4 deg on");
}

TEST_CASE("what would win more notches depends on the rack", "[task][unit]") {
  using task::NotchHelp;
  oven::OvenDesign oven = oven::default_design();
  const std::vector<task::Task> tasks = starter_tasks(oven);
  const task::Task& water = tasks.back();
  CHECK(task::notch_help(oven, water) == NotchHelp::kNone);
  oven.shelf.step_rad =
      40.0 * kDeg;  // in the notch of 20 deg the rack lies flat, water spills at 10
  CHECK(task::notch_help(oven, water) == NotchHelp::kSettings);
  oven.shelf.step_rad = 10.0 * kDeg;
  oven.box.inner_height_m = 8.0 * 0.0254;
  CHECK(task::notch_help(oven, water) == NotchHelp::kRoom);
  oven.shelf.step_rad = 0.0;  // swings freely
  CHECK(task::notch_help(oven, water) == NotchHelp::kRoom);
  oven.shelf = {};
  CHECK(task::notch_help(oven, water) == NotchHelp::kRack);
}

TEST_CASE("the aim never takes a notch that is not allowed", "[task][identity]") {
  base::KeyedRandom random(22);
  int limited = 0;
  for (int i = 0; i < 400; ++i) {
    const oven::OvenDesign oven = random_oven(random);
    task::Task soup;
    soup.vessel = "black pot";
    soup.food.mass_kg = 0.5 + 3.0 * random.uniform();
    const NotchSet allowed = task::usable_notches(oven, soup);
    if (allowed.empty() || task::no_notch(allowed)) continue;
    ++limited;
    const task::Routine routine = random_routine(random);
    const sky::SkyDay day = random_day(random);
    for (const auto& aims :
         {task::day_aims(routine, oven, day, allowed), task::perfect_aims(oven, day, allowed)}) {
      REQUIRE(!aims.empty());
      for (const Aim& aim : aims) {
        INFO("oven " << i << ", notch " << aim.notch);
        REQUIRE(allowed[static_cast<std::size_t>(aim.notch)]);
      }
    }
  }
  CHECK(limited > 100);
}

TEST_CASE("of the allowed notches the aim takes the squarest", "[task][identity]") {
  base::KeyedRandom random(23);
  const oven::OvenDesign oven = oven::default_design();
  const NotchSet allowed{true, false, true, true, false, false};
  for (int i = 0; i < 50; ++i) {
    const sky::SkyDay day = random_day(random);
    for (const Aim& aim : task::perfect_aims(oven, day, allowed)) {
      const base::Direction sun = sky::sun_at(day, aim.sun_s);
      const auto off = [&](double tilt_rad) {
        return std::abs(0.5 * base::kPi - std::asin(sun.z) - tilt_rad);
      };
      for (const std::size_t n : {std::size_t{0}, std::size_t{2}, std::size_t{3}})
        CHECK(off(aim.box_tilt_rad) <= off(oven.aim.notch_tilt_rad[n]) + 1e-9);
    }
  }
}

TEST_CASE("a pot that no notch suits is refused at its line", "[task][unit]") {
  oven::OvenDesign oven = oven::default_design();
  oven.shelf = {};
  oven.aim.notch_tilt_rad = {30.0 * kDeg, 40.0 * kDeg};
  std::string complaint;
  try {
    base::CaseFile file(
        "[[task]]\nname = \"soup\"\nvessel = \"black pot\"\nmass = 1.5\n"
        "target = \"165 F\"\n",
        "case.toml");
    task::read_tasks(file.root(), oven);
    file.finish();
  } catch (const base::InputError& error) {
    complaint = error.what();
  }
  INFO(complaint);
  CHECK(contains(complaint, "case.toml:3: "));
  CHECK(
      contains(complaint, "'black pot' can be used in no notch of the oven: it would slide from"));
  CHECK(contains(complaint, "level = true in [oven.shelf]"));
}
