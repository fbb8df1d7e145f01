// SPDX-License-Identifier: MIT
// What flows between two temperatures, with its slopes: radiation, convection, conduction, the
// gap's Nusselt number, and fits of air and steam. For a plain double and for a pack of lanes (R).
// Private to heat; see pack.h on OVENDAYS_ISA.
#pragma once

#include "ovendays/base/constants.h"
#include "pack.h"

namespace ovendays::heat::OVENDAYS_ISA {

inline constexpr double kSigma = base::kStefanBoltzmann_Wm2K4;

/// A power that flows from a first place to a second, as strength times drive, and its slopes:
/// d/d first, and -d/d second.
template <class R>
struct Coupled {
  R strength, drive, first, second;
  OVENDAYS_INLINE R power() const { return strength * drive; }
};

template <class R>
struct Fitted {
  R value, slope;
};

/// Horner's rule, the highest power's coefficient first.
template <class R, class... Lower>
OVENDAYS_INLINE R polynomial(R x, double highest, Lower... lower) {
  R sum = all<R>(num<R>(highest));
  ((sum = plus_product(all<R>(num<R>(lower)), sum, x)), ...);
  return sum;
}

/// Polynomial fits in (T - 360 K)/100 K to the property functions of base/air.h at 101325 Pa.
template <class R>
OVENDAYS_INLINE Fitted<R> convection_group_fit(R film_K) {
  const R x = num<R>(0.01) * (film_K - 360.0);
  return {polynomial(x, -0.00459392, 0.02903632, -0.1987639, 2.45391145),
          num<R>(0.01) * polynomial(x, -0.01378176, 0.05807264, -0.1987639)};
}
template <class R>
OVENDAYS_INLINE Fitted<R> air_conductivity_fit(R film_K) {
  const R x = num<R>(0.01) * (film_K - 360.0);
  return {polynomial(x, -0.00033516, 0.00734594, 0.03077058),
          num<R>(0.01) * polynomial(x, -0.00067032, 0.00734594)};
}

/// Saturation pressure: quintic fit of p^(1/8) in (T - 330 K)/100 K; temperatures outside 235..430
/// K count as those ends.
template <class R>
OVENDAYS_INLINE Fitted<R> saturation_fit(R temperature_K) {
  const R t = greater_of(lesser_of(temperature_K, all<R>(430.0)), all<R>(235.0));
  const R x = num<R>(0.01) * (t - 330.0);
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
                  num<R>(0.01);
  const R squared = eighth * eighth;
  const R fourth = squared * squared;
  return {fourth * fourth, 8.0 * fourth * squared * eighth * slope};
}

/// Hollands et al. 1976: Nusselt number and its slope against the Rayleigh number.
/// @param sine_power 1708 sin(1.8 tilt)^1.6
template <class R>
OVENDAYS_INLINE Fitted<R> hollands_fit(R rayleigh, R cosine, R sine_power) {
  const R inclined = greater_of(rayleigh * cosine, all<R>(num<R>(1e-9)));
  const R first = 1.0 - 1708.0 / inclined;
  const R second = 1.0 - sine_power / inclined;
  const auto convects = first > 0.0 * first;
  R nusselt = 1.0 + select(convects, num<R>(1.44) * first * second, all<R>(0.0));
  R slope = select(convects,
                   num<R>(1.44) * (1708.0 * second + sine_power * first) / (inclined * inclined),
                   all<R>(0.0));
  const R part = inclined * num<R>(1.0 / 5830.0);
  const R root = inverse_cube_root(part);
  const R cubic = part * (root * root);
  const auto fully = inclined > 5830.0 + 0.0 * inclined;
  nusselt = nusselt + select(fully, cubic - 1.0, all<R>(0.0));
  slope = slope + select(fully, cubic / (3.0 * inclined), all<R>(0.0));
  return {nusselt, slope * cosine};
}

template <class R>
OVENDAYS_INLINE R fourth_power(R x) {
  const R squared = x * x;
  return squared * squared;
}

template <class R>
OVENDAYS_INLINE Coupled<R> radiation(PlainOf<R> area_m2, R first_K, R second_K) {
  const PlainOf<R> scale = num<R>(kSigma) * area_m2;
  const R a = first_K * first_K;
  const R b = second_K * second_K;
  return {all<R>(scale), a * a - b * b, 4 * scale * a * first_K, 4 * scale * b * second_K};
}

/// The air between two panes.
template <class Plain>
struct Gap {
  Plain gap_m, ir_m2, area_m2, pressure_root;
};
/// Hollands' convection across it, and infrared.
template <class R>
OVENDAYS_INLINE Coupled<R> across(
    const Gap<PlainOf<R>>& gap, R tilt_cosine, R tilt_sine_power, R lower_K, R upper_K) {
  const R film_K = 0.5 * (lower_K + upper_K);
  const Fitted<R> k = air_conductivity_fit(film_K);
  const Fitted<R> group = convection_group_fit(film_K);
  const R ratio = group.value / k.value;
  const PlainOf<R> gap_m = gap.gap_m;
  const R per_kelvin =
      (gap.pressure_root * gap.pressure_root * gap_m * gap_m * gap_m) * fourth_power(ratio);
  const R difference_K = lower_K - upper_K;
  const R warm_K = greater_of(difference_K, all<R>(0.0));
  const Fitted<R> nu = hollands_fit(per_kelvin * warm_K, tilt_cosine, tilt_sine_power);
  const R conductance_WK = k.value * (gap.area_m2 / gap_m);
  const R slope = conductance_WK * (nu.value + nu.slope * per_kelvin * warm_K);
  const R k_bend = k.slope / k.value;
  const R rayleigh_bend = 4.0 * (group.slope / group.value - k_bend) * per_kelvin * warm_K;
  const R bend =
      0.5 * conductance_WK * difference_K * (nu.value * k_bend + nu.slope * rayleigh_bend);
  const Coupled<R> ir = radiation(gap.ir_m2, lower_K, upper_K);
  return {all<R>(1.0),
          plus_product(ir.power(), conductance_WK * nu.value, difference_K),
          slope + bend + ir.first,
          slope - bend + ir.second};
}

/// Natural convection between a surface and the air, with its conduction floor.
/// @param factor a plain number or one for every lane
template <class R, class F>
OVENDAYS_INLINE Coupled<R> convection(F factor, PlainOf<R> still_WK, R surface_K, R air_K) {
  const R difference_K = surface_K - air_K;
  const Fitted<R> group = convection_group_fit(0.5 * (surface_K + air_K));
  const R driven = factor * fourth_root(magnitude(difference_K));
  const R moving_WK = driven * group.value;
  const R bend = 0.5 * driven * group.slope * difference_K;
  const R slope = plus_product(all<R>(still_WK), num<R>(1.25), moving_WK);
  return {moving_WK + still_WK, difference_K, slope + bend, slope - bend};
}

/// Conduction with a conductivity that rises with the mean temperature of the two ends.
template <class R>
OVENDAYS_INLINE Coupled<R> conduction(PlainOf<R> conductance_WK,
                                      PlainOf<R> rise_WK2,
                                      R first_K,
                                      R second_K) {
  const R difference_K = first_K - second_K;
  const R warmer_K = plus_product(all<R>(num<R>(-298.15)), num<R>(0.5), first_K + second_K);
  const R now = plus_product(all<R>(conductance_WK), rise_WK2, warmer_K);
  const R bend = num<R>(0.5) * rise_WK2 * difference_K;
  return {now, difference_K, now + bend, now - bend};
}
}  // namespace ovendays::heat::OVENDAYS_ISA
