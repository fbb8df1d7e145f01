// SPDX-License-Identifier: MIT
#include "ovendays/heat/integrator.h"

#include <algorithm>
#include <cmath>

#include "kernel.h"
#include "ovendays/base/check.h"
#include "solver.h"

namespace ovendays::heat {
namespace {

using kernel::Instant;
using kernel::Powers;

double mix(double a, double b, double share) { return a + (b - a) * share; }

Surroundings mix(const Surroundings& a, const Surroundings& b, double share) {
  return {mix(a.ambient_K, b.ambient_K, share),
          mix(a.pane_env_K4, b.pane_env_K4, share),
          mix(a.skin_env_K4, b.skin_env_K4, share),
          mix(a.skin_gain_W, b.skin_gain_W, share),
          mix(a.wind_ms, b.wind_ms, share)};
}

bool same(const Surroundings& a, const Surroundings& b) {
  return a.ambient_K == b.ambient_K && a.pane_env_K4 == b.pane_env_K4 &&
         a.skin_env_K4 == b.skin_env_K4 && a.skin_gain_W == b.skin_gain_W && a.wind_ms == b.wind_ms;
}

/// One segment of forcing as a function of time.
class SegmentView {
 public:
  SegmentView(const AirSegment& air, const GainSegment& gains, double wetness)
      : air_(air), gains_(gains), tilt_(kernel::gap_tilt(air.glazing_tilt_rad)), wetness_(wetness) {
    const double span_s = air.end_s - air.start_s;
    const double per_s = span_s > 0.0 ? 1.0 / span_s : 0.0;
    const Surroundings& a = air.start;
    const Surroundings& b = air.end;
    rate_ = {(b.ambient_K - a.ambient_K) * per_s,
             (b.pane_env_K4 - a.pane_env_K4) * per_s,
             (b.skin_env_K4 - a.skin_env_K4) * per_s,
             (b.skin_gain_W - a.skin_gain_W) * per_s,
             (b.wind_ms - a.wind_ms) * per_s};
    for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
      gain_rate_[s] = (gains.end_W[s] - gains.start_W[s]) * per_s;
    }
  }
  [[nodiscard]] Instant at(double time_s) const {
    const double span_s = air_.end_s - air_.start_s;
    return at_share(span_s > 0.0 ? (time_s - air_.start_s) / span_s : 0.0);
  }
  [[nodiscard]] Instant at_share(double share) const {
    Instant now{mix(air_.start, air_.end, share),
                {},
                tilt_,
                air_.vapour_Pa,
                air_.pane_wind_factor,
                air_.lid_open,
                wetness_};
    for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
      now.gain_W[s] = mix(gains_.start_W[s], gains_.end_W[s], share);
    }
    return now;
  }
  [[nodiscard]] const Surroundings& rate() const { return rate_; }
  [[nodiscard]] const std::array<double, oven::kSurfaces>& gain_rate() const { return gain_rate_; }

 private:
  const AirSegment& air_;
  const GainSegment& gains_;
  kernel::GapTilt tilt_;
  double wetness_;
  Surroundings rate_;
  std::array<double, oven::kSurfaces> gain_rate_{};
};

double wetness(const HeatModel& model, double water_left_kg) {
  if (model.water_kg <= 0.0) return 0.0;
  return std::clamp(water_left_kg / (0.05 * model.water_kg), 0.0, 1.0);
}

/// Everything known at one end of a step.
struct Corner {
  Powers powers;
  kernel::Jacobian jacobian;
  State slope_Ks{};          ///< dT/dt
  State drift_Ws{};          ///< explicit time derivative of the powers
  double out_rate_Ws = 0.0;  ///< total time derivative of the power that leaves
};

class Stepper {
 public:
  Stepper(const HeatModel& model, const IntegratorOptions& options)
      : model_(model), options_(options) {
    for (std::size_t i = 0; i < kNodes; ++i) per_capacity_[i] = 1.0 / model.capacity_JK[i];
  }

  void evaluate(const SegmentView& view, double time_s, const State& y, Corner& corner) const {
    kernel::evaluate(model_, view.at(time_s), y, corner.powers, &corner.jacobian);
    for (std::size_t i = 0; i < kNodes; ++i) {
      corner.slope_Ks[i] = corner.powers.into_W[i] * per_capacity_[i];
    }
    evaluate_drift(view, time_s, y, corner);
  }

  /// The part of a corner that changes where one segment joins the next without a jump.
  void evaluate_drift(const SegmentView& view,
                      double time_s,
                      const State& y,
                      Corner& corner) const {
    double out_Ws = 0.0;
    kernel::drift(
        model_, view.at(time_s), view.rate(), view.gain_rate(), y, corner.drift_Ws, out_Ws);
    for (std::size_t i = 0; i < kNodes; ++i) {
      out_Ws += corner.powers.out_slope_WK[i] * corner.slope_Ks[i];
    }
    corner.out_rate_Ws = out_Ws;
  }

  /// A trial step of RODAS3. @return the largest local error over the tolerance
  double attempt(const SegmentView& view,
                 double time_s,
                 double step_s,
                 const State& y,
                 const Corner& start,
                 State& y1) {
    matrix_.factor(model_, start.jacobian, 2.0 / step_s);  // gamma = 1/2
    const double per_step = 1.0 / step_s;
    const auto& c = model_.capacity_JK;
    State k1 = start.powers.into_W;
    for (std::size_t i = 0; i < kNodes; ++i) k1[i] += 0.5 * step_s * start.drift_Ws[i];
    matrix_.solve(k1);
    State k2 = start.powers.into_W;
    for (std::size_t i = 0; i < kNodes; ++i) {
      k2[i] += 4.0 * per_step * c[i] * k1[i] + 1.5 * step_s * start.drift_Ws[i];
    }
    matrix_.solve(k2);
    const Instant end = view.at(time_s + step_s);
    for (std::size_t i = 0; i < kNodes; ++i) y1[i] = y[i] + 2.0 * k1[i];
    kernel::evaluate(model_, end, y1, stage_, nullptr);
    State k3 = stage_.into_W;
    for (std::size_t i = 0; i < kNodes; ++i) k3[i] += per_step * c[i] * (k1[i] - k2[i]);
    matrix_.solve(k3);
    for (std::size_t i = 0; i < kNodes; ++i) y1[i] += k3[i];
    kernel::evaluate(model_, end, y1, stage_, nullptr);
    State k4 = stage_.into_W;
    for (std::size_t i = 0; i < kNodes; ++i) {
      k4[i] += per_step * c[i] * (k1[i] - k2[i] - 8.0 / 3.0 * k3[i]);
    }
    matrix_.solve(k4);
    double error = 0.0;
    for (std::size_t i = 0; i < kNodes; ++i) {
      y1[i] += k4[i];
      if (model_.present[i]) error = std::max(error, std::abs(k4[i]));
      if (!std::isfinite(y1[i])) return 1e9;
    }
    return error / options_.tolerance_K;
  }

 private:
  const HeatModel& model_;
  const IntegratorOptions& options_;
  State per_capacity_{};
  kernel::StepMatrix matrix_;
  Powers stage_;
};

/// Fourth-order quadrature over a step from values and slopes at both ends.
double quadrature(double step_s, double q0, double q1, double rate0, double rate1) {
  return step_s * (0.5 * (q0 + q1) + step_s * (rate0 - rate1) / 12.0);
}

class Run {
 public:
  Run(const HeatModel& model,
      const Forcing& forcing,
      State& state,
      StepWatcher* watcher,
      const IntegratorOptions& options)
      : model_(model),
        forcing_(forcing),
        state_(state),
        watcher_(watcher),
        options_(options),
        stepper_(model, options),
        step_s_(options.first_step_s) {}

  RunSummary go(double start_s, double end_s) {
    const double stored_J = model_.stored_J(state_, base::kZeroCelsius_K);
    summary_.end_s = start_s;
    std::size_t i = 0;
    while (i < forcing_.air.size() && forcing_.air[i].end_s <= start_s) ++i;
    double last_wet = -1.0;
    for (; i < forcing_.air.size() && summary_.end_s < end_s; ++i) {
      const AirSegment& air = forcing_.air[i];
      const double wet = wetness(model_, model_.water_kg - summary_.evaporated_kg);
      const SegmentView view(air, forcing_.gains[i], wet);
      if (wet == last_wet && joins(i)) {
        stepper_.evaluate_drift(view, summary_.end_s, state_, start_);
      } else {
        stepper_.evaluate(view, summary_.end_s, state_, start_);
      }
      last_wet = wet;
      if (!segment(view, std::min(air.end_s, end_s))) break;
    }
    summary_.next_step_s = step_s_;
    summary_.audit.stored_J = model_.stored_J(state_, base::kZeroCelsius_K) - stored_J;
    return summary_;
  }

 private:
  [[nodiscard]] bool joins(std::size_t i) const {
    const AirSegment& before = forcing_.air[i - 1];
    const AirSegment& now = forcing_.air[i];
    return same(before.end, now.start) &&
           forcing_.gains[i - 1].end_W == forcing_.gains[i].start_W &&
           before.glazing_tilt_rad == now.glazing_tilt_rad && before.vapour_Pa == now.vapour_Pa &&
           before.lid_open == now.lid_open && before.pane_wind_factor == now.pane_wind_factor;
  }

  /// Steps through one segment. @return false when the run is over
  bool segment(const SegmentView& view, double end_s) {
    while (summary_.end_s < end_s) {
      const double left_s = end_s - summary_.end_s;
      double h = std::min({step_s_, options_.longest_step_s, left_s});
      if (left_s - h < 0.1 * h) h = left_s;
      h = std::min(h, until_boiling_s());
      State y1;
      const double error = stepper_.attempt(view, summary_.end_s, h, state_, start_, y1);
      const double factor = std::clamp(0.85 / std::cbrt(std::max(error, 1e-6)), 0.2, 4.0);
      if (error > 1.0) {
        ++summary_.rejected;
        step_s_ = h * factor;
        if (step_s_ < options_.shortest_step_s) {
          summary_.reason = error >= 1e8 ? StopReason::kNotFinite : StopReason::kStepTooSmall;
          return false;
        }
        continue;
      }
      const bool to_end = h >= left_s;
      if (!accept(view, h, to_end ? end_s : summary_.end_s + h, y1)) return false;
      step_s_ = to_end ? std::max(step_s_, h * factor) : h * factor;
    }
    return true;
  }

  /// Time to just past the boiling point at the present slope, so that a step ends there.
  [[nodiscard]] double until_boiling_s() const {
    if (model_.water_kg <= 0.0) return 1e30;
    const double below_K = model_.boiling_K - state_[kNodeFood];
    const double slope = start_.slope_Ks[kNodeFood];
    if (below_K <= 0.0 || slope <= 0.0) return 1e30;
    return std::max((below_K + 1e-3) / slope, 1.0);
  }

  bool accept(const SegmentView& view, double step_s, double end_s, const State& y1) {
    stepper_.evaluate(view, end_s, y1, end_);
    ++summary_.steps;
    EnergyAudit& audit = summary_.audit;
    audit.in_J += 0.5 * step_s * (start_.powers.flows.sun_W + end_.powers.flows.sun_W);
    audit.out_J += quadrature(step_s,
                              start_.powers.flows.out_W,
                              end_.powers.flows.out_W,
                              start_.out_rate_Ws,
                              end_.out_rate_Ws);
    audit.latent_J += 0.5 * step_s * (start_.powers.latent_W + end_.powers.latent_W);
    summary_.evaporated_kg +=
        0.5 * step_s * (start_.powers.evaporated_kgs + end_.powers.evaporated_kgs);
    bool go_on = true;
    if (watcher_ != nullptr) {
      go_on = watcher_->on_step(
          Step{summary_.end_s, end_s, state_, y1, start_.slope_Ks, end_.slope_Ks});
    }
    state_ = y1;
    std::swap(start_, end_);
    summary_.end_s = end_s;
    if (!go_on) summary_.reason = StopReason::kWatcherStopped;
    return go_on;
  }

  const HeatModel& model_;
  const Forcing& forcing_;
  State& state_;
  StepWatcher* watcher_;
  const IntegratorOptions& options_;
  Stepper stepper_;
  double step_s_;
  Corner start_;
  Corner end_;
  RunSummary summary_;
};
}  // namespace

EnergyAudit& EnergyAudit::operator+=(const EnergyAudit& other) {
  in_J += other.in_J;
  out_J += other.out_J;
  stored_J += other.stored_J;
  latent_J += other.latent_J;
  return *this;
}

double Step::at(int node, double share) const {
  const auto i = static_cast<std::size_t>(node);
  const double h = end_s - start_s;
  const double u = 1.0 - share;
  return u * u * (1.0 + 2.0 * share) * y0[i] + share * share * (3.0 - 2.0 * share) * y1[i] +
         h * share * u * (u * f0[i] - share * f1[i]);
}

double Step::crossing(int node, double level_K) const {
  const auto i = static_cast<std::size_t>(node);
  const bool from_below = y0[i] < level_K;
  if (from_below == (y1[i] < level_K)) return 2.0;
  double low = 0.0;
  double high = 1.0;
  for (int k = 0; k < 40; ++k) {
    const double middle = 0.5 * (low + high);
    ((at(node, middle) < level_K) == from_below ? low : high) = middle;
  }
  return high;
}

void right_hand_side(const HeatModel& model,
                     const AirSegment& air,
                     const GainSegment& gains,
                     double share,
                     double water_left_kg,
                     const State& y,
                     State& dydt,
                     Flows& flows) {
  const SegmentView view(air, gains, wetness(model, water_left_kg));
  Powers powers;
  kernel::evaluate(model, view.at_share(share), y, powers, nullptr);
  for (std::size_t i = 0; i < kNodes; ++i) dydt[i] = powers.into_W[i] / model.capacity_JK[i];
  flows = powers.flows;
}

RunSummary integrate(const HeatModel& model,
                     const Forcing& forcing,
                     double start_s,
                     double end_s,
                     State& state,
                     StepWatcher* watcher,
                     const IntegratorOptions& options) {
  OVENDAYS_CHECK(forcing.air.size() == forcing.gains.size());
  return Run(model, forcing, state, watcher, options).go(start_s, end_s);
}
}  // namespace ovendays::heat
