// SPDX-License-Identifier: MIT
// What drives the lanes of a pack: for each lane the segment it is in. Private to heat; see pack.h
// on OVENDAYS_ISA.
#pragma once

#include "linear_segments.h"
#include "network_types.h"

namespace ovendays::heat::OVENDAYS_ISA {

/// Values at the start of each lane's segment, their rates, and what is constant within it.
template <class Pack>
struct PackForcing {
  BoundaryValues<Pack> base, rate;
  SegmentConstants<Pack> constants;
  /// @param since time since the segment's start [s]
  OVENDAYS_INLINE BoundaryValues<Pack> at(Pack since) const {
    BoundaryValues<Pack> now;
    now.ambient_K = add_product(base.ambient_K, since, rate.ambient_K);
    now.pane_env_K4 = add_product(base.pane_env_K4, since, rate.pane_env_K4);
    now.skin_env_K4 = add_product(base.skin_env_K4, since, rate.skin_env_K4);
    now.skin_gain_W = add_product(base.skin_gain_W, since, rate.skin_gain_W);
    now.wind_ms = add_product(base.wind_ms, since, rate.wind_ms);
#pragma GCC unroll 32
    for (int s = 0; s < oven::kSurfaces; ++s)
      now.gain_W[s] = add_product(base.gain_W[s], since, rate.gain_W[s]);
    return now;
  }
  /// Moves one lane to another segment.
  void set_segment(int l, const LinearSegment<ScalarOf<Pack>>& now) {
    set_air(base, l, now.base);
    set_air(rate, l, now.rate);
#pragma GCC unroll 32
    for (int s = 0; s < oven::kSurfaces; ++s) {
      base.gain_W[s][l] = now.gain_W[s];
      rate.gain_W[s][l] = now.gain_rate_Ws[s];
    }
    constants.tilt_cosine[l] = now.tilt_cosine;
    constants.tilt_sine_power[l] = now.tilt_sine_power;
    constants.tilt_free[l] = now.tilt_free;
    constants.vapour_Pa[l] = now.vapour_Pa;
    constants.pane_wind_factor[l] = now.pane_wind_factor;
  }

 private:
  OVENDAYS_INLINE static void set_air(BoundaryValues<Pack>& instant,
                                      int l,
                                      const typename LinearSegment<ScalarOf<Pack>>::Air& air) {
    instant.ambient_K[l] = air.ambient_K;
    instant.pane_env_K4[l] = air.pane_env_K4;
    instant.skin_env_K4[l] = air.skin_env_K4;
    instant.skin_gain_W[l] = air.skin_gain_W;
    instant.wind_ms[l] = air.wind_ms;
  }
};

/// What drives a lane without a run: lanes are computed together, so it needs harmless numbers.
template <class Scalar>
inline constexpr LinearSegment<Scalar> kIdleSegment{
    .start_s = 0,
    .end_s = 1,
    .base = {300, static_cast<Scalar>(8.1e9), static_cast<Scalar>(8.1e9), 0, 0},
    .rate = {},
    .gain_W = {},
    .gain_rate_Ws = {},
    .tilt_cosine = 1,
    .tilt_sine_power = 0,
    .tilt_free = 1,
    .vapour_Pa = 1000,
    .pane_wind_factor = 1,
    .lid_open = false,
    .first_step_s = 1,
    .mark = -1};
}  // namespace ovendays::heat::OVENDAYS_ISA
