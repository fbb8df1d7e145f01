// SPDX-License-Identifier: MIT
// Heat networks made by hand for tests: a box oven with everything in it, and its forcing.
#pragma once

#include <array>
#include <vector>

#include "ovendays/heat/forcing.h"
#include "ovendays/heat/model.h"

namespace ovendays::test {

/// A plausible loaded oven of `panes` panes, every coupling present: of an open vessel, or of one
/// under a lid.
inline heat::HeatModel made_network(int panes, bool solid, bool lidded = false) {
  using namespace heat;
  HeatModel m;
  m.capacity_JK.fill(1.0);
  m.panes = panes;
  m.loaded = true;
  m.shells = solid;
  const auto node = [&](int n, double capacity_JK) {
    m.capacity_JK[static_cast<std::size_t>(n)] = capacity_JK;
    m.present[static_cast<std::size_t>(n)] = true;
  };
  node(kNodeAir, 40.0);
  node(kNodePane, 1400.0);
  node(kNodeLiner, 700.0);
  node(kNodeTray, 540.0);
  node(kNodeVessel, 430.0);
  node(kNodeFood, solid ? 900.0 : 7800.0);
  if (panes > 1) node(kNodePane1, 1400.0);
  if (panes > 2) node(kNodePane2, 1400.0);
  for (int i = 0; i < 4; ++i) {
    node(kNodeWall1 + i, i == 3 ? 600.0 : 900.0);
    node(kNodeFloor1 + i, i == 3 ? 300.0 : 500.0);
    if (solid) node(kNodeShell1 + i, 500.0);
  }
  if (lidded) node(kNodeLid, 180.0);
  // Pane, liner, tray and vessel among each other, and with what lies on top: lid or food.
  const std::array<std::size_t, 5> facing = {0, 1, 2, 3, lidded ? 4U : 5U};
  for (std::size_t i = 0; i < facing.size(); ++i) {
    for (std::size_t j = i + 1; j < facing.size(); ++j) {
      m.exchange_m2[facing[i]][facing[j]] = m.exchange_m2[facing[j]][facing[i]] =
          0.01 + 0.004 * static_cast<double>(i + j);
    }
  }
  m.convection = {0.14, 0.3, 0.12, 0.08, lidded ? 0.03 : 0.0, lidded ? 0.0 : 0.03};
  m.still_WK = {0.03, 0.06, 0.03, 0.02, lidded ? 0.01 : 0.0, lidded ? 0.0 : 0.01};
  if (lidded) {
    m.exchange_m2[4][5] = m.exchange_m2[5][4] = 0.01;
    m.lid_vessel_WK = 0.4;
    m.lid_food_WK = 0.05;
    m.lid_transmittance = 0.3;
    m.vapour_lid_kgsPa = 1e-9;
  }
  m.tray_floor_WK = 0.5;
  m.tray_vessel_WK = 2.0;
  m.food_vessel_WK = 15.0;
  m.shell_WK = {1.5, 1.1, 0.7, 0.4};
  m.moist = solid;
  m.wall_WK = {4.0, 2.0, 2.0, 4.0};
  m.floor_WK = {2.0, 1.0, 1.0, 2.0};
  m.wall_slope_1K = m.floor_slope_1K = 0.002;
  m.wall_skin_m2 = 0.7;
  m.floor_skin_m2 = 0.3;
  m.gap_m = {0.015, 0.02};
  m.gap_ir_m2 = {0.115, 0.115};
  m.pane_area_m2 = 0.16;
  m.outer_pane_ir_m2 = 0.134;
  m.pane_free = 0.15;
  m.leak_m2 = 2e-4;
  m.lid_open_WK = 4.8;
  m.vapour_food_kgsPa = lidded ? 5e-11 : 1e-9;
  m.vapour_pane_kgsPa = 5e-9;
  m.boil_WK = 5000.0;
  m.water_kg = 1.5;
  m.present[kNodeWater] = true;
  m.derive_nodes();
  return m;
}

/// The same with food that is frozen or thaws below 0 degC: nine tenths water.
inline heat::HeatModel frozen(heat::HeatModel model) {
  model.thaw_span_K = (0.9 * heat::kFusion_Jkg + heat::kThawRange_K * heat::kIceHeat_JkgK) / 3900.0;
  model.frozen_slope = 3900.0 / heat::kIceHeat_JkgK;
  return model;
}

/// A day in the sun: an hour of ramp up, `hours` of steady sun with `gain_W` inside, in ten-minute
/// segments.
struct MadeForcing {
  std::vector<heat::AirSegment> air;
  std::vector<heat::GainSegment> gains;
  [[nodiscard]] heat::Forcing view() const { return {air, gains}; }
};
inline MadeForcing made_forcing(double hours, double gain_W, double ripple = 0.0) {
  MadeForcing made;
  const auto fourth = [](double t) { return t * t * t * t; };
  const int count = static_cast<int>(hours * 6.0);
  for (int i = 0; i < count; ++i) {
    const auto level = [&](int k) {
      const double ramp = k < 6 ? static_cast<double>(k) / 6.0 : 1.0;
      return ramp * gain_W * (1.0 - ((k / 3) % 2 == 1 ? ripple : 0.0));
    };
    heat::AirSegment air;
    air.start_s = 600.0 * i;
    air.end_s = 600.0 * (i + 1);
    const auto around = [&](int k) {
      const double ambient_K = 293.0 + 0.1 * k;
      return heat::Surroundings{
          ambient_K, fourth(ambient_K - 8.0), fourth(ambient_K - 3.0), 8.0, 1.0 + 0.05 * k};
    };
    air.start = around(i);
    air.end = around(i + 1);
    air.glazing_tilt_rad = 0.5;
    air.pane_wind_factor = 0.6;
    made.air.push_back(air);
    heat::GainSegment gain;
    const std::array<double, oven::kSurfaces> share = {0.06, 0.02, 0.02, 0.35, 0.25, 0.25, 0.05};
    for (std::size_t s = 0; s < share.size(); ++s) {
      gain.start_W[s] = share[s] * level(i);
      gain.end_W[s] = share[s] * (ripple > 0.0 ? level(i) : level(i + 1));
    }
    made.gains.push_back(gain);
  }
  return made;
}
}  // namespace ovendays::test
