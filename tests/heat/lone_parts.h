// SPDX-License-Identifier: MIT
// Single parts cut out of the heat network, for tests against exact solutions, and the comparison
// with such a solution along a run.
#pragma once

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <span>
#include <utility>

#include "catch.h"
#include "ovendays/heat/integrator.h"
#include "ovendays/oven/design.h"

namespace ovendays::test {

using heat::AirSegment;
using heat::HeatModel;
using heat::State;
using heat::Step;
using heat::StepWatcher;

inline constexpr double kHeld_JK = 1e15;  ///< holds its temperature through any run

/// Nothing in it, nothing coupled.
inline HeatModel bare_model() {
  HeatModel m;
  m.capacity_JK.fill(1.0);
  m.pane_area_m2 = m.outer_pane_ir_m2 = 0.0;
  m.derive_nodes();
  return m;
}

inline void add(HeatModel& m, int node, double capacity_JK) {
  m.capacity_JK[static_cast<std::size_t>(node)] = capacity_JK;
  m.present[static_cast<std::size_t>(node)] = true;
}

/// @param infrared_K what surfaces radiate to; nullopt: the air's temperature
inline AirSegment still_air(double ambient_K, double hours, std::optional<double> infrared_K = {}) {
  AirSegment air;
  air.end_s = hours * 3600.0;
  air.start.ambient_K = ambient_K;
  air.start.pane_env_K4 = air.start.skin_env_K4 = std::pow(infrared_K.value_or(ambient_K), 4);
  air.end = air.start;
  return air;
}

/// Largest difference of a run from an exact solution, at steps and between them, after a time.
class Against : public StepWatcher {
 public:
  Against(int node, std::function<double(double)> exact_K, double from_s = 0.0)
      : node_(node), exact_K_(std::move(exact_K)), from_s_(from_s) {}
  bool on_step(const Step& step) override {
    const double crossing = level_K > 0.0 ? step.crossing(node_, level_K) : 2.0;
    if (reached_s == 0.0 && crossing <= 1.0)
      reached_s = step.start_s + crossing * (step.end_s - step.start_s);
    for (const double share : {0.25, 0.5, 0.75, 1.0}) {
      const double time_s = step.start_s + share * (step.end_s - step.start_s);
      if (time_s < from_s_) continue;
      worst_K = std::max(worst_K, std::abs(step.at(node_, share) - exact_K_(time_s)));
    }
    return true;
  }
  /// When the node first reaches a level [s]; 0: not yet.
  double level_K = 0.0;
  double reached_s = 0.0;
  double worst_K = 0.0;

 private:
  int node_;
  std::function<double(double)> exact_K_;
  double from_s_;
};

inline void watch(const HeatModel& model,
                  const AirSegment& air,
                  const State& state,
                  StepWatcher& watcher,
                  double tolerance_K) {
  const heat::GainSegment dark;
  heat::Run run;
  run.forcing = {std::span(&air, 1), std::span(&dark, 1)};
  run.end_s = air.end_s;
  run.state = state;
  run.watcher = &watcher;
  heat::IntegratorOptions options;
  options.tolerance_K = tolerance_K;
  REQUIRE(!heat::integrate(model, run, options).failed());
}

inline double worst_K(const HeatModel& model,
                      const AirSegment& air,
                      const State& state,
                      Against watcher,
                      double tolerance_K = 0.02) {
  watch(model, air, state, watcher, tolerance_K);
  return watcher.worst_K;
}

inline double root_between(double low, double high, const std::function<double(double)>& f) {
  const bool low_is_negative = f(low) < 0.0;
  for (int i = 0; i < 80; ++i) {
    const double middle = 0.5 * (low + high);
    ((f(middle) < 0.0) == low_is_negative ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// A wall of one sort of stuff as make_model() cuts it, alone, its inner face held, its outer face
/// in the wind.
struct LoneWall {
  HeatModel model;
  double area_m2, thick_m, conductivity_WmK, diffusivity_m2s;
};

inline LoneWall lone_wall() {
  oven::Material stuff;
  stuff.conductivity_WmK = 0.06;
  stuff.density_kgm3 = 150.0;
  stuff.specific_heat_JkgK = 1400.0;
  oven::OvenDesign design = oven::default_design();
  design.box.wall = design.box.floor = {{stuff, 0.05}};
  const oven::OvenGeometry geometry = oven::build_geometry(design, nullptr, false);
  const HeatModel whole = heat::make_model(design, geometry, {}, nullptr, nullptr, {});
  LoneWall wall{bare_model(), 0.0, 0.05, 0.06, 0.06 / (150.0 * 1400.0)};
  double resistance_KW = 0.0;
  for (std::size_t i = 0; i < 4; ++i) {
    add(wall.model,
        heat::kNodeWall1 + static_cast<int>(i),
        whole.capacity_JK[heat::kNodeWall1 + i]);
    resistance_KW += 1.0 / whole.wall_WK[i];
  }
  wall.model.wall_WK = whole.wall_WK;
  wall.area_m2 = wall.thick_m / (wall.conductivity_WmK * resistance_KW);
  wall.model.wall_skin_m2 = wall.area_m2;  // as wide outside as inside
  wall.model.skin_emittance = 0.0;
  add(wall.model, heat::kNodeLiner, kHeld_JK);
  return wall;
}
}  // namespace ovendays::test
