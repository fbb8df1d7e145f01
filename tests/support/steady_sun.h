// SPDX-License-Identifier: MIT
// An oven set square to a steady sun, as one does to try it out: for check values and test
// procedures.
#pragma once

#include <cmath>
#include <vector>

#include "ovendays/base/constants.h"
#include "ovendays/heat/integrator.h"
#include "ovendays/optics/acceptance.h"
#include "ovendays/optics/exchange.h"
#include "ovendays/oven/design.h"
#include "ovendays/sky/patches.h"

namespace ovendays::test {

struct SteadySun {
  double beam_Wm2 = 900.0;    ///< normal
  double diffuse_Wm2 = 90.0;  ///< horizontal, isotropic
  double sun_zenith_rad = 0.6;
  double glazing_tilt_rad = 0.6;
  double off_rad = 0.0;  ///< angle between the glass's normal and the sun, in the plane of x
  double ambient_K = 298.15;
  double sky_K = 281.0;
  double wind_ms = 1.0;
  double albedo = 0.2;
};

/// An oven, perhaps with something in it, ready to be run under a steady sun.
class TrialOven {
 public:
  TrialOven(const oven::OvenDesign& design,
            const oven::Vessel* vessel,
            const heat::FoodLoad* food,
            bool flaps_stowed = false)
      : design_(design), stowed_(flaps_stowed) {
    const oven::OvenGeometry geometry = oven::build_geometry(design, vessel, flaps_stowed);
    const optics::ExchangeAreas exchange = optics::exchange_areas(geometry, design.panes);
    model_ = heat::make_model(design, geometry, exchange, vessel, food, {});
    table_ = optics::build_tables(design, {vessel}, flaps_stowed, {}).front();
  }

  [[nodiscard]] const heat::HeatModel& model() const { return model_; }
  heat::HeatModel& model() { return model_; }
  [[nodiscard]] const optics::AcceptanceTable& table() const { return table_; }

  /// Sun absorbed by each surface [W].
  [[nodiscard]] std::array<double, oven::kSurfaces> gains_W(const SteadySun& sun) const {
    std::array<double, oven::kSurfaces> gain{};
    const base::Direction towards{std::sin(sun.off_rad), 0.0, std::cos(sun.off_rad)};
    const optics::Acceptance beam = table_.at(towards);
    for (std::size_t s = 0; s < gain.size(); ++s) gain[s] = sun.beam_Wm2 * beam.absorbed_m2[s];
    const base::Frame frame = oven::mouth_frame({}, base::kPi, sun.glazing_tilt_rad);
    const double ghi = sun.beam_Wm2 * std::cos(sun.sun_zenith_rad) + sun.diffuse_Wm2;
    const auto add = [&](const sky::Patch& patch, double radiance) {
      const base::Vec3 local = frame.local_from_world(patch.direction);
      if (local.z <= 0.0) return;
      const optics::Acceptance a = table_.at(local);
      for (std::size_t s = 0; s < gain.size(); ++s)
        gain[s] += radiance * patch.solid_angle_sr * a.absorbed_m2[s];
    };
    for (const sky::Patch& patch : sky::sky_patches()) add(patch, sun.diffuse_Wm2 / base::kPi);
    for (const sky::Patch& patch : sky::ground_patches()) add(patch, sun.albedo * ghi / base::kPi);
    return gain;
  }

  /// Runs for `hours` from `state`, keeping minute temperatures of the nodes asked for.
  heat::RunSummary run(const SteadySun& sun,
                       double hours,
                       heat::State& state,
                       heat::StepWatcher* watcher = nullptr) const {
    std::vector<heat::AirSegment> air;
    std::vector<heat::GainSegment> gains;
    const auto gain = gains_W(sun);
    const auto fourth = [](double t) { return t * t * t * t; };
    const double share = 0.5 * (1.0 + std::cos(sun.glazing_tilt_rad));
    for (int i = 0; i < static_cast<int>(std::lround(hours * 6.0)); ++i) {
      heat::AirSegment segment;
      segment.start_s = 600.0 * i;
      segment.end_s = 600.0 * (i + 1);
      heat::Surroundings around;
      around.ambient_K = sun.ambient_K;
      around.pane_env_K4 = share * fourth(sun.sky_K) + (1.0 - share) * fourth(sun.ambient_K);
      around.skin_env_K4 = 0.5 * (fourth(sun.sky_K) + fourth(sun.ambient_K));
      around.wind_ms = sun.wind_ms;
      around.skin_gain_W =
          design_.box.skin_absorptance * model_.wall_skin_m2 *
          (sun.beam_Wm2 * std::sin(sun.sun_zenith_rad) / base::kPi + 0.5 * sun.diffuse_Wm2);
      segment.start = segment.end = around;
      segment.glazing_tilt_rad = sun.glazing_tilt_rad;
      segment.pane_wind_factor = design_.flaps.empty() || stowed_ ? 1.0 : heat::kFlapWindFactor;
      air.push_back(segment);
      gains.push_back({gain, gain});
    }
    heat::Run one;
    one.forcing = {air, gains};
    one.end_s = air.back().end_s;
    one.state = state;
    one.watcher = watcher;
    const heat::RunSummary summary = heat::integrate(model_, one, {});
    state = one.state;
    return summary;
  }

 private:
  oven::OvenDesign design_;
  bool stowed_;
  heat::HeatModel model_;
  optics::AcceptanceTable table_;
};
}  // namespace ovendays::test
