// SPDX-License-Identifier: MIT
// The heat network's equations for one instant: powers into every node, their exact partial
// derivatives, and the power that leaves. Private to heat. Everything is inlined; nothing
// allocates.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>

#include "ovendays/base/constants.h"
#include "ovendays/heat/forcing.h"
#include "ovendays/heat/integrator.h"
#include "ovendays/heat/model.h"

namespace ovendays::heat::kernel {

inline constexpr double kAirGas_JkgK = 287.05;
inline constexpr double kVapourGas_JkgK = 461.5;
inline constexpr double kAirHeat_JkgK = 1006.0;
inline constexpr int kCore = 7;  ///< air, pane, liner, tray, vessel, food, pane 1

/// A coupling's value and its slopes against its two temperatures.
struct Coupled {
  double power_W;  ///< from the first to the second
  double slope_first_WK;
  double slope_second_WK;  ///< as a positive number: -d power / d second
};

struct Fitted {
  double value;
  double slope;  ///< per kelvin
};
/// Polynomial fits in (T - 360 K)/100 K to the property functions of base/air.h at 101325 Pa.
inline Fitted convection_group_fit(double film_K) {
  const double x = 0.01 * (film_K - 360.0);
  return {((-0.00459392 * x + 0.02903632) * x - 0.1987639) * x + 2.45391145,
          0.01 * ((-0.01378176 * x + 0.05807264) * x - 0.1987639)};
}
inline Fitted air_conductivity(double film_K) {
  const double x = 0.01 * (film_K - 360.0);
  return {(-0.00033516 * x + 0.00734594) * x + 0.03077058, 0.01 * (-0.00067032 * x + 0.00734594)};
}

struct Saturation {
  double pressure_Pa;
  double slope_PaK;
};
/// Quintic fit of p^(1/8) in (T - 330 K)/100 K; temperatures outside 235..430 K count as those
/// ends.
inline Saturation saturation(double temperature_K) {
  const double x = 0.01 * (std::clamp(temperature_K, 235.0, 430.0) - 330.0);
  const double root =
      ((((-0.005410030637670491 * x + 0.02791364626119964) * x - 0.07308495256964984) * x -
        0.10317082410100298) *
           x +
       2.001489502278913) *
          x +
      3.3843665000262875;
  const double slope =
      ((((-0.027050153188352455 * x + 0.11165458504479856) * x - 0.21925485770894952) * x -
        0.20634164820200596) *
           x +
       2.001489502278913) *
      0.01;
  const double squared = root * root;
  const double fourth = squared * squared;
  return {fourth * fourth, 8.0 * fourth * squared * root * slope};
}

inline double wind_coefficient(double wind_ms) { return 2.8 + 3.0 * wind_ms; }

struct GapTilt {
  double cosine;
  double sine_power;  ///< 1708 sin(1.8 tilt)^1.6
};
inline GapTilt gap_tilt(double tilt_rad) {
  const double tilt = std::min(tilt_rad, 75.0 * base::kRadPerDeg);
  return {std::cos(tilt), 1708.0 * std::pow(std::max(0.0, std::sin(1.8 * tilt)), 1.6)};
}

struct Nusselt {
  double nusselt;
  double slope;  ///< d Nu / d Ra
};
inline Nusselt hollands(double rayleigh, const GapTilt& tilt) {
  const double inclined = std::max(rayleigh * tilt.cosine, 1e-9);
  Nusselt result{1.0, 0.0};
  const double first = 1.0 - 1708.0 / inclined;
  if (first > 0.0) {
    const double second = 1.0 - tilt.sine_power / inclined;
    result.nusselt += 1.44 * first * second;
    result.slope += 1.44 * (1708.0 * second + tilt.sine_power * first) / (inclined * inclined);
  }
  if (inclined > 5830.0) {
    const double root = std::cbrt(inclined / 5830.0);
    result.nusselt += root - 1.0;
    result.slope += root / (3.0 * inclined);
  }
  result.slope *= tilt.cosine;
  return result;
}

/// Natural convection between a surface and the air, with its conduction floor.
inline Coupled convection(double factor, double still_WK, double surface_K, double air_K) {
  const double difference_K = surface_K - air_K;
  const Fitted group = convection_group_fit(0.5 * (surface_K + air_K));
  const double driven = factor * std::sqrt(std::sqrt(std::abs(difference_K)));
  const double moving_WK = driven * group.value;
  const double bend = 0.5 * driven * group.slope * difference_K;
  const double slope = 1.25 * moving_WK + still_WK;
  return {(moving_WK + still_WK) * difference_K, slope + bend, slope - bend};
}

/// Conduction with a conductivity that rises with the mean temperature of the two ends.
inline Coupled conduction(double conductance_WK, double slope_1K, double first_K, double second_K) {
  const double difference_K = first_K - second_K;
  const double now = conductance_WK * (1.0 + slope_1K * (0.5 * (first_K + second_K) - 298.15));
  const double bend = 0.5 * conductance_WK * slope_1K * difference_K;
  return {now * difference_K, now + bend, now - bend};
}

/// The Jacobian of the powers: a dense core and chains that hang on it.
struct Jacobian {
  std::array<std::array<double, kCore>, kCore>
      core{};  ///< d power(i) / d T(j); row and column 6 are pane 1
  // Chains: for link k between node k-1 (or the anchor, k = 0) and node k of the chain:
  // to_outer[k] = d power(outer) / d T(inner), to_inner[k] = d power(inner) / d T(outer),
  // and what each contributes to the two diagonals.
  struct Chain {
    std::array<double, 4> to_outer{}, to_inner{}, diagonal{};
  };
  Chain pane, wall, floor, shell;
};

/// The anchors of the chains in the core.
inline constexpr int kPaneAnchor = 6, kWallAnchor = 2, kFloorAnchor = 2, kShellAnchor = 5;
/// Place of a core index in the state.
inline constexpr std::array<int, kCore> kCoreNode = {
    kNodeAir, kNodePane, kNodeLiner, kNodeTray, kNodeVessel, kNodeFood, kNodePane1};

/// Everything about an instant that does not depend on the state.
struct Instant {
  Surroundings around;
  std::array<double, oven::kSurfaces> gain_W;
  GapTilt tilt;
  double vapour_Pa;
  double pane_wind_factor;
  bool lid_open;
  double wetness;  ///< 0 dry .. 1 wet: share of the open surface that still gives off steam
};

struct Powers {
  State into_W{};
  Flows flows;
  double latent_W = 0.0;        ///< leaves as steam
  double evaporated_kgs = 0.0;  ///< from the food, boiling included
  State out_slope_WK{};         ///< d out / d T, for the audit's quadrature
};

/// Fills `powers`, and `jacobian` where it is not null.
void evaluate(
    const HeatModel& model, const Instant& now, const State& y, Powers& powers, Jacobian* jacobian);

/// How fast powers change [W/s] at a fixed state because the surroundings change, per second of the
/// segment; `out_Ws` gets the same for the power that leaves.
void drift(const HeatModel& model,
           const Instant& now,
           const Surroundings& around_rate,
           const std::array<double, oven::kSurfaces>& gain_rate,
           const State& y,
           State& into_Ws,
           double& out_Ws);

}  // namespace ovendays::heat::kernel
