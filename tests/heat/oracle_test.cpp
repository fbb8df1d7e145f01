// SPDX-License-Identifier: MIT
// The integrator at its default options against CVODE of SUNDIALS at a tolerance of 1e-9, on the
// same equations: every node, at every step it takes and between them.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <string>
#include <vector>

#include "catch.h"
#include "cvode_oracle.h"
#include "oven_days.h"

using namespace ovendays;
using namespace ovendays::heat;
using test::CvodeOracle;
using test::OvenDay;

namespace {

constexpr double kBound_K = 0.1;
constexpr double kEventBound_s = 5.0;
/// What is left of the water [%]: a thousandth of it, hardly more than a gram of a pot's.
constexpr double kWaterBound_percent = 0.1;
/// After a jump (the start of a run, loading, the lid, a cloud's edge) the bound holds from here
/// on.
constexpr double kSettle_s = 120.0;
constexpr double kShares[] = {0.25, 0.5, 0.75, 1.0};

struct Kept {
  double start_s, end_s;
  State y0, y1, rise0, rise1;
};

class Recorder : public StepWatcher {
 public:
  bool on_step(const Step& step) override {
    kept.push_back({step.start_s,
                    step.end_s,
                    step.y0.copy(),
                    step.y1.copy(),
                    step.rise0.copy(),
                    step.rise1.copy()});
    return true;
  }
  std::vector<Kept> kept;
};

struct Scene {
  std::string name;
  HeatModel model;
  OvenDay day;
  State start;
  std::vector<LidOpening> lid;
  std::vector<test::Level> levels;
};

struct Error {
  double worst_K = 0.0;
  int node = 0;
  double time_s = 0.0;
  void note(double error_K, int at_node, double at_s) {
    if (std::abs(error_K) > worst_K) *this = {std::abs(error_K), at_node, at_s};
  }
};

struct Comparison {
  std::array<Error, kNodes> settled{}, anywhere{};
  std::array<Error, kNodes> ends{};  ///< settled, at the steps' ends only
  std::vector<double> event_s;       ///< ours minus the oracle's; NaN where only one has it
  RunSummary summary;
  State end{};
};

/// Of all temperatures.
Error worst_of(const std::array<Error, kNodes>& errors) {
  Error most;
  for (const Error& e : errors) {
    if (e.node != kNodeWater && e.worst_K > most.worst_K) most = e;
  }
  return most;
}

std::vector<double> all_jumps(const Scene& scene) {
  std::vector<double> jumps = scene.day.jumps_s;
  jumps.push_back(scene.day.air.front().start_s);
  for (const LidOpening& lid : scene.lid) {
    jumps.push_back(lid.from_s);
    jumps.push_back(lid.to_s);
  }
  return jumps;
}

bool settled_at(const std::vector<double>& jumps, double time_s) {
  return std::none_of(jumps.begin(), jumps.end(), [time_s](double jump_s) {
    return jump_s < time_s && time_s < jump_s + kSettle_s;
  });
}

Step step_of(const Kept& k) {
  return {
      k.start_s, k.end_s, StateView(k.y0), StateView(k.y1), StateView(k.rise0), StateView(k.rise1)};
}

/// First rise through a level by our own steps, NaN for none.
double rise_s(const std::vector<Kept>& steps, const test::Level& level) {
  const auto node = static_cast<std::size_t>(level.node);
  for (const Kept& k : steps) {
    if (k.y0[node] >= level.level_K || k.y1[node] < level.level_K) continue;
    return k.start_s + step_of(k).crossing(level.node, level.level_K) * (k.end_s - k.start_s);
  }
  return std::nan("");
}

void compare_states(const Scene& scene,
                    const std::vector<Kept>& kept,
                    CvodeOracle& oracle,
                    Comparison& result) {
  const std::vector<double> jumps = all_jumps(scene);
  for (const Kept& k : kept) {
    const Step step = step_of(k);
    for (const double share : kShares) {
      const double time_s = k.start_s + share * (k.end_s - k.start_s);
      const State& exact = oracle.at(time_s);
      const bool settled = settled_at(jumps, time_s);
      for (int n = 0; n < kNodes; ++n) {
        const auto i = static_cast<std::size_t>(n);
        if (!scene.model.present[i]) continue;
        const double error_K = step.at(n, share) - exact[i];
        result.anywhere[i].note(error_K, n, time_s);
        if (settled) result.settled[i].note(error_K, n, time_s);
        if (settled && share == 1.0) result.ends[i].note(error_K, n, time_s);
      }
    }
  }
}

Comparison compare(const Scene& scene, const IntegratorOptions& options = {}) {
  Comparison result;
  Recorder recorder;
  Run run;
  run.forcing = scene.day.view();
  run.start_s = scene.day.air.front().start_s;
  run.end_s = scene.day.air.back().end_s;
  run.state = scene.start;
  run.lid_open = scene.lid;
  CvodeOracle oracle(scene.model, run, scene.levels);
  run.watcher = &recorder;
  result.summary = integrate(scene.model, run, options);
  result.end = run.state;
  compare_states(scene, recorder.kept, oracle, result);
  for (std::size_t e = 0; e < scene.levels.size(); ++e) {
    const auto exact_s = oracle.risen_s(e);
    const double ours_s = rise_s(recorder.kept, scene.levels[e]);
    result.event_s.push_back(exact_s ? ours_s - *exact_s : std::nan(""));
  }
  return result;
}

constexpr double kHour_s = 3600.0;
State loaded_start(double oven_K) {
  State state = uniform_state(oven_K);
  for (const int n : {kNodeVessel, kNodeFood, kNodeShell1, kNodeShell2, kNodeShell3, kNodeShell4})
    state[static_cast<std::size_t>(n)] = 293.15;
  for (const int n : {kNodePane, kNodePane1, kNodePane2, kNodeWallSkin, kNodeFloorSkin})
    state[static_cast<std::size_t>(n)] = 315.0;
  return state;
}

Scene empty_day() {
  return {"empty, a day", test::default_oven(1), test::clear_day({}), uniform_state(286.0), {}, {}};
}

FoodLoad soup(double mass_kg) {
  FoodLoad food;
  food.mass_kg = food.water_kg = mass_kg;
  food.specific_heat_JkgK = 4186.0;
  return food;
}

Scene boiling_pot(int panes) {
  Scene scene;
  scene.name = std::to_string(panes) + " pane(s), 1.2 kg of soup boils, lid opened twice";
  scene.model = test::default_oven(panes, "black pot", soup(1.2));
  test::DayOptions day;
  day.from_s = 10.0 * kHour_s;
  day.to_s = 17.0 * kHour_s;
  day.noon_gain_W = 420.0;
  day.loaded = true;
  scene.day = test::clear_day(day);
  scene.start = loaded_start(380.0);
  scene.lid = {{11.25 * kHour_s, 11.25 * kHour_s + 60.0}, {14.5 * kHour_s, 14.5 * kHour_s + 120.0}};
  scene.levels = {{kNodeFood, 338.15}, {kNodeFood, 355.15}, {kNodeFood, scene.model.boiling_K}};
  return scene;
}

/// @param key of the cloud and the gusts
Scene broken_sky(bool loaded, std::uint64_t key = 20) {
  Scene scene;
  scene.name = loaded ? "broken cloud, 1 kg of soup" : "broken cloud, empty";
  scene.model = loaded ? test::default_oven(1, "black pot", soup(1.0)) : test::default_oven(1);
  test::DayOptions day;
  day.from_s = 9.0 * kHour_s;
  day.to_s = 18.0 * kHour_s;
  day.noon_gain_W = 480.0;
  day.loaded = loaded;
  scene.day = test::broken_day(day, key);
  scene.start = loaded ? loaded_start(370.0) : uniform_state(292.0);
  if (loaded) scene.levels = {{kNodeFood, 338.15}};
  return scene;
}

/// Clear from 10 h to noon; then the sun goes within a time.
test::OvenDay fading_day(double fade_s) {
  constexpr double kNoon_s = 12.0 * kHour_s;
  test::DayOptions day;
  day.from_s = 10.0 * kHour_s;
  day.noon_gain_W = 420.0;
  day.loaded = true;
  test::OvenDay made;
  for (const double to_s : {kNoon_s, kNoon_s + fade_s, 16.0 * kHour_s}) {
    add_stretch(made, day, to_s, 1.0, {2.0, 2.0});
    const auto left = [fade_s](double t) {
      return std::clamp(1.0 - (t - kNoon_s) / fade_s, 0.0, 1.0);
    };
    for (double& gain_W : made.gains.back().start_W) gain_W *= left(made.air.back().start_s);
    for (double& gain_W : made.gains.back().end_W) gain_W *= left(made.air.back().end_s);
  }
  return made;
}

Scene drying_out(FoodShape shape, bool moist = false) {
  FoodLoad food;
  food.mass_kg = 0.6;
  food.specific_heat_JkgK = 3000.0;
  food.shape = shape;
  food.half_size_m = shape == FoodShape::kSlab ? 0.02 : 0.025;
  food.water_kg = 0.12;
  food.water_share = moist ? 0.5 : 0.0;
  Scene scene;
  scene.name = shape == FoodShape::kSlab ? "a slab dries out" : "balls dry out";
  scene.model = test::default_oven(1, "cookie sheet", food);
  test::DayOptions day;
  day.from_s = 9.5 * kHour_s;
  day.to_s = 17.5 * kHour_s;
  day.noon_gain_W = 450.0;
  day.loaded = true;
  scene.day = test::clear_day(day);
  scene.start = loaded_start(390.0);
  scene.levels = {{kNodeShell4, 338.15}, {kNodeShell4, 347.05}};
  return scene;
}

/// Frozen until the afternoon begins.
Scene thawing(FoodShape shape) {
  FoodLoad food = soup(0.8);
  food.water_kg = 0.4;
  food.water_share = 0.8;
  food.frozen = true;
  food.shape = shape;
  Scene scene;
  scene.name = shape == FoodShape::kStirred ? "frozen soup thaws" : "frozen balls thaw";
  scene.model = test::default_oven(1, "black pot", food);
  test::DayOptions day;
  day.from_s = 9.0 * kHour_s;
  day.to_s = 16.0 * kHour_s;
  day.noon_gain_W = 450.0;
  day.loaded = true;
  scene.day = test::clear_day(day);
  scene.start = loaded_start(350.0);
  for (const int n : {kNodeFood, kNodeShell1, kNodeShell2, kNodeShell3, kNodeShell4})
    scene.start[static_cast<std::size_t>(n)] = scene.model.food_state_K(255.15);
  scene.levels = {{scene.model.core_node(), 278.15}, {scene.model.core_node(), 330.15}};
  return scene;
}

std::vector<Scene> all_scenes() {
  return {empty_day(),
          boiling_pot(1),
          boiling_pot(2),
          boiling_pot(3),
          broken_sky(false),
          broken_sky(true),
          drying_out(FoodShape::kSlab),
          drying_out(FoodShape::kSphere)};
}
}  // namespace

namespace {
/// The bounds themselves, for one scene.
void hold_to_bounds(const Scene& scene, Precision precision) {
  INFO((precision == Precision::kSingle ? "single" : "double"));
  IntegratorOptions options;
  options.precision = precision;
  const Comparison c = compare(scene, options);
  REQUIRE(!c.summary.failed());
  for (std::size_t n = 0; n < kNodes; ++n) {
    if (n == kNodeWater) continue;
    INFO(scene.name << ": node " << n << " at " << c.settled[n].time_s / kHour_s << " h");
    // A lid's convection has a kink where it passes the air's temperature; its own thin sheet may
    // be off by half as much again for a moment, the food beneath it is not.
    CHECK(c.settled[n].worst_K <= (n == kNodeLid ? 1.5 * kBound_K : kBound_K));
  }
  for (std::size_t e = 0; e < c.event_s.size(); ++e) {
    INFO(scene.name << ": level " << scene.levels[e].level_K << " K");
    CHECK(std::abs(c.event_s[e]) <= kEventBound_s);  // NaN, an event only one has, fails
  }
  if (scene.model.drying()) CHECK(c.anywhere[kNodeWater].worst_K <= kWaterBound_percent);
}
void hold_to_bounds(const Scene& scene) {
  for (const Precision precision : {Precision::kDouble, Precision::kSingle})
    hold_to_bounds(scene, precision);
}
}  // namespace

TEST_CASE("an empty oven's day stays within 0.1 K of CVODE", "[heat][reference]") {
  hold_to_bounds(empty_day());
}

TEST_CASE("a pot that boils, its lid opened twice, stays within 0.1 K and 5 s of CVODE",
          "[heat][reference]") {
  hold_to_bounds(boiling_pot(1));
}

TEST_CASE("so do ovens of two and of three panes", "[heat][reference]") {
  hold_to_bounds(boiling_pot(2));
  hold_to_bounds(boiling_pot(3));
}

// A jump of sun or wind makes the air swing for seconds; a first step of 15 s after a large one
// follows it (without that cap the air was off by up to 1.4 K between steps on most of these days).
TEST_CASE("days of broken cloud and gusts stay within 0.1 K of CVODE", "[heat][reference]") {
  for (std::uint64_t key = 1; key <= 30; ++key) {
    CAPTURE(key);
    hold_to_bounds(broken_sky(false, key));
    hold_to_bounds(broken_sky(true, key));
  }
}

// When power fails the boil, the steam's steep slope holds the food at the boiling point for the
// rest of the step, and the embedded error is blind to it (0.24 K and more before it was asked
// for).
TEST_CASE("food that leaves the boil cools as CVODE has it, however the sun goes",
          "[heat][reference]") {
  for (const double fade_s : {60.0, 300.0, 900.0, 1800.0, 3600.0, 7200.0}) {
    Scene scene = boiling_pot(1);
    scene.day = fading_day(fade_s);
    scene.lid.clear();
    scene.start[kNodeFood] = scene.start[kNodeVessel] = scene.model.boiling_K - 5.0;
    scene.levels = {{kNodeFood, scene.model.boiling_K}};
    for (const Precision precision : {Precision::kDouble, Precision::kSingle}) {
      CAPTURE(fade_s, precision == Precision::kSingle);
      IntegratorOptions options;
      options.precision = precision;
      const Comparison c = compare(scene, options);
      REQUIRE(!c.summary.failed());
      CHECK(std::abs(c.event_s.front()) <= kEventBound_s);  // it boils
      CHECK(c.end[kNodeFood] < scene.model.boiling_K - 1.0);
      CHECK(c.ends[kNodeFood].worst_K <= 0.03);
    }
  }
}

TEST_CASE("food that dries out stays within 0.1 K of CVODE", "[heat][reference]") {
  hold_to_bounds(drying_out(FoodShape::kSlab));
  hold_to_bounds(drying_out(FoodShape::kSphere));
}

TEST_CASE("moist food that dries outside alone stays within 0.1 K of CVODE", "[heat][reference]") {
  hold_to_bounds(drying_out(FoodShape::kSlab, true));
  hold_to_bounds(drying_out(FoodShape::kSphere, true));
}

TEST_CASE("food that thaws stays within 0.1 K of CVODE", "[heat][reference]") {
  hold_to_bounds(thawing(FoodShape::kStirred));
  hold_to_bounds(thawing(FoodShape::kSphere));
}

TEST_CASE("the steps of those runs end within 0.1 K of CVODE", "[heat][reference]") {
  for (const Scene& scene : {broken_sky(false),
                             broken_sky(true),
                             drying_out(FoodShape::kSlab),
                             drying_out(FoodShape::kSphere)}) {
    for (const Precision precision : {Precision::kDouble, Precision::kSingle}) {
      IntegratorOptions options;
      options.precision = precision;
      const Comparison c = compare(scene, options);
      const Error worst = worst_of(c.ends);
      INFO(scene.name << ": node " << worst.node << " at " << worst.time_s / kHour_s << " h");
      CHECK(worst.worst_K <= kBound_K);
      if (scene.model.shells) CHECK(c.end[kNodeWater] < 10.0);  // or the scene would not dry out
    }
  }
}

TEST_CASE(
    "the oracle itself moves by less than a millikelvin when its tolerance is loosened tenfold",
    "[heat][identity]") {
  for (const Scene& scene : {boiling_pot(2), broken_sky(true), drying_out(FoodShape::kSlab)}) {
    Run run;
    run.forcing = scene.day.view();
    run.start_s = scene.day.air.front().start_s;
    run.end_s = scene.day.air.back().end_s;
    run.state = scene.start;
    run.lid_open = scene.lid;
    CvodeOracle tight(scene.model, run);
    CvodeOracle loose(scene.model, run, {}, {1e-8, 1e-7});
    for (int i = 0; run.start_s + 300.0 * i <= run.end_s; ++i) {
      const State& a = tight.at(run.start_s + 300.0 * i);
      const State& b = loose.at(run.start_s + 300.0 * i);
      for (std::size_t n = 0; n < kNodes; ++n) REQUIRE(std::abs(a[n] - b[n]) < 1e-3);
    }
  }
}

TEST_CASE("errors against CVODE as a table", "[heat][.table]") {
  std::printf(
      "tolerance_K, scene, steps, rejected, settled_K (node), anywhere_K (node), events_s\n");
  for (const double tolerance_K : {0.02, -0.02, 0.01, -0.01, 0.005, -0.005}) {  // < 0: single
    IntegratorOptions options;
    options.tolerance_K = std::abs(tolerance_K);
    if (tolerance_K < 0.0) options.precision = Precision::kSingle;
    for (const Scene& scene : all_scenes()) {
      const Comparison c = compare(scene, options);
      const Error settled = worst_of(c.settled);
      const Error ends = worst_of(c.ends);
      const Error anywhere = worst_of(c.anywhere);
      std::printf("%.3f, %s, %d, %d, %.4f (%d), %.4f (%d), %.4f (%d),",
                  tolerance_K,
                  scene.name.c_str(),
                  c.summary.steps,
                  c.summary.rejected,
                  settled.worst_K,
                  settled.node,
                  ends.worst_K,
                  ends.node,
                  anywhere.worst_K,
                  anywhere.node);
      for (const double event_s : c.event_s) std::printf(" %.3f", event_s);
      std::printf("\n");
    }
  }
}
