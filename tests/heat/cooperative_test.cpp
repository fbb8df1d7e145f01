// SPDX-License-Identifier: MIT
// The network is cooperative: what makes one node warmer makes no other node cooler, so that of two
// states under the same forcing the one that is nowhere cooler stays so. Steam departs from it, and
// this says by how much.
#include <algorithm>
#include <cmath>

#include "catch.h"
#include "made_network.h"
#include "ovendays/base/random.h"
#include "ovendays/heat/integrator.h"

using namespace ovendays;
using namespace ovendays::heat;

namespace {

/// An oven in use: everything inside between 280 and 420 K, the outside cooler.
State oven_in_use(base::KeyedRandom& random) {
  const auto between = [&](double low, double high) {
    return low + (high - low) * random.uniform();
  };
  State y{};
  for (double& t : y) t = between(300.0, 420.0);
  for (const int node : {kNodePane, kNodePane1, kNodePane2})
    y[static_cast<std::size_t>(node)] = between(280.0, 370.0);
  for (const int node : {kNodeWallSkin, kNodeFloorSkin})
    y[static_cast<std::size_t>(node)] = between(280.0, 310.0);
  for (const int node :
       {kNodeVessel, kNodeFood, kNodeShell1, kNodeShell2, kNodeShell3, kNodeShell4})
    y[static_cast<std::size_t>(node)] = between(275.0, 373.0);
  y[kNodeWater] = between(31.0, 100.0);
  return y;
}

/// Power into every node [W] (of kNodeWater [%/s]).
State powers(const HeatModel& model, const AirSegment& air, const State& y) {
  State rate{};
  Flows flows{};
  right_hand_side(model, air, GainSegment{}, 0.5, y, rate, flows);
  for (std::size_t n = 0; n < kNodes; ++n) rate[n] *= model.capacity_JK[n];
  return rate;
}

/// The most that a node loses when another one alone is made a kelvin warmer [W], by row and
/// column.
struct Worst {
  double loss_W = 0.0;
  std::size_t row = 0, column = 0;
};
Worst worst_loss(const HeatModel& model, bool count_food_by_air) {
  const test::MadeForcing forcing = test::made_forcing(2.0, 250.0);
  Worst worst;
  for (std::uint64_t key = 1; key <= 400; ++key) {
    base::KeyedRandom random(key);
    const State y = oven_in_use(random);
    AirSegment air = forcing.air[9];
    air.start.wind_ms = air.end.wind_ms = 8.0 * random.uniform();
    const State before = powers(model, air, y);
    for (std::size_t column = 0; column < kNodes; ++column) {
      if (!model.present[column] || column == kNodeWater) continue;
      State warmer = y;
      warmer[column] += 1.0;
      const State after = powers(model, air, warmer);
      for (std::size_t row = 0; row < kNodes; ++row) {
        if (!model.present[row] || row == column || row == kNodeWater) continue;
        if (!count_food_by_air && row == kNodeFood && column == kNodeAir) continue;
        const double loss_W = before[row] - after[row];
        if (loss_W > worst.loss_W) worst = {loss_W, row, column};
      }
    }
  }
  return worst;
}
}  // namespace

TEST_CASE("without steam no node is cooled by another one's warmth", "[heat][identity]") {
  for (const int panes : {1, 2, 3}) {
    for (const bool solid : {false, true}) {
      HeatModel model = test::made_network(panes, solid);
      model.water_kg = 0.0;
      model.present[kNodeWater] = false;
      model.derive_nodes();
      const Worst worst = worst_loss(model, true);
      INFO(panes << " panes: node " << worst.row << " by node " << worst.column);
      CHECK(worst.loss_W < 1e-9);
    }
  }
}

TEST_CASE(
    "steam from an open pan cools only the food, by the oven's air that carries off more of it",
    "[heat][identity]") {
  for (const int panes : {1, 2, 3}) {
    for (const bool solid : {false, true}) {
      const HeatModel model = test::made_network(panes, solid);
      const Worst others = worst_loss(model, false);
      INFO(panes << " panes: node " << others.row << " by node " << others.column);
      CHECK(others.loss_W < 1e-9);
      // Air that lies stably over a cool food warms it little: half of the plate law's 0.54.
      CHECK(worst_loss(model, true).loss_W < 0.5);
    }
  }
}

TEST_CASE(
    "under a lid the food alone is, by the oven's air that carries off more steam, and by little",
    "[heat][identity]") {
  for (const int panes : {1, 2, 3}) {
    const HeatModel model = test::made_network(panes, false, true);
    const Worst others = worst_loss(model, false);
    INFO(panes << " panes: node " << others.row << " by node " << others.column);
    CHECK(others.loss_W < 1e-9);
    const Worst worst = worst_loss(model, true);
    CHECK(worst.row == kNodeFood);
    CHECK(worst.loss_W > 0.0);
    CHECK(worst.loss_W < 0.07);  // against 15 W/K that bind it to its vessel
  }
}
