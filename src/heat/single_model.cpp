// SPDX-License-Identifier: MIT
#include "single_model.h"

namespace ovendays::heat {
namespace {

float single(double x) { return static_cast<float>(x); }

template <std::size_t kCount>
void narrow_all(const std::array<double, kCount>& from, std::array<float, kCount>& to) {
  std::transform(from.begin(), from.end(), to.begin(), single);
}
}  // namespace

SingleModel::SingleModel(const HeatModel& m)
    : present(m.present),
      panes(m.panes),
      loaded(m.loaded),
      shells(m.shells),
      pressure_root(single(m.pressure_root)),
      tray_floor_WK(single(m.tray_floor_WK)),
      tray_vessel_WK(single(m.tray_vessel_WK)),
      food_vessel_WK(single(m.food_vessel_WK)),
      wall_slope_1K(single(m.wall_slope_1K)),
      floor_slope_1K(single(m.floor_slope_1K)),
      wall_skin_m2(single(m.wall_skin_m2)),
      floor_skin_m2(single(m.floor_skin_m2)),
      skin_emittance(single(m.skin_emittance)),
      pane_area_m2(single(m.pane_area_m2)),
      outer_pane_ir_m2(single(m.outer_pane_ir_m2)),
      pane_free(single(m.pane_free)),
      leak_m2(single(m.leak_m2)),
      stack_height_m(single(m.stack_height_m)),
      lid_open_WK(single(m.lid_open_WK)),
      vapour_food_kgsPa(single(m.vapour_food_kgsPa)),
      vapour_pane_kgsPa(single(m.vapour_pane_kgsPa)),
      latent_Jkg(single(m.latent_Jkg)),
      boil_WK(single(m.boil_WK)),
      boiling_K(single(m.boiling_K)),
      water_kg(single(m.water_kg)),
      node_of(m.node_of),
      outer_node(m.outer_node) {
  narrow_all(m.capacity_JK, capacity_JK);
  for (std::size_t i = 0; i < HeatModel::kRadiators; ++i)
    narrow_all(m.exchange_m2[i], exchange_m2[i]);
  narrow_all(m.film_outside_m2, film_outside_m2);
  narrow_all(m.convection, convection);
  narrow_all(m.still_WK, still_WK);
  narrow_all(m.shell_WK, shell_WK);
  narrow_all(m.wall_WK, wall_WK);
  narrow_all(m.floor_WK, floor_WK);
  narrow_all(m.gap_m, gap_m);
  narrow_all(m.gap_ir_m2, gap_ir_m2);
}

void narrow(const State& state, std::array<float, kNodes>& narrowed) {
  narrow_all(state, narrowed);
}

void widen(const std::array<float, kNodes>& narrowed, State& state) {
  std::copy(narrowed.begin(), narrowed.end(), state.begin());
}
}  // namespace ovendays::heat
