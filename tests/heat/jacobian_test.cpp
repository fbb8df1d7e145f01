// SPDX-License-Identifier: MIT
// The network's own truths: its Jacobian is the derivative of its powers, its solver solves, and
// what leaves one node arrives at another.
#include <cmath>

#include "catch.h"
#include "frozen_food.h"
#include "made_network.h"
#include "network.h"
#include "ovendays/base/random.h"
#include "ovendays/heat/correlations.h"
#include "step_matrix.h"

using namespace ovendays;
using namespace ovendays::heat;
using namespace ovendays::heat::portable;
using test::within_abs;
using test::within_rel;

namespace {

State warm_state(std::uint64_t key) {
  base::KeyedRandom random(key);
  State y{};
  for (double& t : y) t = 300.0 + 70.0 * random.uniform();
  return y;
}

struct Conditions {
  BoundaryValues<double> now{};
  SegmentConstants<double> constants{};
};

Conditions made_conditions(const test::MadeForcing& forcing) {
  const AirSegment& air = forcing.air[9];
  Conditions scene;
  scene.now = {air.start.ambient_K,
               air.start.pane_env_K4,
               air.start.skin_env_K4,
               air.start.skin_gain_W,
               air.start.wind_ms,
               {}};
  for (std::size_t s = 0; s < oven::kSurfaces; ++s)
    scene.now.gain_W[s] = forcing.gains[9].start_W[s];
  const GapTilt tilt = gap_tilt(0.5);
  scene.constants = {tilt.cosine, tilt.sine_power, tilt.cosine_root, 1000.0, 0.6, 0.0};
  return scene;
}

Powers<double> powers_at(const HeatModel& model,
                         const Conditions& scene,
                         const State& y,
                         Jacobian<double>* jacobian = nullptr) {
  Powers<double> powers{};
  const DerivedNumbers<double> derived(model);
  const bool frozen = model.thaw_span_K > 0.0;
  const FoodStates<double> food(frozen ? model : test::frozen(model), y.data());
  const double* at_K = frozen ? food.at_K : y.data();
  if (jacobian != nullptr) {
    Network<double, true>(model, derived, scene.now, scene.constants, at_K, powers, jacobian)
        .evaluate();
    if (frozen) food.scale(*jacobian, powers);
  } else {
    Network<double, false>(model, derived, scene.now, scene.constants, at_K, powers, nullptr)
        .evaluate();
  }
  return powers;
}

/// The dense Jacobian in state order, from the core and the chains.
std::array<State, kNodes> dense(const HeatModel& model, const Jacobian<double>& j) {
  std::array<State, kNodes> full{};
  for (std::size_t a = 0; a < kCore; ++a) {
    for (std::size_t b = 0; b < kCore; ++b) {
      full[static_cast<std::size_t>(kCoreNode[a])][static_cast<std::size_t>(kCoreNode[b])] =
          j.core[a][b];
    }
  }
  const auto chain = [&](const Chain<double>& c, int anchor, int first, int length) {
    for (int k = 0; k < length; ++k) {
      const auto i = static_cast<std::size_t>(k);
      const auto outer = static_cast<std::size_t>(first) + i;
      const std::size_t inner =
          k == 0 ? static_cast<std::size_t>(kCoreNode[static_cast<std::size_t>(anchor)])
                 : outer - 1;
      full[outer][inner] = c.to_outer[i];
      full[inner][outer] = c.to_inner[i];
      full[outer][outer] = c.diagonal[i];
    }
  };
  chain(j.wall, kWallAnchor, kNodeWall1, 4);
  chain(j.floor, kFloorAnchor, kNodeFloor1, 4);
  if (model.shells) chain(j.shell, kShellAnchor, kNodeShell1, 4);
  if (model.panes == 3) chain(j.pane, kPaneAnchor, kNodePane2, 1);
  return full;
}

void require_exact_jacobian(const HeatModel& model, const Conditions& scene, const State& y) {
  Jacobian<double> jacobian{};
  powers_at(model, scene, y, &jacobian);
  const auto full = dense(model, jacobian);
  for (std::size_t column = 0; column < kNodes; ++column) {
    if (!model.present[column]) continue;
    constexpr double kStep_K = 1e-3;
    State moved = y;
    moved[column] += kStep_K;
    const Powers<double> up = powers_at(model, scene, moved);
    moved[column] -= 2.0 * kStep_K;
    const Powers<double> down = powers_at(model, scene, moved);
    for (std::size_t row = 0; row < kNodes; ++row) {
      const double slope = (up.into_W[row] - down.into_W[row]) / (2.0 * kStep_K);
      const double slack = 1e-4 * (1.0 + std::abs(slope));  // of the central difference
      INFO("row " << row << " column " << column);
      REQUIRE_THAT(full[row][column], within_abs(slope, slack));
    }
  }
}

/// The conditions some seconds on, all running at their rates.
Conditions moved_by(Conditions scene, const BoundaryValues<double>& rate, double span_s) {
  scene.now.ambient_K += span_s * rate.ambient_K;
  scene.now.pane_env_K4 += span_s * rate.pane_env_K4;
  scene.now.skin_env_K4 += span_s * rate.skin_env_K4;
  scene.now.skin_gain_W += span_s * rate.skin_gain_W;
  scene.now.wind_ms += span_s * rate.wind_ms;
  for (std::size_t s = 0; s < oven::kSurfaces; ++s) scene.now.gain_W[s] += span_s * rate.gain_W[s];
  return scene;
}
}  // namespace

TEST_CASE("the Jacobian equals central differences of the powers for every oven",
          "[heat][identity]") {
  const test::MadeForcing forcing = test::made_forcing(3.0, 250.0);
  Conditions scene = made_conditions(forcing);
  for (const int panes : {1, 2, 3}) {
    for (const int load : {0, 1, 2, 3}) {  // stirred or solid, open or under a lid
      const bool solid = load % 2 == 1;
      const bool lidded = load >= 2;
      for (const double food_K : {330.0, 373.6}) {  // below boiling, and boiling
        // In wind, and calm: then the pane's outer face loses by free convection.
        for (const double wind_ms : {2.0, 0.0}) {
          const HeatModel model = test::made_network(panes, solid, lidded);
          scene.now.wind_ms = wind_ms;
          State y = warm_state(static_cast<std::uint64_t>(panes));
          y[kNodeFood] = food_K;
          y[kNodePane] = panes == 1 && wind_ms == 0.0 ? 350.0 : 305.0;  // at 305 K dew falls
          y[kNodeWater] = food_K > 370.0 ? 20.0 : 80.0;                 // drying up, and plenty
          INFO("panes " << panes << " solid " << solid << " lid " << lidded << " wind " << wind_ms);
          require_exact_jacobian(model, scene, y);
        }
      }
    }
  }
}

TEST_CASE("the Jacobian is exact where steam holds a moist core", "[heat][identity]") {
  const Conditions scene = made_conditions(test::made_forcing(3.0, 250.0));
  const HeatModel model = test::made_network(1, true);
  State y = warm_state(4);
  for (const double crust_K : {372.0, 380.0}) {  // below the boiling point, and a dry crust
    y[kNodeFood] = crust_K;
    y[kNodeWater] = 0.5;
    require_exact_jacobian(model, scene, y);
  }
  const Powers<double> hot = powers_at(model, scene, y);
  y[kNodeFood] = 400.0;  // a hotter crust warms the inside no more
  const Powers<double> hotter = powers_at(model, scene, y);
  CHECK(hot.into_W[kNodeShell1] == hotter.into_W[kNodeShell1]);
}

TEST_CASE("the Jacobian is exact while food thaws, shell by shell", "[heat][identity]") {
  const Conditions scene = made_conditions(test::made_forcing(3.0, 250.0));
  for (const bool solid : {false, true}) {
    const HeatModel model = test::frozen(test::made_network(1, solid, !solid));
    for (const double outermost_C : {-10.0, -1.0, 5.0}) {  // frozen, thawing, thawed
      State y = warm_state(6);
      y[kNodeFood] = model.food_state_K(273.15 + outermost_C);
      y[kNodeShell1] = model.food_state_K(273.15 - 0.3);
      y[kNodeShell2] = model.food_state_K(273.15 - 1.7);
      y[kNodeShell3] = model.food_state_K(273.15 - 4.0);
      y[kNodeShell4] = model.food_state_K(273.15 - 18.0);
      INFO("solid " << solid << ", outermost at " << outermost_C << " C");
      require_exact_jacobian(model, scene, y);
    }
  }
}

TEST_CASE("powers drift as they change when the surroundings do", "[heat][identity]") {
  const test::MadeForcing forcing = test::made_forcing(3.0, 250.0);
  for (const double wind_ms : {2.0, 0.1}) {
    for (const double pane_K : {305.0, 350.0}) {
      const HeatModel model = test::made_network(1, true);
      Conditions scene = made_conditions(forcing);
      scene.now.wind_ms = wind_ms;
      State y = warm_state(5);
      y[kNodePane] = pane_K;
      BoundaryValues<double> rate{0.3, 2e5, 1e5, 2.0, 0.02, {1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0}};
      Powers<double> powers{};
      Jacobian<double> jacobian{};
      double into_Ws[kNodes];
      double out_Ws = 0.0;
      const DerivedNumbers<double> derived(model);
      Network<double, true> network(
          model, derived, scene.now, scene.constants, y.data(), powers, &jacobian);
      network.evaluate();
      network.drift(rate, into_Ws, out_Ws);
      constexpr double kSpan_s = 1e-3;
      const Powers<double> before = powers_at(model, moved_by(scene, rate, -kSpan_s), y);
      const Powers<double> after = powers_at(model, moved_by(scene, rate, kSpan_s), y);
      INFO("wind " << wind_ms << " pane " << pane_K);
      for (std::size_t i = 0; i < kNodes; ++i) {
        const double slope = (after.into_W[i] - before.into_W[i]) / (2.0 * kSpan_s);
        REQUIRE_THAT(into_Ws[i], within_abs(slope, 1e-5 * (1.0 + std::abs(slope))));
      }
      const double slope = (after.out_W - before.out_W) / (2.0 * kSpan_s);
      REQUIRE_THAT(out_Ws, within_abs(slope, 1e-5 * (1.0 + std::abs(slope))));
    }
  }
}

TEST_CASE("the chain-folding solver solves the system it was given", "[heat][identity]") {
  const test::MadeForcing forcing = test::made_forcing(3.0, 250.0);
  for (const int panes : {1, 2, 3}) {
    const HeatModel model = test::made_network(panes, true);
    Jacobian<double> jacobian{};
    const Powers<double> powers =
        powers_at(model, made_conditions(forcing), warm_state(7), &jacobian);
    const double rate = 2.0 / 60.0;
    StepMatrix<double> matrix(model);
    matrix.factor(jacobian, rate, true);
    State right{};
    for (std::size_t i = 0; i < kNodes; ++i) right[i] = model.present[i] ? powers.into_W[i] : 0.0;
    State x = right;
    matrix.solve(x.data());
    const auto full = dense(model, jacobian);
    for (std::size_t row = 0; row < kNodes; ++row) {
      if (!model.present[row]) continue;
      double sum = rate * model.capacity_JK[row] * x[row];
      for (std::size_t column = 0; column < kNodes; ++column) sum -= full[row][column] * x[column];
      REQUIRE_THAT(
          sum,
          within_abs(right[row], 1e-9 * (1.0 + std::abs(right[row]))));  // rounding of 20 terms
    }
  }
}

TEST_CASE("powers into all nodes sum to sun minus what leaves", "[heat][identity]") {
  const test::MadeForcing forcing = test::made_forcing(3.0, 250.0);
  for (const int panes : {1, 2, 3}) {
    const HeatModel model = test::made_network(panes, true);
    State y = warm_state(3);
    y[kNodeFood] = 373.5;
    const Conditions scene = made_conditions(forcing);
    const Powers<double> powers = powers_at(model, scene, y);
    double sum = 0.0;
    for (std::size_t i = 0; i < kNodes; ++i) sum += i == kNodeWater ? 0.0 : powers.into_W[i];
    REQUIRE_THAT(sum, within_abs(scene.now.sun_W() - powers.out_W, 1e-9));  // rounding
  }
}

TEST_CASE("an oven at the temperature of all around it stays there", "[heat][identity]") {
  HeatModel model = test::made_network(2, true);
  model.water_kg = 0.0;
  Conditions scene = made_conditions(test::made_forcing(3.0, 0.0));
  const double t = 300.0;
  scene.now = {t, t * t * t * t, t * t * t * t, 0.0, 2.0, {}};
  const Powers<double> powers = powers_at(model, scene, uniform_state(t));
  for (const double power : powers.into_W) REQUIRE_THAT(power, within_abs(0.0, 1e-9));
}
