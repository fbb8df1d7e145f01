// SPDX-License-Identifier: MIT
// Integration of the heat network: the four-stage Rosenbrock method RODAS3 of Sandu et al. 1997
// (Atmospheric Environment 31:3459, table 4), order 3 with an embedded order 2, stiffly accurate
// and L-stable, with the exact Jacobian of the network and adaptive steps. Steps never straddle the
// ends of segments that jump, nor the onset of boiling.
#pragma once

#include <array>
#include <cstdint>
#include <string>

#include "ovendays/heat/forcing.h"
#include "ovendays/heat/model.h"

namespace ovendays::heat {

struct IntegratorOptions {
  double tolerance_K = 0.02;  ///< local error of every node per step, |error| <= tolerance
  double first_step_s = 20.0;
  double longest_step_s = 1800.0;
  double shortest_step_s = 1e-3;  ///< below it the run fails
};

/// Powers [W] that the audit sums.
struct Flows {
  double sun_W = 0.0;  ///< absorbed, skin included
  double out_W = 0.0;  ///< lost to the outside by all paths
};

/// Energy bookkeeping of a run [J]: in - out - stored = residual.
struct EnergyAudit {
  double in_J = 0.0;  ///< sun absorbed
  double out_J =
      0.0;  ///< sum of all losses, by a fourth-order quadrature apart from the steps' own sums
  double stored_J = 0.0;  ///< rise of sum C T
  double latent_J = 0.0;  ///< part of out_J that left as steam
  [[nodiscard]] double residual_J() const { return in_J - out_J - stored_J; }
  EnergyAudit& operator+=(const EnergyAudit& other);
};

enum class StopReason { kReachedEnd, kWatcherStopped, kStepTooSmall, kNotFinite };

/// Never throws: what happened is said here.
struct RunSummary {
  StopReason reason = StopReason::kReachedEnd;
  double end_s = 0.0;
  int steps = 0;
  int rejected = 0;
  EnergyAudit audit;
  double evaporated_kg = 0.0;
  double next_step_s =
      20.0;  ///< what the controller would try next; a good first step to go on with
  [[nodiscard]] bool failed() const {
    return reason == StopReason::kStepTooSmall || reason == StopReason::kNotFinite;
  }
};

/// One accepted step, with the slopes at both ends for cubic Hermite interpolation.
struct Step {
  double start_s;
  double end_s;
  const State& y0;
  const State& y1;
  const State& f0;  ///< dT/dt at the start [K/s]
  const State& f1;  ///< at the end
  /// Temperature of a node within the step. @param share 0..1
  [[nodiscard]] double at(int node, double share) const;
  /// First share in (0, 1] at which the node crosses a level; > 1 where it does not cross.
  [[nodiscard]] double crossing(int node, double level_K) const;
};

/// Sees every accepted step. Returns false to stop the run at the step's end.
class StepWatcher {
 public:
  virtual ~StepWatcher() = default;
  virtual bool on_step(const Step& step) = 0;
};

/// Rate of change [K/s] and flows at an instant within a segment, the plain equations: for tests
/// and oracles.
/// @param share 0..1 of the segment
void right_hand_side(const HeatModel& model,
                     const AirSegment& air,
                     const GainSegment& gains,
                     double share,
                     double water_left_kg,
                     const State& y,
                     State& dydt,
                     Flows& flows);

/// Integrates from `start_s` to `end_s` through the forcing; `state` is both input and output.
RunSummary integrate(const HeatModel& model,
                     const Forcing& forcing,
                     double start_s,
                     double end_s,
                     State& state,
                     StepWatcher* watcher,
                     const IntegratorOptions& options);
}  // namespace ovendays::heat
