// SPDX-License-Identifier: MIT
#include "kernel.h"

namespace ovendays::heat::kernel {
namespace {

using base::kGravity_ms2;
using base::kStefanBoltzmann_Wm2K4;

/// Adds power that flows between two places of the core.
void couple_core(int first, int second, const Coupled& c, Powers& powers, Jacobian* jacobian) {
  const auto a = static_cast<std::size_t>(first);
  const auto b = static_cast<std::size_t>(second);
  powers.into_W[static_cast<std::size_t>(kCoreNode[a])] -= c.power_W;
  powers.into_W[static_cast<std::size_t>(kCoreNode[b])] += c.power_W;
  if (jacobian == nullptr) return;
  jacobian->core[a][a] -= c.slope_first_WK;
  jacobian->core[a][b] += c.slope_second_WK;
  jacobian->core[b][a] += c.slope_first_WK;
  jacobian->core[b][b] -= c.slope_second_WK;
}

/// Adds power that flows along a chain: link 0 joins the core's `anchor`, link k node k-1 and k.
void couple_chain(int anchor,
                  int first_node,
                  std::size_t link,
                  const Coupled& c,
                  Powers& powers,
                  Jacobian* jacobian,
                  Jacobian::Chain Jacobian::*chain) {
  const auto outer = static_cast<std::size_t>(first_node) + link;
  const auto anchor_index = static_cast<std::size_t>(anchor);
  const std::size_t inner =
      link == 0 ? static_cast<std::size_t>(kCoreNode[anchor_index]) : outer - 1;
  powers.into_W[inner] -= c.power_W;
  powers.into_W[outer] += c.power_W;
  if (jacobian == nullptr) return;
  Jacobian::Chain& links = jacobian->*chain;
  links.to_outer[link] += c.slope_first_WK;
  links.to_inner[link] += c.slope_second_WK;
  links.diagonal[link] -= c.slope_second_WK;
  if (link == 0) {
    jacobian->core[anchor_index][anchor_index] -= c.slope_first_WK;
  } else {
    links.diagonal[link - 1] -= c.slope_first_WK;
  }
}

double fourth(double x) { return x * x * x * x; }

Coupled radiation(double area_m2, double first_K, double second_K) {
  const double scale = kStefanBoltzmann_Wm2K4 * area_m2;
  return {scale * (fourth(first_K) - fourth(second_K)),
          4.0 * scale * first_K * first_K * first_K,
          4.0 * scale * second_K * second_K * second_K};
}

Coupled plus(const Coupled& a, const Coupled& b) {
  return {a.power_W + b.power_W,
          a.slope_first_WK + b.slope_first_WK,
          a.slope_second_WK + b.slope_second_WK};
}

Coupled gap(const HeatModel& model,
            std::size_t which,
            const GapTilt& tilt,
            double lower_K,
            double upper_K) {
  const double film_K = 0.5 * (lower_K + upper_K);
  const double conductivity = air_conductivity(film_K);
  const double ratio = convection_group(film_K) / conductivity;
  const double gap_m = model.gap_m[which];
  const double per_kelvin = model.pressure_root * model.pressure_root * ratio * ratio * ratio *
                            ratio * gap_m * gap_m * gap_m;
  const double difference_K = lower_K - upper_K;
  const Nusselt nu = hollands(per_kelvin * std::max(difference_K, 0.0), tilt);
  const double conductance_WK = conductivity / gap_m * model.pane_area_m2;
  const double slope = conductance_WK * (nu.nusselt + nu.slope * per_kelvin * difference_K);
  return plus({conductance_WK * nu.nusselt * difference_K, slope, slope},
              radiation(model.gap_ir_m2[which], lower_K, upper_K));
}

void lose(int node, double power_W, double slope_WK, Powers& powers, Jacobian* jacobian) {
  const auto i = static_cast<std::size_t>(node);
  powers.into_W[i] -= power_W;
  powers.flows.out_W += power_W;
  powers.out_slope_WK[i] += slope_WK;
  if (jacobian == nullptr) return;
  for (std::size_t c = 0; c < kCore; ++c) {
    if (kCoreNode[c] == node) jacobian->core[c][c] -= slope_WK;
  }
  if (node == kNodePane2) jacobian->pane.diagonal[0] -= slope_WK;
  if (node == kNodeWallSkin) jacobian->wall.diagonal[3] -= slope_WK;
  if (node == kNodeFloorSkin) jacobian->floor.diagonal[3] -= slope_WK;
}

void outside(const HeatModel& model,
             const Instant& now,
             const State& y,
             Powers& powers,
             Jacobian* jacobian) {
  const Surroundings& around = now.around;
  const auto surface = [&](int node, double area_m2, double ir_m2, double env_K4, double wind_ms) {
    const double t = y[static_cast<std::size_t>(node)];
    const double wind_WK = area_m2 * wind_coefficient(wind_ms);
    const double ir = kStefanBoltzmann_Wm2K4 * ir_m2;
    lose(node,
         wind_WK * (t - around.ambient_K) + ir * (fourth(t) - env_K4),
         wind_WK + 4.0 * ir * t * t * t,
         powers,
         jacobian);
  };
  surface(model.outer_pane_node(),
          model.pane_area_m2,
          model.outer_pane_ir_m2,
          around.pane_env_K4,
          around.wind_ms * model.pane_wind_factor);
  surface(kNodeWallSkin,
          model.wall_skin_m2,
          model.wall_skin_m2 * model.skin_emittance,
          around.skin_env_K4,
          around.wind_ms);
  surface(kNodeFloorSkin,
          model.floor_skin_m2,
          model.floor_skin_m2 * model.skin_emittance,
          fourth(around.ambient_K),
          around.wind_ms);
  for (std::size_t r = 0; r < HeatModel::kRadiators; ++r) {
    if (model.film_outside_m2[r] <= 0.0) continue;
    const double ir = kStefanBoltzmann_Wm2K4 * model.film_outside_m2[r];
    const int node = HeatModel::kRadiatorNode[r];
    const double t = y[static_cast<std::size_t>(node)];
    lose(node, ir * (fourth(t) - around.pane_env_K4), 4.0 * ir * t * t * t, powers, jacobian);
  }
}

/// Volume flow through the gaps [m3/s] and its slope against the air's temperature. Half of the
/// area lets air in, half out: orifice flow (C_d 0.6) under half the stack pressure and a wind
/// pressure of 0.3 of the dynamic head (ASHRAE Fundamentals, infiltration, from memory).
struct Leak {
  double flow_m3s;
  double slope_m3sK;
};
Leak leak(const HeatModel& model, double air_K, const Surroundings& around) {
  if (model.leak_m2 <= 0.0) return {0.0, 0.0};
  const double difference_K = air_K - around.ambient_K;
  const double mean_K = 0.5 * (air_K + around.ambient_K);
  const double softened_K = std::sqrt(difference_K * difference_K + 1.0);
  const double stack = kGravity_ms2 * model.stack_height_m * softened_K / mean_K;
  const double head = stack + 0.3 * around.wind_ms * around.wind_ms + 1e-4;
  const double flow = 0.3 * model.leak_m2 * std::sqrt(head);
  const double stack_slope = kGravity_ms2 * model.stack_height_m *
                             (difference_K / softened_K - 0.5 * softened_K / mean_K) / mean_K;
  return {flow, 0.5 * flow / head * stack_slope};
}

void leak_heat(const HeatModel& model,
               const Instant& now,
               const State& y,
               const Leak& flow,
               Powers& powers,
               Jacobian* jacobian) {
  const double air_K = y[kNodeAir];
  const double heat = kAirHeat_JkgK * base::kStandardPressure_Pa * model.pressure_root *
                      model.pressure_root / (kAirGas_JkgK * now.around.ambient_K);
  const double open_WK = now.lid_open ? model.lid_open_WK : 0.0;
  const double conductance_WK = heat * flow.flow_m3s + open_WK;
  const double difference_K = air_K - now.around.ambient_K;
  lose(kNodeAir,
       conductance_WK * difference_K,
       conductance_WK + heat * flow.slope_m3sK * difference_K,
       powers,
       jacobian);
}

/// Steam: from the food by evaporation and boiling, to the outside with the leaks, to the pane as
/// dew. The vapour in the oven is taken as settled: what enters leaves at once. Its pressure solves
/// a balance that is linear on either side of the dew point.
void steam(const HeatModel& model,
           const Instant& now,
           const State& y,
           const Leak& flow,
           Powers& powers,
           Jacobian* jacobian) {
  const double food_K = y[kNodeFood];
  const double evaporation = model.vapour_food_kgsPa * now.wetness;
  const double over_K = std::max(food_K - model.boiling_K, 0.0);
  const double boil_slope_WK = food_K >= model.boiling_K ? model.boil_WK * now.wetness : 0.0;
  const double boil_kgs = model.boil_WK * now.wetness * over_K / model.latent_Jkg;
  if (evaporation <= 0.0 && boil_slope_WK <= 0.0) return;
  const Saturation food = saturation(food_K);
  const Saturation pane = saturation(y[kNodePane]);
  const double carry = flow.flow_m3s / (kVapourGas_JkgK * y[kNodeAir]) +
                       (now.lid_open ? model.vapour_pane_kgsPa : 0.0) + 1e-12;
  double dew = 0.0;
  double total = evaporation + carry;
  double vapour_Pa = (evaporation * food.pressure_Pa + carry * now.vapour_Pa + boil_kgs) / total;
  if (vapour_Pa > pane.pressure_Pa) {
    dew = model.vapour_pane_kgsPa;
    const double dry = vapour_Pa * total;
    total += dew;
    vapour_Pa = (dry + dew * pane.pressure_Pa) / total;
  }
  const double latent = model.latent_Jkg;
  const double by_food = (evaporation * food.slope_PaK + boil_slope_WK / latent) / total;
  const double by_pane = dew * pane.slope_PaK / total;
  const double steam_kgs = evaporation * (food.pressure_Pa - vapour_Pa) + boil_kgs;
  powers.into_W[kNodeFood] -= latent * steam_kgs;
  powers.into_W[kNodePane] += latent * dew * (vapour_Pa - pane.pressure_Pa);
  const double lost_W = latent * carry * (vapour_Pa - now.vapour_Pa);
  powers.flows.out_W += lost_W;
  powers.latent_W = lost_W;
  powers.evaporated_kgs = steam_kgs;
  powers.out_slope_WK[kNodeFood] += latent * carry * by_food;
  powers.out_slope_WK[kNodePane] += latent * carry * by_pane;
  if (jacobian == nullptr) return;
  auto& core = jacobian->core;
  core[5][5] -= latent * evaporation * (food.slope_PaK - by_food) + boil_slope_WK;
  core[5][1] += latent * evaporation * by_pane;
  core[1][5] += latent * dew * by_food;
  core[1][1] += latent * dew * (by_pane - pane.slope_PaK);
}

void inside(const HeatModel& model, const State& y, Powers& powers, Jacobian* jacobian) {
  // Core indices 1..5 exchange with the air; radiators are core indices 1..6 in the same order.
  const int surfaces = model.loaded ? 5 : 3;
  for (int s = 0; s < surfaces; ++s) {
    const auto i = static_cast<std::size_t>(s);
    if (model.convection[i] <= 0.0) continue;
    const double surface_K = y[static_cast<std::size_t>(kCoreNode[i + 1])];
    couple_core(s + 1,
                0,
                convection(model.convection[i], model.still_WK[i], surface_K, y[kNodeAir]),
                powers,
                jacobian);
  }
  for (std::size_t i = 0; i < HeatModel::kRadiators; ++i) {
    for (std::size_t j = i + 1; j < HeatModel::kRadiators; ++j) {
      const double area_m2 = model.exchange_m2[i][j];
      if (area_m2 <= 0.0) continue;
      couple_core(static_cast<int>(i) + 1,
                  static_cast<int>(j) + 1,
                  radiation(area_m2,
                            y[static_cast<std::size_t>(kCoreNode[i + 1])],
                            y[static_cast<std::size_t>(kCoreNode[j + 1])]),
                  powers,
                  jacobian);
    }
  }
  const auto contact = [&](int first, int second, double conductance_WK) {
    if (conductance_WK <= 0.0) return;
    const double difference_K =
        y[static_cast<std::size_t>(kCoreNode[static_cast<std::size_t>(first)])] -
        y[static_cast<std::size_t>(kCoreNode[static_cast<std::size_t>(second)])];
    couple_core(first,
                second,
                {conductance_WK * difference_K, conductance_WK, conductance_WK},
                powers,
                jacobian);
  };
  contact(3, 2, model.tray_floor_WK);
  contact(model.present[kNodeTray] ? 3 : 2, 4, model.tray_vessel_WK);
  contact(4, 5, model.food_vessel_WK);
}

void chains(const HeatModel& model,
            const Instant& now,
            const State& y,
            Powers& powers,
            Jacobian* jacobian) {
  const auto insulation = [&](int first_node,
                              const std::array<double, 4>& links,
                              double slope_1K,
                              int anchor,
                              Jacobian::Chain Jacobian::*chain) {
    for (std::size_t k = 0; k < 4; ++k) {
      const double inner_K =
          k == 0 ? y[static_cast<std::size_t>(kCoreNode[static_cast<std::size_t>(anchor)])]
                 : y[static_cast<std::size_t>(first_node) + k - 1];
      const double outer_K = y[static_cast<std::size_t>(first_node) + k];
      couple_chain(anchor,
                   first_node,
                   k,
                   conduction(links[k], slope_1K, inner_K, outer_K),
                   powers,
                   jacobian,
                   chain);
    }
  };
  insulation(kNodeWall1, model.wall_WK, model.wall_slope_1K, kWallAnchor, &Jacobian::wall);
  insulation(kNodeFloor1, model.floor_WK, model.floor_slope_1K, kFloorAnchor, &Jacobian::floor);
  if (model.shells) {
    insulation(kNodeShell1, model.shell_WK, 0.0, kShellAnchor, &Jacobian::shell);
  }
  if (model.panes >= 2) {
    couple_core(1, 6, gap(model, 0, now.tilt, y[kNodePane], y[kNodePane1]), powers, jacobian);
  }
  if (model.panes >= 3) {
    couple_chain(kPaneAnchor,
                 kNodePane2,
                 0,
                 gap(model, 1, now.tilt, y[kNodePane1], y[kNodePane2]),
                 powers,
                 jacobian,
                 &Jacobian::pane);
  }
}
}  // namespace

void evaluate(const HeatModel& model,
              const Instant& now,
              const State& y,
              Powers& powers,
              Jacobian* jacobian) {
  powers = {};
  if (jacobian != nullptr) *jacobian = {};
  double sun_W = now.around.skin_gain_W;
  for (int s = 0; s < oven::kSurfaces; ++s) {
    const double gain_W = now.gain_W[static_cast<std::size_t>(s)];
    powers.into_W[static_cast<std::size_t>(model.node_of_surface(s))] += gain_W;
    sun_W += gain_W;
  }
  powers.into_W[kNodeWallSkin] += now.around.skin_gain_W;
  powers.flows.sun_W = sun_W;
  inside(model, y, powers, jacobian);
  chains(model, now, y, powers, jacobian);
  outside(model, now, y, powers, jacobian);
  const Leak flow = leak(model, y[kNodeAir], now.around);
  leak_heat(model, now, y, flow, powers, jacobian);
  if (model.loaded) steam(model, now, y, flow, powers, jacobian);
}

void drift(const HeatModel& model,
           const Instant& now,
           const Surroundings& around_rate,
           const std::array<double, oven::kSurfaces>& gain_rate,
           const State& y,
           State& into_Ws,
           double& out_Ws) {
  into_Ws = {};
  out_Ws = 0.0;
  for (int s = 0; s < oven::kSurfaces; ++s) {
    into_Ws[static_cast<std::size_t>(model.node_of_surface(s))] +=
        gain_rate[static_cast<std::size_t>(s)];
  }
  into_Ws[kNodeWallSkin] += around_rate.skin_gain_W;
  const auto surface =
      [&](int node, double area_m2, double ir_m2, double env_rate_K4s, double wind_factor) {
        const double t = y[static_cast<std::size_t>(node)];
        const double rate =
            area_m2 * (wind_coefficient(now.around.wind_ms * wind_factor) * around_rate.ambient_K -
                       3.0 * wind_factor * around_rate.wind_ms * (t - now.around.ambient_K)) +
            kStefanBoltzmann_Wm2K4 * ir_m2 * env_rate_K4s;
        into_Ws[static_cast<std::size_t>(node)] += rate;
        out_Ws -= rate;
      };
  surface(model.outer_pane_node(),
          model.pane_area_m2,
          model.outer_pane_ir_m2,
          around_rate.pane_env_K4,
          model.pane_wind_factor);
  surface(kNodeWallSkin,
          model.wall_skin_m2,
          model.wall_skin_m2 * model.skin_emittance,
          around_rate.skin_env_K4,
          1.0);
  const double ambient_K = now.around.ambient_K;
  surface(kNodeFloorSkin,
          model.floor_skin_m2,
          model.floor_skin_m2 * model.skin_emittance,
          4.0 * ambient_K * ambient_K * ambient_K * around_rate.ambient_K,
          1.0);
  const Leak flow = leak(model, y[kNodeAir], now.around);
  const double heat = kAirHeat_JkgK * base::kStandardPressure_Pa * model.pressure_root *
                      model.pressure_root / (kAirGas_JkgK * ambient_K);
  const double leak_rate =
      (heat * flow.flow_m3s + (now.lid_open ? model.lid_open_WK : 0.0)) * around_rate.ambient_K;
  into_Ws[kNodeAir] += leak_rate;
  out_Ws -= leak_rate;
}
}  // namespace ovendays::heat::kernel
