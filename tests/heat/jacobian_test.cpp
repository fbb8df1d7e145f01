// SPDX-License-Identifier: MIT
// The network's own truths: its Jacobian is the derivative of its powers, its solver solves, and
// what leaves one node arrives at another.
#include <cmath>

#include "catch.h"
#include "kernel.h"
#include "made_network.h"
#include "ovendays/base/random.h"
#include "solver.h"

using namespace ovendays;
using namespace ovendays::heat;
using test::within_abs;
using test::within_rel;

namespace {

State warm_state(std::uint64_t key) {
  base::KeyedRandom random(key);
  State y{};
  for (double& t : y) t = 300.0 + 70.0 * random.uniform();
  return y;
}

kernel::Instant made_instant(const test::MadeForcing& forcing) {
  const AirSegment& air = forcing.air[9];
  return {air.start, forcing.gains[9].start_W, kernel::gap_tilt(0.5), 1000.0, 0.6, false, 1.0};
}

/// The dense Jacobian in state order, from the core and the chains.
std::array<State, kNodes> dense(const HeatModel& model, const kernel::Jacobian& j) {
  std::array<State, kNodes> full{};
  for (std::size_t a = 0; a < kernel::kCore; ++a) {
    for (std::size_t b = 0; b < kernel::kCore; ++b) {
      full[static_cast<std::size_t>(kernel::kCoreNode[a])]
          [static_cast<std::size_t>(kernel::kCoreNode[b])] = j.core[a][b];
    }
  }
  const auto chain = [&](const kernel::Jacobian::Chain& c, int anchor, int first, int length) {
    for (int k = 0; k < length; ++k) {
      const auto i = static_cast<std::size_t>(k);
      const auto outer = static_cast<std::size_t>(first + k);
      const std::size_t inner =
          k == 0 ? static_cast<std::size_t>(kernel::kCoreNode[static_cast<std::size_t>(anchor)])
                 : outer - 1;
      full[outer][inner] = c.to_outer[i];
      full[inner][outer] = c.to_inner[i];
      full[outer][outer] = c.diagonal[i];
    }
  };
  chain(j.wall, kernel::kWallAnchor, kNodeWall1, 4);
  chain(j.floor, kernel::kFloorAnchor, kNodeFloor1, 4);
  if (model.shells) chain(j.shell, kernel::kShellAnchor, kNodeShell1, 4);
  if (model.panes == 3) chain(j.pane, kernel::kPaneAnchor, kNodePane2, 1);
  return full;
}
}  // namespace

TEST_CASE("the Jacobian equals central differences of the powers for every oven",
          "[heat][identity]") {
  const test::MadeForcing forcing = test::made_forcing(3.0, 250.0);
  const kernel::Instant now = made_instant(forcing);
  for (const int panes : {1, 2, 3}) {
    for (const bool solid : {false, true}) {
      for (const double food_K : {330.0, 373.6}) {  // below boiling, and boiling
        const HeatModel model = test::made_network(panes, solid);
        State y = warm_state(static_cast<std::uint64_t>(panes));
        y[kNodeFood] = food_K;
        y[kNodePane] = 305.0;  // dew falls
        kernel::Powers powers;
        kernel::Jacobian jacobian;
        kernel::evaluate(model, now, y, powers, &jacobian);
        const auto full = dense(model, jacobian);
        for (std::size_t column = 0; column < kNodes; ++column) {
          if (!model.present[column]) continue;
          constexpr double kStep_K = 1e-3;
          kernel::Powers up;
          kernel::Powers down;
          State moved = y;
          moved[column] += kStep_K;
          kernel::evaluate(model, now, moved, up, nullptr);
          moved[column] -= 2.0 * kStep_K;
          kernel::evaluate(model, now, moved, down, nullptr);
          for (std::size_t row = 0; row < kNodes; ++row) {
            const double slope = (up.into_W[row] - down.into_W[row]) / (2.0 * kStep_K);
            const double slack = 1e-4 * (1.0 + std::abs(slope));  // of the central difference
            INFO("panes " << panes << " solid " << solid << " row " << row << " column " << column);
            REQUIRE_THAT(full[row][column], within_abs(slope, slack));
          }
        }
      }
    }
  }
}

TEST_CASE("the chain-folding solver solves the system it was given", "[heat][identity]") {
  const test::MadeForcing forcing = test::made_forcing(3.0, 250.0);
  for (const int panes : {1, 2, 3}) {
    const HeatModel model = test::made_network(panes, true);
    kernel::Powers powers;
    kernel::Jacobian jacobian;
    kernel::evaluate(model, made_instant(forcing), warm_state(7), powers, &jacobian);
    const double rate = 2.0 / 60.0;
    kernel::StepMatrix matrix;
    matrix.factor(model, jacobian, rate);
    State right = powers.into_W;
    for (std::size_t i = 0; i < kNodes; ++i) {
      if (!model.present[i]) right[i] = 0.0;
    }
    State x = right;
    matrix.solve(x);
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
    kernel::Powers powers;
    kernel::evaluate(model, made_instant(forcing), y, powers, nullptr);
    double sum = 0.0;
    for (const double power : powers.into_W) sum += power;
    REQUIRE_THAT(sum, within_abs(powers.flows.sun_W - powers.flows.out_W, 1e-9));  // rounding
  }
}

TEST_CASE("an oven at the temperature of all around it stays there", "[heat][identity]") {
  HeatModel model = test::made_network(2, true);
  model.water_kg = 0.0;
  test::MadeForcing forcing = test::made_forcing(1.0, 0.0);
  kernel::Instant now = made_instant(test::made_forcing(3.0, 0.0));
  const double t = 300.0;
  now.around = {t, t * t * t * t, t * t * t * t, 0.0, 2.0};
  now.gain_W = {};
  now.wetness = 0.0;
  kernel::Powers powers;
  kernel::evaluate(model, now, uniform_state(t), powers, nullptr);
  for (const double power : powers.into_W) REQUIRE_THAT(power, within_abs(0.0, 1e-9));
}
