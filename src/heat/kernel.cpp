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
  const Fitted k = air_conductivity(film_K);
  const Fitted group = convection_group_fit(film_K);
  const double ratio = group.value / k.value;
  const double gap_m = model.gap_m[which];
  const double per_kelvin = model.pressure_root * model.pressure_root * ratio * ratio * ratio *
                            ratio * gap_m * gap_m * gap_m;
  const double difference_K = lower_K - upper_K;
  const double warm_K = std::max(difference_K, 0.0);
  const Nusselt nu = hollands(per_kelvin * warm_K, tilt);
  const double conductance_WK = k.value / gap_m * model.pane_area_m2;
  const double slope = conductance_WK * (nu.nusselt + nu.slope * per_kelvin * warm_K);
  const double k_bend = k.slope / k.value;
  const double rayleigh_bend = 4.0 * (group.slope / group.value - k_bend) * per_kelvin * warm_K;
  const double bend =
      0.5 * conductance_WK * difference_K * (nu.nusselt * k_bend + nu.slope * rayleigh_bend);
  return plus({conductance_WK * nu.nusselt * difference_K, slope + bend, slope - bend},
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
          around.wind_ms * now.pane_wind_factor);
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

/// Volume flow through the gaps [m3/s] and its slopes. Half of the area lets air in, half out:
/// orifice flow (C_d 0.6) under half the stack pressure and a wind pressure of 0.3 of the dynamic
/// head (ASHRAE Fundamentals, infiltration, from memory). The kink at no difference is softened
/// over 1 K.
struct Leak {
  double flow_m3s = 0.0;
  double by_air_m3sK = 0.0;
  double by_ambient_m3sK = 0.0;
  double by_wind_m2 = 0.0;
};
Leak leak(const HeatModel& model, double air_K, const Surroundings& around) {
  if (model.leak_m2 <= 0.0) return {};
  const double difference_K = air_K - around.ambient_K;
  const double mean_K = 0.5 * (air_K + around.ambient_K);
  const double softened_K = std::sqrt(difference_K * difference_K + 1.0);
  const double lift = kGravity_ms2 * model.stack_height_m / mean_K;
  const double head = lift * softened_K + 0.3 * around.wind_ms * around.wind_ms + 1e-4;
  const double flow = 0.3 * model.leak_m2 * std::sqrt(head);
  const double per_head = 0.5 * flow / head;
  const double by_mean = -0.5 * softened_K / mean_K;
  return {flow,
          per_head * lift * (difference_K / softened_K + by_mean),
          per_head * lift * (-difference_K / softened_K + by_mean),
          per_head * 0.6 * around.wind_ms};
}

/// Heat capacity of a cubic metre of outside air [J/m3K].
double air_heat_Jm3K(const HeatModel& model, double ambient_K) {
  return kAirHeat_JkgK * base::kStandardPressure_Pa * model.pressure_root * model.pressure_root /
         (kAirGas_JkgK * ambient_K);
}

void leak_heat(const HeatModel& model,
               const Instant& now,
               const State& y,
               const Leak& flow,
               Powers& powers,
               Jacobian* jacobian) {
  const double heat = air_heat_Jm3K(model, now.around.ambient_K);
  const double conductance_WK = heat * flow.flow_m3s + (now.lid_open ? model.lid_open_WK : 0.0);
  const double difference_K = y[kNodeAir] - now.around.ambient_K;
  lose(kNodeAir,
       conductance_WK * difference_K,
       conductance_WK + heat * flow.by_air_m3sK * difference_K,
       powers,
       jacobian);
}

/// Steam: from the food by evaporation and boiling, to the outside with the leaks, to the pane as
/// dew. The vapour in the oven is taken as settled: what enters leaves at once. Its pressure solves
/// a balance that is linear on either side of the dew point.
struct Steam {
  double evaporation_kgsPa, carry_kgsPa, dew_kgsPa, total_kgsPa;
  double vapour_Pa, food_Pa, pane_Pa;
  double by_food_PaK, by_pane_PaK;  ///< of the vapour pressure
  double food_slope_PaK, pane_slope_PaK;
  double boil_kgs, boil_slope_WK;
};
bool settle_steam(
    const HeatModel& model, const Instant& now, const State& y, const Leak& flow, Steam& s) {
  const double food_K = y[kNodeFood];
  s.evaporation_kgsPa = model.vapour_food_kgsPa * now.wetness;
  const double over_K = std::max(food_K - model.boiling_K, 0.0);
  s.boil_slope_WK = food_K >= model.boiling_K ? model.boil_WK * now.wetness : 0.0;
  s.boil_kgs = model.boil_WK * now.wetness * over_K / model.latent_Jkg;
  if (s.evaporation_kgsPa <= 0.0 && s.boil_slope_WK <= 0.0) return false;
  const Saturation food = saturation(food_K);
  const Saturation pane = saturation(y[kNodePane]);
  s.food_Pa = food.pressure_Pa;
  s.pane_Pa = pane.pressure_Pa;
  s.food_slope_PaK = food.slope_PaK;
  s.pane_slope_PaK = pane.slope_PaK;
  s.carry_kgsPa = flow.flow_m3s / (kVapourGas_JkgK * y[kNodeAir]) +
                  (now.lid_open ? model.vapour_pane_kgsPa : 0.0) + 1e-12;
  s.dew_kgsPa = 0.0;
  s.total_kgsPa = s.evaporation_kgsPa + s.carry_kgsPa;
  const double supply =
      s.evaporation_kgsPa * s.food_Pa + s.carry_kgsPa * now.vapour_Pa + s.boil_kgs;
  s.vapour_Pa = supply / s.total_kgsPa;
  if (s.vapour_Pa > s.pane_Pa) {
    s.dew_kgsPa = model.vapour_pane_kgsPa;
    s.total_kgsPa += s.dew_kgsPa;
    s.vapour_Pa = (supply + s.dew_kgsPa * s.pane_Pa) / s.total_kgsPa;
  }
  s.by_food_PaK =
      (s.evaporation_kgsPa * s.food_slope_PaK + s.boil_slope_WK / model.latent_Jkg) / s.total_kgsPa;
  s.by_pane_PaK = s.dew_kgsPa * s.pane_slope_PaK / s.total_kgsPa;
  return true;
}

/// Change of the vapour's pressure [Pa] per change of what the leaks carry [kg/sPa].
double by_carry(const Steam& s, const Instant& now) {
  return (now.vapour_Pa - s.vapour_Pa) / s.total_kgsPa;
}

void steam(const HeatModel& model,
           const Instant& now,
           const State& y,
           const Leak& flow,
           Powers& powers,
           Jacobian* jacobian) {
  Steam s{};
  if (!settle_steam(model, now, y, flow, s)) return;
  const double latent = model.latent_Jkg;
  powers.evaporated_kgs = s.evaporation_kgsPa * (s.food_Pa - s.vapour_Pa) + s.boil_kgs;
  powers.into_W[kNodeFood] -= latent * powers.evaporated_kgs;
  powers.into_W[kNodePane] += latent * s.dew_kgsPa * (s.vapour_Pa - s.pane_Pa);
  powers.latent_W = latent * s.carry_kgsPa * (s.vapour_Pa - now.vapour_Pa);
  powers.flows.out_W += powers.latent_W;
  const double carry_by_air =
      (flow.by_air_m3sK - flow.flow_m3s / y[kNodeAir]) / (kVapourGas_JkgK * y[kNodeAir]);
  const double by_air_PaK = by_carry(s, now) * carry_by_air;
  powers.out_slope_WK[kNodeFood] += latent * s.carry_kgsPa * s.by_food_PaK;
  powers.out_slope_WK[kNodePane] += latent * s.carry_kgsPa * s.by_pane_PaK;
  powers.out_slope_WK[kNodeAir] +=
      latent * (carry_by_air * (s.vapour_Pa - now.vapour_Pa) + s.carry_kgsPa * by_air_PaK);
  if (jacobian == nullptr) return;
  auto& core = jacobian->core;
  core[5][5] -= latent * s.evaporation_kgsPa * (s.food_slope_PaK - s.by_food_PaK) + s.boil_slope_WK;
  core[5][1] += latent * s.evaporation_kgsPa * s.by_pane_PaK;
  core[5][0] += latent * s.evaporation_kgsPa * by_air_PaK;
  core[1][5] += latent * s.dew_kgsPa * s.by_food_PaK;
  core[1][1] += latent * s.dew_kgsPa * (s.by_pane_PaK - s.pane_slope_PaK);
  core[1][0] += latent * s.dew_kgsPa * by_air_PaK;
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
/// Drift of what the leaks carry off, as air and as steam.
void leak_drift(const HeatModel& model,
                const Instant& now,
                const Surroundings& rate,
                const State& y,
                State& into_Ws,
                double& out_Ws) {
  const Leak flow = leak(model, y[kNodeAir], now.around);
  const double heat = air_heat_Jm3K(model, now.around.ambient_K);
  const double flow_rate = flow.by_ambient_m3sK * rate.ambient_K + flow.by_wind_m2 * rate.wind_ms;
  const double difference_K = y[kNodeAir] - now.around.ambient_K;
  const double conductance_WK = heat * flow.flow_m3s + (now.lid_open ? model.lid_open_WK : 0.0);
  const double conductance_rate =
      heat * (flow_rate - flow.flow_m3s * rate.ambient_K / now.around.ambient_K);
  const double leak_rate = conductance_WK * rate.ambient_K - conductance_rate * difference_K;
  into_Ws[kNodeAir] += leak_rate;
  out_Ws -= leak_rate;
  Steam s{};
  if (!model.loaded || !settle_steam(model, now, y, flow, s)) return;
  const double carry_rate = flow_rate / (kVapourGas_JkgK * y[kNodeAir]);
  const double vapour_rate = by_carry(s, now) * carry_rate;
  into_Ws[kNodeFood] += model.latent_Jkg * s.evaporation_kgsPa * vapour_rate;
  into_Ws[kNodePane] += model.latent_Jkg * s.dew_kgsPa * vapour_rate;
  out_Ws +=
      model.latent_Jkg * (carry_rate * (s.vapour_Pa - now.vapour_Pa) + s.carry_kgsPa * vapour_rate);
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
          now.pane_wind_factor);
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
  leak_drift(model, now, around_rate, y, into_Ws, out_Ws);
}
}  // namespace ovendays::heat::kernel
