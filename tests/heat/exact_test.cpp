// SPDX-License-Identifier: MIT
// Parts of the network, cut out of it, against exact solutions: cooling by convection and by
// radiation, plates that radiate, resistances in a row. Ids such as HT-14 are rows of
// tests/data/heat/published.csv.
#include <cmath>

#include "catch.h"
#include "lone_parts.h"
#include "oven_days.h"
#include "ovendays/base/constants.h"
#include "ovendays/heat/correlations.h"
#include "ovendays/optics/exchange.h"
#include "published.h"

using namespace ovendays;
using namespace ovendays::heat;
using namespace ovendays::test;

TEST_CASE("a plate in the wind cools exponentially", "[heat][reference]") {
  HeatModel m = bare_model();
  add(m, kNodePane, 1400.0);
  m.pane_area_m2 = 0.16;
  AirSegment air = still_air(293.15, 2.0);
  air.start.wind_ms = air.end.wind_ms = 2.4;  // 10 W/m2K
  const auto exact_K = [](double t) { return 293.15 + 100.0 * std::exp(-1.6 * t / 1400.0); };
  const State hot = uniform_state(393.15);
  const double normal_K = worst_K(m, air, hot, {kNodePane, exact_K});
  const double tight_K = worst_K(m, air, hot, {kNodePane, exact_K}, 1e-5);
  INFO("error " << normal_K << " K, at a tolerance of 1e-5 K " << tight_K << " K");
  CHECK(normal_K < 0.1);  // the integrator's bound
  CHECK(tight_K < 1e-3);  // third order: a hundredth of it and less
}

TEST_CASE("a plate that only radiates into the void cools by the inverse cube",
          "[heat][reference]") {
  HeatModel m = bare_model();
  add(m, kNodeLiner, 2000.0);
  m.film_outside_m2[1] = 0.2;
  const auto exact_K = [](double t) {
    return std::pow(std::pow(450.0, -3) + 3.0 * base::kStefanBoltzmann_Wm2K4 * 0.2 / 2000.0 * t,
                    -1.0 / 3.0);
  };
  const AirSegment air = still_air(300.0, 3.0, 0.0);
  const State hot = uniform_state(450.0);
  const double normal_K = worst_K(m, air, hot, {kNodeLiner, exact_K});
  const double tight_K = worst_K(m, air, hot, {kNodeLiner, exact_K}, 1e-5);
  INFO("error " << normal_K << " K, at a tolerance of 1e-5 K " << tight_K << " K");
  CHECK(normal_K < 0.1);
  CHECK(tight_K < 1e-3);
}

TEST_CASE("a plate that radiates to warm surroundings takes the time the closed form says",
          "[heat][reference]") {
  HeatModel m = bare_model();
  add(m, kNodeLiner, 2000.0);
  m.film_outside_m2[1] = 0.2;
  const double around_K = 290.0;
  // Separation of variables: 4 sigma A Te^3 t / C = [ln((T+Te)/(T-Te)) + 2 atan(T/Te)].
  const auto measure = [&](double t_K) {
    return std::log((t_K + around_K) / (t_K - around_K)) + 2.0 * std::atan(t_K / around_K);
  };
  const double rate =
      4.0 * base::kStefanBoltzmann_Wm2K4 * 0.2 * around_K * around_K * around_K / 2000.0;
  const auto exact_K = [&](double t) {
    const double target = measure(430.0) + rate * t;
    return root_between(
        around_K + 1e-9, 430.0 + 1e-9, [&](double t_K) { return measure(t_K) - target; });
  };
  const AirSegment air = still_air(300.0, 3.0, around_K);
  CHECK(worst_K(m, air, uniform_state(430.0), {kNodeLiner, exact_K}) < 0.1);
}

TEST_CASE("two plates of the network exchange what parallel grey plates do", "[heat][reference]") {
  struct Row {
    double first, second;
    const char* quantity;
  };
  for (const Row& row : {Row{0.90, 0.84, "flux_90_84_Wm2"},
                         Row{0.95, 0.88, "flux_95_88_Wm2"},
                         Row{0.90, 0.04, "flux_90_04_Wm2"}}) {
    HeatModel m = bare_model();
    add(m, kNodeLiner, 1.0);
    add(m, kNodeTray, 1.0);
    m.exchange_m2[1][2] = m.exchange_m2[2][1] = optics::parallel_plates(row.first, row.second);
    State state = uniform_state(323.15);
    state[kNodeLiner] = 373.15;
    State rate;
    Flows flows;
    right_hand_side(m, still_air(300.0, 1.0), {}, 0.0, state, rate, flows);
    CHECK_THAT(rate[kNodeTray], within_published("HT-14", row.quantity));
    CHECK_THAT(rate[kNodeLiner], within_abs(-rate[kNodeTray], 1e-12));
  }
}

TEST_CASE("an oven at one temperature with all around it stays there for a day",
          "[heat][identity]") {
  const double t_K = 305.0;
  const double margin_W = test::published("HT-15", "isothermal_flux_W").margin;
  for (const int panes : {1, 2, 3}) {
    const HeatModel m = test::default_oven(panes);
    AirSegment air = still_air(t_K, 24.0);
    air.start.wind_ms = air.end.wind_ms = 3.0;
    State rate;
    Flows flows;
    right_hand_side(m, air, {}, 0.5, uniform_state(t_K), rate, flows);
    CHECK_THAT(flows.out_W, within_abs(0.0, margin_W));
    for (const int node : {kNodeAir, kNodePane, kNodeLiner, kNodeTray, kNodeWall2}) {
      const auto still_K = [t_K](double) { return t_K; };
      CHECK(worst_K(m, air, uniform_state(t_K), {node, still_K}) < 1e-9);
    }
  }
}

TEST_CASE("resistances in a row carry what Kirchhoff's integral says", "[heat][reference]") {
  // Tray held at 400 K, contact to the liner, wall of a conductivity that rises linearly, wind at
  // the skin. In between, power = UA (1 + s (mean - 298.15 K)) (T1 - T2) exactly, however many
  // nodes the wall has.
  LoneWall wall = lone_wall();
  HeatModel& m = wall.model;
  m.wall_slope_1K = 0.004;
  add(m, kNodeLiner, 300.0);
  add(m, kNodeTray, kHeld_JK);
  m.tray_floor_WK = 0.8;
  AirSegment air = still_air(285.0, 60.0);
  air.start.wind_ms = air.end.wind_ms = 2.0;
  State state = uniform_state(300.0);
  state[kNodeTray] = 400.0;
  const GainSegment dark;
  Run run;
  run.forcing = {std::span(&air, 1), std::span(&dark, 1)};
  run.end_s = air.end_s;
  run.state = state;
  REQUIRE(!integrate(m, run, {}).failed());
  const double ua_WK = wall.conductivity_WmK * wall.area_m2 / wall.thick_m;
  const double skin_WK = m.wall_skin_m2 * wind_coefficient_Wm2K(2.0);
  const double exact_W = root_between(0.0, 200.0, [&](double power_W) {
    const double liner_K = 400.0 - power_W / 0.8;
    const double skin_K = 285.0 + power_W / skin_WK;
    const double mean_K = 0.5 * (liner_K + skin_K);
    return power_W - ua_WK * (1.0 + 0.004 * (mean_K - 298.15)) * (liner_K - skin_K);
  });
  State rate;
  Flows flows;
  right_hand_side(m, air, dark, 1.0, run.state, rate, flows);
  CHECK_THAT(flows.out_W, within_rel(exact_W, 1e-4));  // 60 h, and 0.02 K a step
  CHECK_THAT(run.state[kNodeLiner], within_abs(400.0 - exact_W / 0.8, 0.02));
  CHECK_THAT(run.state[kNodeWallSkin], within_abs(285.0 + exact_W / skin_WK, 0.02));
}

TEST_CASE("the wind coefficient is Watmuff's and its mean lies among those measured on walls",
          "[heat][reference]") {
  CHECK_THAT(wind_coefficient_Wm2K(0.0), within_published("HT-9", "wind_0_Wm2K"));
  CHECK_THAT(wind_coefficient_Wm2K(1.0), within_published("HT-9", "wind_1_Wm2K"));
  CHECK_THAT(wind_coefficient_Wm2K(3.0), within_published("HT-9", "wind_3_Wm2K"));
  CHECK_THAT(wind_coefficient_Wm2K(5.0), within_published("HT-9", "wind_5_Wm2K"));
  const double mean = 0.5 * (wind_coefficient_Wm2K(0.0) + wind_coefficient_Wm2K(4.0));
  CHECK_THAT(mean, within_published("HT-11", "outdoor_wall_mean_Wm2K"));
}
