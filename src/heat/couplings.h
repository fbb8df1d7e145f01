// SPDX-License-Identifier: MIT
// Heat flow between two temperatures and its derivatives: radiation, convection, conduction, and
// the gap between panes; and polynomial fits of the properties of air and steam. Each is written
// once, for a double and for a pack of lanes (R). Private to heat; see pack.h on OVENDAYS_ISA.
#pragma once

#include "ovendays/base/constants.h"
#include "pack.h"

namespace ovendays::heat::OVENDAYS_ISA {

inline constexpr double kSigma = base::kStefanBoltzmann_Wm2K4;

/// Heat flow from a first node to a second: strength x drive [W], where the drive is a difference
/// of T or T^4. `first` is its derivative by the first temperature, `second` minus the one by the
/// second.
template <class R>
struct Coupling {
  R strength, drive, first, second;
  OVENDAYS_INLINE R power() const { return strength * drive; }
};

template <class R>
struct Fitted {
  R value, slope;
};

/// Horner's rule; coefficients from the highest power down.
template <class R, class... Lower>
OVENDAYS_INLINE R polynomial(R x, double highest, Lower... lower) {
  R sum = broadcast<R>(scalar<R>(highest));
  ((sum = add_product(broadcast<R>(scalar<R>(lower)), sum, x)), ...);
  return sum;
}

/// Polynomial fits in (T - 360 K)/100 K to the property functions of base/air.h at 101325 Pa,
/// because the integrator spends much of its time on them.
template <class R>
OVENDAYS_INLINE Fitted<R> convection_group_fit(R film_K) {
  const R x = scalar<R>(0.01) * (film_K - 360.0);
  return {polynomial(x, -0.00459392, 0.02903632, -0.1987639, 2.45391145),
          scalar<R>(0.01) * polynomial(x, -0.01378176, 0.05807264, -0.1987639)};
}
template <class R>
OVENDAYS_INLINE Fitted<R> air_conductivity_fit(R film_K) {
  const R x = scalar<R>(0.01) * (film_K - 360.0);
  return {polynomial(x, -0.00033516, 0.00734594, 0.03077058),
          scalar<R>(0.01) * polynomial(x, -0.00067032, 0.00734594)};
}

/// Saturation pressure of water and its slope: quintic fit of p^(1/8) in (T - 330 K)/100 K.
/// Temperatures are clamped to 235..430 K.
template <class R>
OVENDAYS_INLINE Fitted<R> saturation_fit(R temperature_K) {
  const R t = max_of(min_of(temperature_K, broadcast<R>(430.0)), broadcast<R>(235.0));
  const R x = scalar<R>(0.01) * (t - 330.0);
  const R eighth = polynomial(x,
                              -0.005410030637670491,
                              0.02791364626119964,
                              -0.07308495256964984,
                              -0.10317082410100298,
                              2.001489502278913,
                              3.3843665000262875);
  const R slope = polynomial(x,
                             -0.027050153188352455,
                             0.11165458504479856,
                             -0.21925485770894952,
                             -0.20634164820200596,
                             2.001489502278913) *
                  scalar<R>(0.01);
  const R squared = eighth * eighth;
  const R fourth = squared * squared;
  return {fourth * fourth, 8.0 * fourth * squared * eighth * slope};
}

/// Hollands et al. 1976 (see gap_convection_Wm2K in correlations.h): Nusselt number and its
/// derivative by the Rayleigh number.
/// @param sine_power 1708 sin(1.8 tilt)^1.6
template <class R>
OVENDAYS_INLINE Fitted<R> hollands_fit(R rayleigh, R cosine, R sine_power) {
  const R inclined = max_of(rayleigh * cosine, broadcast<R>(scalar<R>(1e-9)));
  const R first = 1.0 - 1708.0 / inclined;
  const R second = 1.0 - sine_power / inclined;
  const auto convects = first > 0.0 * first;
  R nusselt = 1.0 + select(convects, scalar<R>(1.44) * first * second, broadcast<R>(0.0));
  R slope = select(convects,
                   scalar<R>(1.44) * (1708.0 * second + sine_power * first) / (inclined * inclined),
                   broadcast<R>(0.0));
  const R part = inclined * scalar<R>(1.0 / 5830.0);
  const R root = inverse_cube_root(part);
  const R cubic = part * (root * root);
  const auto fully = inclined > 5830.0 + 0.0 * inclined;
  nusselt = nusselt + select(fully, cubic - 1.0, broadcast<R>(0.0));
  slope = slope + select(fully, cubic / (3.0 * inclined), broadcast<R>(0.0));
  return {nusselt, slope * cosine};
}

template <class R>
OVENDAYS_INLINE R fourth_power(R x) {
  const R squared = x * x;
  return squared * squared;
}

template <class R>
OVENDAYS_INLINE Coupling<R> radiation(ScalarOf<R> area_m2, R first_K, R second_K) {
  const ScalarOf<R> scale = scalar<R>(kSigma) * area_m2;
  const R a = first_K * first_K;
  const R b = second_K * second_K;
  return {broadcast<R>(scale), a * a - b * b, 4 * scale * a * first_K, 4 * scale * b * second_K};
}

/// The space between two panes.
template <class Scalar>
struct Gap {
  Scalar gap_m, ir_m2, area_m2, pressure_root;
};
/// Convection (Hollands) and infrared across it, as one coupling.
template <class R>
OVENDAYS_INLINE Coupling<R> across(
    const Gap<ScalarOf<R>>& gap, R tilt_cosine, R tilt_sine_power, R lower_K, R upper_K) {
  const R film_K = 0.5 * (lower_K + upper_K);
  const Fitted<R> k = air_conductivity_fit(film_K);
  const Fitted<R> group = convection_group_fit(film_K);
  const R ratio = group.value / k.value;
  const ScalarOf<R> gap_m = gap.gap_m;
  const R per_kelvin =
      (gap.pressure_root * gap.pressure_root * gap_m * gap_m * gap_m) * fourth_power(ratio);
  const R difference_K = lower_K - upper_K;
  const R warm_K = max_of(difference_K, broadcast<R>(0.0));
  const Fitted<R> nu = hollands_fit(per_kelvin * warm_K, tilt_cosine, tilt_sine_power);
  const R conductance_WK = k.value * (gap.area_m2 / gap_m);
  const R slope = conductance_WK * (nu.value + nu.slope * per_kelvin * warm_K);
  const R k_bend = k.slope / k.value;
  const R rayleigh_bend = 4.0 * (group.slope / group.value - k_bend) * per_kelvin * warm_K;
  const R bend =
      0.5 * conductance_WK * difference_K * (nu.value * k_bend + nu.slope * rayleigh_bend);
  const Coupling<R> ir = radiation(gap.ir_m2, lower_K, upper_K);
  return {broadcast<R>(1.0),
          add_product(ir.power(), conductance_WK * nu.value, difference_K),
          slope + bend + ir.first,
          slope - bend + ir.second};
}

/// Natural convection between a surface and the air; `still_WK` is conduction through still air.
/// @param factor one scalar, or one value for each lane
template <class R, class F>
OVENDAYS_INLINE Coupling<R> convection(F factor, ScalarOf<R> still_WK, R surface_K, R air_K) {
  const R difference_K = surface_K - air_K;
  const Fitted<R> group = convection_group_fit(0.5 * (surface_K + air_K));
  const R driven = factor * fourth_root(absolute(difference_K));
  const R moving_WK = driven * group.value;
  const R bend = 0.5 * driven * group.slope * difference_K;
  const R slope = add_product(broadcast<R>(still_WK), scalar<R>(1.25), moving_WK);
  return {moving_WK + still_WK, difference_K, slope + bend, slope - bend};
}

/// Conduction through a material whose conductivity rises linearly with its mean temperature.
template <class R>
OVENDAYS_INLINE Coupling<R> conduction(ScalarOf<R> conductance_WK,
                                       ScalarOf<R> rise_WK2,
                                       R first_K,
                                       R second_K) {
  const R difference_K = first_K - second_K;
  const R warmer_K =
      add_product(broadcast<R>(scalar<R>(-298.15)), scalar<R>(0.5), first_K + second_K);
  const R now = add_product(broadcast<R>(conductance_WK), rise_WK2, warmer_K);
  const R bend = scalar<R>(0.5) * rise_WK2 * difference_K;
  return {now, difference_K, now + bend, now - bend};
}
}  // namespace ovendays::heat::OVENDAYS_ISA
