// SPDX-License-Identifier: MIT
// What drives the lanes of a pack, and what an empty lane computes along on. Private to heat; see
// pack.h on OVENDAYS_ISA.
#pragma once

#include "network_parts.h"
#include "ready_forcing.h"

namespace ovendays::heat::OVENDAYS_ISA {

/// What drives the lanes: value at the start of each lane's segment, and rate.
template <class Pack>
struct LaneForcing {
  Instant<Pack> base, rate;
  Stretch<Pack> stretch;
  /// @param since time since the segment's start [s]
  OVENDAYS_INLINE Instant<Pack> at(Pack since) const {
    Instant<Pack> now;
    now.ambient_K = plus_product(base.ambient_K, since, rate.ambient_K);
    now.pane_env_K4 = plus_product(base.pane_env_K4, since, rate.pane_env_K4);
    now.skin_env_K4 = plus_product(base.skin_env_K4, since, rate.skin_env_K4);
    now.skin_gain_W = plus_product(base.skin_gain_W, since, rate.skin_gain_W);
    now.wind_ms = plus_product(base.wind_ms, since, rate.wind_ms);
#pragma GCC unroll 32
    for (int s = 0; s < oven::kSurfaces; ++s)
      now.gain_W[s] = plus_product(base.gain_W[s], since, rate.gain_W[s]);
    return now;
  }
  /// Turns a lane to another segment.
  void turn(int l, const ReadySegment<PlainOf<Pack>>& now) {
    set_air(base, l, now.base);
    set_air(rate, l, now.rate);
#pragma GCC unroll 32
    for (int s = 0; s < oven::kSurfaces; ++s) {
      base.gain_W[s][l] = now.gain_W[s];
      rate.gain_W[s][l] = now.gain_rate_Ws[s];
    }
    stretch.tilt_cosine[l] = now.tilt_cosine;
    stretch.tilt_sine_power[l] = now.tilt_sine_power;
    stretch.tilt_free[l] = now.tilt_free;
    stretch.vapour_Pa[l] = now.vapour_Pa;
    stretch.pane_wind_factor[l] = now.pane_wind_factor;
  }

 private:
  OVENDAYS_INLINE static void set_air(Instant<Pack>& instant,
                                      int l,
                                      const typename ReadySegment<PlainOf<Pack>>::Air& air) {
    instant.ambient_K[l] = air.ambient_K;
    instant.pane_env_K4[l] = air.pane_env_K4;
    instant.skin_env_K4[l] = air.skin_env_K4;
    instant.skin_gain_W[l] = air.skin_gain_W;
    instant.wind_ms[l] = air.wind_ms;
  }
};

/// What an empty lane computes along on.
template <class Plain>
inline constexpr ReadySegment<Plain> kHarmless{
    .start_s = 0,
    .end_s = 1,
    .base = {300, static_cast<Plain>(8.1e9), static_cast<Plain>(8.1e9), 0, 0},
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
