// SPDX-License-Identifier: MIT
// Ovens and days for tests of the integrator and benchmarks: a box as built by default with a load,
// under a clear or a broken sky. Figures are invented but of the size real ones have.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "ovendays/base/constants.h"
#include "ovendays/base/random.h"
#include "ovendays/heat/integrator.h"
#include "ovendays/optics/exchange.h"
#include "ovendays/oven/design.h"

namespace ovendays::test {

/// The default oven with panes of common glass. @param vessel empty: nothing in it
inline heat::HeatModel default_oven(int panes,
                                    const std::string& vessel = "",
                                    const heat::FoodLoad& food = {}) {
  oven::OvenDesign design = oven::default_design();
  design.panes.assign(static_cast<std::size_t>(panes), oven::Pane{});
  const oven::Vessel* pot = vessel.empty() ? nullptr : design.vessel(vessel);
  const oven::OvenGeometry geometry = oven::build_geometry(design, pot, false);
  const optics::ExchangeAreas exchange = optics::exchange_areas(geometry, design.panes, 1024);
  return heat::make_model(design, geometry, exchange, pot, pot == nullptr ? nullptr : &food, {});
}

/// A day's forcing, and when something in it jumps.
struct OvenDay {
  std::vector<heat::AirSegment> air;
  std::vector<heat::GainSegment> gains;
  std::vector<double> jumps_s;
  [[nodiscard]] heat::Forcing view() const { return {air, gains}; }
};

struct DayOptions {
  double from_s = 0.0;
  double to_s = 86400.0;
  double noon_gain_W = 300.0;  ///< absorbed in the whole oven
  double tilt_rad = 0.5;
  bool loaded = false;
};

/// Surroundings by the clock: air 12 to 26 degC, coldest at 4 h.
inline heat::Surroundings around_at(double time_s, const DayOptions& day, double wind_ms) {
  const double cycle = std::cos((time_s / 3600.0 - 16.0) / 24.0 * base::kTwoPi);
  heat::Surroundings around;
  around.ambient_K = 292.15 + 7.0 * cycle;
  const auto fourth = [](double t) { return t * t * t * t; };
  around.pane_env_K4 = fourth(around.ambient_K - 12.0);
  around.skin_env_K4 = fourth(around.ambient_K - 5.0);
  const double height = std::sin((time_s / 3600.0 - 6.0) / 12.0 * base::kPi);
  around.skin_gain_W = 0.2 * day.noon_gain_W * std::max(0.0, height);
  around.wind_ms = wind_ms;
  return around;
}

/// What the surfaces absorb at an hour, `clear` being the share that clouds leave.
inline std::array<double, oven::kSurfaces> gains_at(double time_s,
                                                    const DayOptions& day,
                                                    double clear) {
  const double height = std::sin((time_s / 3600.0 - 6.0) / 12.0 * base::kPi);
  const double total_W = clear * day.noon_gain_W * std::pow(std::max(0.0, height), 1.2);
  const double vessel = day.loaded ? 0.30 : 0.0;
  const std::array<double, oven::kSurfaces> share = {
      0.05, 0.02, 0.02, 0.36, 0.55 - vessel, vessel, 0.0};
  std::array<double, oven::kSurfaces> gain_W{};
  for (std::size_t s = 0; s < gain_W.size(); ++s) gain_W[s] = share[s] * total_W;
  return gain_W;
}

/// One stretch of a day with the same cloud and a wind that goes from one speed to another.
inline void add_stretch(OvenDay& made,
                        const DayOptions& day,
                        double to_s,
                        double clear,
                        std::pair<double, double> wind_ms) {
  heat::AirSegment air;
  air.start_s = made.air.empty() ? day.from_s : made.air.back().end_s;
  air.end_s = to_s;
  air.start = around_at(air.start_s, day, wind_ms.first);
  air.end = around_at(air.end_s, day, wind_ms.second);
  air.glazing_tilt_rad = day.tilt_rad;
  air.pane_wind_factor = 0.6;
  made.air.push_back(air);
  made.gains.push_back({gains_at(air.start_s, day, clear), gains_at(air.end_s, day, clear)});
}

/// Clear from dawn to dusk, in ten-minute segments, without a jump.
inline OvenDay clear_day(const DayOptions& day) {
  OvenDay made;
  const auto wind_ms = [](double t) { return 1.5 + std::sin(t / 5400.0); };
  const auto segments = static_cast<int>(std::lround((day.to_s - day.from_s) / 600.0));
  for (int i = 0; i < segments; ++i) {
    const double t = day.from_s + 600.0 * i;
    add_stretch(made, day, t + 600.0, 1.0, {wind_ms(t), wind_ms(t + 600.0)});
  }
  return made;
}

/// Clouds that come and go every half to twelve minutes, and gusts at every change.
inline OvenDay broken_day(const DayOptions& day, std::uint64_t key) {
  OvenDay made;
  base::KeyedRandom random(key);
  double t = day.from_s;
  while (t < day.to_s - 1.0) {
    t = std::min(day.to_s, t + 30.0 + 690.0 * std::pow(random.uniform(), 2.0));
    const bool sunny = random.uniform() < 0.5;
    const double clear = sunny ? 0.9 + 0.2 * random.uniform() : 0.1 + 0.4 * random.uniform();
    const double from_ms = 0.5 + 6.0 * random.uniform();
    add_stretch(made, day, t, clear, {from_ms, 0.5 + 6.0 * random.uniform()});
    made.jumps_s.push_back(made.air.back().start_s);
  }
  return made;
}
}  // namespace ovendays::test
