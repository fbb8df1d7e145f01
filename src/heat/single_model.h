// SPDX-License-Identifier: MIT
// The numbers of a HeatModel in single precision, for the lanes that go sixteen at a time. Members
// as in HeatModel. Private to heat.
#pragma once

#include <algorithm>
#include <array>

#include "ovendays/heat/model.h"

namespace ovendays::heat {

struct SingleModel {
  explicit SingleModel(const HeatModel& m);
  [[nodiscard]] bool drying() const { return water_kg > 0.0F; }

  std::array<float, kNodes> capacity_JK{};
  std::array<bool, kNodes> present{};
  int panes = 1;
  bool loaded = false, shells = false;
  std::array<std::array<float, HeatModel::kRadiators>, HeatModel::kRadiators> exchange_m2{};
  std::array<float, HeatModel::kRadiators> film_outside_m2{};
  std::array<float, 5> convection{}, still_WK{};
  float pressure_root = 1;
  float tray_floor_WK = 0, tray_vessel_WK = 0, food_vessel_WK = 0;
  std::array<float, 4> shell_WK{}, wall_WK{}, floor_WK{};
  float wall_slope_1K = 0, floor_slope_1K = 0;
  float wall_skin_m2 = 0, floor_skin_m2 = 0, skin_emittance = 0;
  std::array<float, 2> gap_m{}, gap_ir_m2{};
  float pane_area_m2 = 0, outer_pane_ir_m2 = 0, pane_free = 0;
  float leak_m2 = 0, stack_height_m = 0, lid_open_WK = 0;
  float vapour_food_kgsPa = 0, vapour_pane_kgsPa = 0, latent_Jkg = 1;
  float boil_WK = 0, boiling_K = 0, water_kg = 0;
  std::array<int, oven::kSurfaces> node_of{};
  int outer_node = kNodePane;
};

/// A state in single precision and back. Not inlined, and each by itself: a compiler of our time
/// (GCC 12) takes a vector narrowed and widened again for the vector itself.
void narrow(const State& state, std::array<float, kNodes>& narrowed);
void widen(const std::array<float, kNodes>& narrowed, State& state);
inline void narrow(const State& state, State& same) { same = state; }
inline void widen(const State& same, State& state) { state = same; }
}  // namespace ovendays::heat
