// SPDX-License-Identifier: MIT
// Integration of the heat network: the four-stage Rosenbrock method RODAS3 of Sandu et al. 1997
// (Atmospheric Environment 31:3459, table 4), order 3 with an embedded order 2, stiffly accurate
// and L-stable, with the exact Jacobian of the network and adaptive steps. Steps end where segments
// end, where the lid opens or shuts, and at the onset of boiling. The error of a step that ends the
// boil is bounded separately, because the method's own estimate does not show it.
//
// Many runs of one oven are integrated side by side in SIMD lanes, eight or sixteen at a time, each
// with its own clock and its own steps. A run's result depends neither on the runs that shared its
// batch nor on the instruction set, where that fuses products and sums (AVX2 with FMA, or AVX-512).
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "ovendays/heat/forcing.h"
#include "ovendays/heat/model.h"

namespace ovendays::heat {

/// Precision of the arithmetic. Single precision rounds a temperature to some 2e-5 K a step, a
/// thousandth of the tolerance, and integrates sixteen runs at a time instead of eight. Clocks and
/// energy sums are double in both. The tests hold the residual of the energy audit to 1e-9 of the
/// absorbed sun in double precision; in single to 3e-5 over one day, and to 1e-4 in the worst of
/// all runs of a season.
enum class Precision { kDouble, kSingle };

struct IntegratorOptions {
  Precision precision = Precision::kDouble;
  /// Local error per step and node aimed at [K]; a step with up to 1.2 times as much is accepted.
  double tolerance_K = 0.02;
  /// |h (f0 + f1) - 2 (y1 - y0)| <= bend_K for the food, ten times that for other nodes. An
  /// L-stable step can jump over a decay and still end right; this bound keeps the temperatures
  /// between its ends right too.
  double bend_K = 0.4;
  /// Weight of the air's error. Air follows the walls within seconds, so that what a step misses of
  /// its swing after a jump (an opened lid) is gone at the next.
  double air_weight = 0.02;
  /// Weight of the errors of liner, tray and vessel, which are thin and soon follow what they
  /// touch.
  double thin_weight = 0.5;
  double first_step_s = 3.0;
  double longest_step_s = 1800.0;
  double shortest_step_s = 1e-3;  ///< below it the run fails
};

/// Powers [W].
struct Flows {
  double sun_W = 0.0;  ///< absorbed, skin included
  double out_W = 0.0;  ///< lost to the outside by all paths
};

/// Energy bookkeeping of a run [J]: in - out - stored = residual.
struct EnergyAudit {
  double in_J = 0.0;      ///< sun absorbed
  double out_J = 0.0;     ///< all losses, carried through the stages like one more node
  double stored_J = 0.0;  ///< rise of sum C T
  double latent_J = 0.0;  ///< part of out_J that left as steam
  [[nodiscard]] double residual_J() const { return in_J - out_J - stored_J; }
  EnergyAudit& operator+=(const EnergyAudit& other);
};

enum class StopReason { kReachedEnd, kWatcherStopped, kStepTooSmall, kNotFinite };

/// What came of a run; the integrator does not throw.
struct RunSummary {
  StopReason reason = StopReason::kReachedEnd;
  double end_s = 0.0;
  int steps = 0;
  int rejected = 0;
  EnergyAudit audit;
  double evaporated_kg = 0.0;
  double next_step_s = 20.0;  ///< next step of the controller: the first one of a run that goes on
  [[nodiscard]] bool failed() const {
    return reason == StopReason::kStepTooSmall || reason == StopReason::kNotFinite;
  }
};

/// A state read in place: one lane of a pack, or a State.
class StateView {
 public:
  StateView(const double* first, std::size_t stride) : first_(first), stride_(stride) {}
  StateView(const float* first, std::size_t stride) : single_(first), stride_(stride) {}
  explicit StateView(const State& state) : first_(state.data()), stride_(1) {}
  double operator[](std::size_t node) const {
    const std::size_t place = node * stride_;
    return single_ != nullptr ? static_cast<double>(single_[place]) : first_[place];
  }
  [[nodiscard]] State copy() const;

 private:
  const double* first_ = nullptr;
  const float* single_ = nullptr;
  std::size_t stride_;
};

/// One accepted step, with the slopes at both ends for cubic Hermite interpolation. The slope at
/// the end is the linearised one of the last stage, so that nodes too stiff for the step do not
/// oscillate between its ends.
struct Step {
  double start_s;
  double end_s;
  StateView y0;
  StateView y1;
  StateView rise0;  ///< dT/dt at the start times the step's length [K]
  StateView rise1;  ///< the same at the end
  /// Highest temperature of the core at the ends of the steps since the last one shown [K].
  double passed_peak_K = 0.0;
  /// Temperature of a node within the step. @param share 0..1
  [[nodiscard]] double at(int node, double share) const {
    const auto i = static_cast<std::size_t>(node);
    const double u = 1.0 - share;
    return u * u * (1.0 + 2.0 * share) * y0[i] + share * share * (3.0 - 2.0 * share) * y1[i] +
           share * u * (u * rise0[i] - share * rise1[i]);
  }
  /// Share in [0, 1] at which a node that falls at the end stops rising; 0 where it falls all
  /// along.
  [[nodiscard]] double peak_share(int node) const;
  /// Share in (0, 1] at which the node crosses a level; > 1 where its ends lie on one side of it.
  [[nodiscard]] double crossing(int node, double level_K) const {
    const auto i = static_cast<std::size_t>(node);
    return (y0[i] < level_K) == (y1[i] < level_K) ? 2.0 : crossing_between(node, level_K);
  }

 private:
  [[nodiscard]] double crossing_between(int node, double level_K) const;
};

/// Steps that a watcher need not see: they end before `until_s`, and three temperatures are inside
/// their bands at both ends. The last step of a run is always shown.
struct Quiet {
  struct Band {
    double low_K = -1e9, high_K = 1e9;
  };
  Band core, food, air;  ///< HeatModel::core_node(), kNodeFood, kNodeAir
  double until_s = -1e9;
};

/// A run's state at a mark. Marks are ends of segments at least kMarksApart_s apart, the same for
/// all runs with one forcing, so that runs can be compared there.
struct Mark {
  std::size_t number;  ///< of the forcing's marks, from 0
  double time_s;
  StateView y;
  double passed_peak_K;  ///< as of Step, since the step last shown
};
inline constexpr double kMarksApart_s = 600.0;

/// Sees every accepted step, except those that it declared quiet.
class StepWatcher {
 public:
  StepWatcher() = default;
  StepWatcher(const StepWatcher&) = default;
  StepWatcher& operator=(const StepWatcher&) = default;
  virtual ~StepWatcher();
  /// @return false to stop the run at the end of the step
  virtual bool on_step(const Step& step) = 0;
  /// Called at every mark after the run's start if Run::marks is set, after the step that ends
  /// there.
  /// @return false to stop the run there
  virtual bool on_mark(const Mark& mark);
  [[nodiscard]] const Quiet& quiet() const { return quiet_; }

 protected:
  void set_quiet(const Quiet& quiet) { quiet_ = quiet; }

 private:
  Quiet quiet_;
};

/// A time span with the lid open.
struct LidOpening {
  double from_s;
  double to_s;
};

/// One integration of an oven over a span of time.
struct Run {
  Forcing forcing;
  double start_s = 0.0;
  double end_s = 0.0;
  State state{};                         ///< at the start; at the end when integrate() has returned
  std::span<const LidOpening> lid_open;  ///< ascending, apart
  StepWatcher* watcher = nullptr;
  bool marks = false;         ///< the watcher's on_mark() is called
  double first_step_s = 0.0;  ///< 0: IntegratorOptions::first_step_s
};

/// Integrates every run; summaries in the same order. Thread-safe: yes, for distinct runs and
/// watchers.
void integrate(const HeatModel& model,
               std::span<Run> runs,
               std::span<RunSummary> summaries,
               const IntegratorOptions& options);

/// One run alone.
RunSummary integrate(const HeatModel& model, Run& run, const IntegratorOptions& options);

/// Names of the SIMD instruction sets that this build carries and this machine can run; integrate()
/// uses the first.
std::vector<std::string> instruction_sets();
/// integrate() with a given instruction set, for tests that compare them. All give the same bits
/// except "portable", which rounds twice where the others fuse a product and a sum.
void integrate_with(const std::string& instruction_set,
                    const HeatModel& model,
                    std::span<Run> runs,
                    std::span<RunSummary> summaries,
                    const IntegratorOptions& options);

/// The right-hand side of the equations: rates of change [K/s] (kNodeWater: [%/s]) and flows at an
/// instant within a segment, for tests and for other integrators. @param share 0..1 of the segment
void right_hand_side(const HeatModel& model,
                     const AirSegment& air,
                     const GainSegment& gains,
                     double share,
                     const State& y,
                     State& dydt,
                     Flows& flows);
}  // namespace ovendays::heat
