// SPDX-License-Identifier: MIT
// Food that has to thaw, and moist solids whose core steam holds at the boiling point.
#include <algorithm>
#include <cmath>

#include "catch.h"
#include "lone_parts.h"
#include "oven_days.h"
#include "ovendays/base/constants.h"

using namespace ovendays;
using namespace ovendays::heat;
using namespace ovendays::test;

namespace {
constexpr double kC = base::kZeroCelsius_K;

FoodLoad two_kilos(bool frozen) {
  FoodLoad food;
  food.mass_kg = 2.0;
  food.specific_heat_JkgK = 3900.0;
  food.water_share = 0.9;
  food.frozen = frozen;
  return food;
}

FoodLoad loaf(double water_share) {
  FoodLoad food;
  food.mass_kg = 0.726;
  food.specific_heat_JkgK = 2850.0;
  food.shape = FoodShape::kCylinder;
  food.half_size_m = 0.0406;
  food.density_kgm3 = 450.0;
  food.contact_Wm2K = 40.0;
  food.water_kg = 0.0726;
  food.water_share = water_share;
  return food;
}

/// Hottest shell inside the food, and crust, along a run.
class HottestShell : public StepWatcher {
 public:
  bool on_step(const Step& step) override {
    for (std::size_t n = kNodeShell1; n <= kNodeShell4; ++n)
      inside_K = std::max(inside_K, step.y1[n]);
    crust_K = std::max(crust_K, step.y1[kNodeFood]);
    return true;
  }
  double inside_K = 0.0, crust_K = 0.0;
};

struct Baked {
  HottestShell hottest;
  RunSummary summary;
  double boiling_K;
};
/// A loaf left all day in an oven that is too hot for it.
Baked baked(double water_share, Precision precision) {
  const HeatModel model = default_oven(1, "loaf pan", loaf(water_share));
  DayOptions day;
  day.from_s = 9.0 * 3600.0;
  day.to_s = 16.0 * 3600.0;
  day.noon_gain_W = 450.0;
  day.loaded = true;
  const OvenDay forcing = clear_day(day);
  Baked result;
  result.boiling_K = model.boiling_K;
  Run run;
  run.forcing = forcing.view();
  run.start_s = day.from_s;
  run.end_s = day.to_s;
  run.state = uniform_state(400.0);
  for (const int n : {kNodeVessel, kNodeFood, kNodeShell1, kNodeShell2, kNodeShell3, kNodeShell4})
    run.state[static_cast<std::size_t>(n)] = 297.0;
  run.watcher = &result.hottest;
  IntegratorOptions options;
  options.precision = precision;
  result.summary = integrate(model, run, options);
  REQUIRE(!result.summary.failed());
  REQUIRE(run.state[kNodeWater] < 5.0);  // or its crust never dried
  return result;
}
}  // namespace

TEST_CASE("frozen food holds less heat by that of its ice and of melting it", "[heat][reference]") {
  // 334 kJ/kg and 2.1 kJ/kgK of ice: 2 kg with 90 % water from -18 to 20 C take
  // 2 (0.9 x 334 + 2.1 x 18 + 3.9 x 20) kJ = 832.8 kJ, of them 601 to melt.
  const HeatModel model = default_oven(1, "black pot", two_kilos(true));
  State cold = uniform_state(300.0);
  State warm = cold;
  cold[kNodeFood] = model.food_state_K(kC - 18.0);
  warm[kNodeFood] = model.food_state_K(kC + 20.0);
  CHECK_THAT(model.stored_J(warm, kC) - model.stored_J(cold, kC), within_abs(832.8e3, 1e-3));
  CHECK_THAT(warm[kNodeFood], within_abs(kC + 20.0, 1e-12));
  // Melting alone, between -2 and 0 C, with the ice's heat over these two kelvin.
  cold[kNodeFood] = model.food_state_K(kC - 2.0);
  warm[kNodeFood] = model.food_state_K(kC);
  CHECK_THAT(model.stored_J(warm, kC) - model.stored_J(cold, kC),
             within_abs(2.0 * (0.9 * 334e3 + 2.1e3 * 2.0), 1e-3));
  for (const double t_C : {-30.0, -18.0, -2.0, -1.3, -0.1, 0.0, 3.0, 80.0}) {
    CAPTURE(t_C);
    CHECK_THAT(model.food_temperature_K(model.food_state_K(kC + t_C)), within_abs(kC + t_C, 1e-9));
  }
  // Food that is not frozen has its temperature for its state.
  const HeatModel fresh = default_oven(1, "black pot", two_kilos(false));
  CHECK(fresh.food_state_K(kC - 18.0) == kC - 18.0);
  CHECK(fresh.food_temperature_K(kC - 18.0) == kC - 18.0);
}

TEST_CASE("frozen food in a warm vessel thaws in the time of the closed form",
          "[heat][reference]") {
  // C dH/dt = UA (Tv - T(H)) with T piecewise linear in H: a logarithm for each of the three
  // pieces.
  HeatModel m = bare_model();
  add(m, kNodeVessel, kHeld_JK);
  add(m, kNodeFood, 2.0 * 3900.0);
  m.loaded = true;
  m.food_vessel_WK = 10.0;
  m.thaw_span_K = (334e3 * 0.9 + 2.1e3 * kThawRange_K) / 3900.0;
  m.frozen_slope = 3900.0 / 2100.0;
  State start = uniform_state(kC + 40.0);
  start[kNodeFood] = m.food_state_K(kC - 18.0);
  const auto piece_s = [&](double from_C, double to_C, double heat_JK) {
    return heat_JK / 10.0 * std::log((40.0 - from_C) / (40.0 - to_C));
  };
  const double thawing_JK = 2.0 * (334e3 * 0.9 + 2.1e3 * kThawRange_K) / kThawRange_K;
  const double exact_s = piece_s(-18.0, -2.0, 2.0 * 2100.0) + piece_s(-2.0, 0.0, thawing_JK) +
                         piece_s(0.0, 20.0, 2.0 * 3900.0);
  Against watcher(kNodeFood, [](double) { return kC; });
  watcher.level_K = kC + 20.0;
  watch(m, still_air(kC + 40.0, 12.0), start, watcher, 0.02);
  INFO("thawed and warm after " << watcher.reached_s << " s, exactly " << exact_s << " s");
  // Without melting it would take a third of it.
  CHECK(exact_s > 2.5 * (piece_s(-18.0, -2.0, 2.0 * 2100.0) + piece_s(-2.0, 20.0, 2.0 * 3900.0)));
  CHECK_THAT(watcher.reached_s, within_rel(exact_s, 2e-3));  // 0.02 K of 20 K/h
}

TEST_CASE("an oven that thaws and heats frozen food closes its energy balance",
          "[heat][identity]") {
  for (const bool solid : {false, true}) {
    FoodLoad food = two_kilos(true);
    food.water_kg = 0.3;
    if (solid) food.shape = FoodShape::kSphere;
    const HeatModel model = default_oven(1, "black pot", food);
    DayOptions day;
    day.from_s = 9.0 * 3600.0;
    day.to_s = 16.0 * 3600.0;
    day.noon_gain_W = 420.0;
    day.loaded = true;
    const OvenDay forcing = clear_day(day);
    for (const Precision precision : {Precision::kDouble, Precision::kSingle}) {
      Run run;
      run.forcing = forcing.view();
      run.start_s = day.from_s;
      run.end_s = day.to_s;
      run.state = uniform_state(330.0);
      for (const int n : {kNodeFood, kNodeShell1, kNodeShell2, kNodeShell3, kNodeShell4})
        run.state[static_cast<std::size_t>(n)] = model.food_state_K(kC - 18.0);
      IntegratorOptions options;
      options.precision = precision;
      const RunSummary summary = integrate(model, run, options);
      REQUIRE(!summary.failed());
      CHECK(run.state[static_cast<std::size_t>(model.core_node())] > kC + 30.0);
      const double rounding = precision == Precision::kDouble ? 1e-9 : 3e-5;
      CHECK(std::abs(summary.audit.residual_J()) < rounding * summary.audit.in_J);
      CHECK(summary.steps < 600);
    }
  }
}

TEST_CASE("a loaf's core stays at the boiling point though its crust dries and passes it",
          "[heat][identity]") {
  for (const Precision precision : {Precision::kDouble, Precision::kSingle}) {
    const Baked moist = baked(0.6, precision);
    INFO("inside " << moist.hottest.inside_K << " K, crust " << moist.hottest.crust_K << " K, "
                   << moist.summary.steps << " steps, " << moist.summary.rejected << " rejected");
    CHECK(moist.hottest.inside_K < moist.boiling_K + 0.01);  // 0.1 K would do
    CHECK(moist.hottest.crust_K > moist.boiling_K + 5.0);
    const double rounding = precision == Precision::kDouble ? 1e-9 : 3e-5;
    CHECK(std::abs(moist.summary.audit.residual_J()) < rounding * moist.summary.audit.in_J);
    const Baked dry = baked(0.0, precision);
    CHECK(dry.hottest.inside_K > dry.boiling_K + 5.0);
    CHECK(moist.summary.steps < 1.5 * dry.summary.steps);
  }
}
