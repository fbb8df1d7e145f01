// SPDX-License-Identifier: MIT
#include "ovendays/heat/integrator.h"

#include <algorithm>
#include <cmath>

#include "instruction_sets.h"
#include "network.h"
#include "ovendays/base/check.h"
#include "ovendays/heat/correlations.h"

namespace ovendays::heat {
namespace {

struct InstructionSet {
  const char* name;
  BatchFunction engine;
};

/// What this build carries and this machine can run, the widest first.
std::vector<InstructionSet> usable_sets() {
  std::vector<InstructionSet> sets;
#ifdef OVENDAYS_HAVE_X86_LEVELS
  if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512bw") &&
      __builtin_cpu_supports("avx512cd") && __builtin_cpu_supports("avx512dq") &&
      __builtin_cpu_supports("avx512vl")) {
    sets.push_back({"x86-64-v4", x86_v4::integrate_batch});
  }
  if (__builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma") &&
      __builtin_cpu_supports("bmi2")) {
    sets.push_back({"x86-64-v3", x86_v3::integrate_batch});
  }
#endif
  sets.push_back({"portable", portable::integrate_batch});
  return sets;
}

BatchFunction widest() {
  static const BatchFunction engine = usable_sets().front().engine;
  return engine;
}
}  // namespace

StepWatcher::~StepWatcher() = default;

bool StepWatcher::on_mark(const Mark& /*mark*/) { return true; }

EnergyAudit& EnergyAudit::operator+=(const EnergyAudit& other) {
  in_J += other.in_J;
  out_J += other.out_J;
  stored_J += other.stored_J;
  latent_J += other.latent_J;
  return *this;
}

State StateView::copy() const {
  State state{};
  for (std::size_t i = 0; i < kNodes; ++i) state[i] = (*this)[i];
  return state;
}

double Step::peak_share(int node) const {
  const auto i = static_cast<std::size_t>(node);
  if (rise0[i] <= 0.0) return 0.0;
  // The slope of at()'s cubic in powers of the share: above 0 at the start, below at the end.
  const double rise = y1[i] - y0[i];
  const double c0 = rise0[i];
  const double c1 = 6.0 * rise - 4.0 * rise0[i] - 2.0 * rise1[i];
  const double c2 = 3.0 * (rise0[i] + rise1[i]) - 6.0 * rise;
  const double root = std::sqrt(std::max(0.0, c1 * c1 - 4.0 * c2 * c0));
  // The one root within the step, in the form that does not cancel.
  const double half = -0.5 * (c1 + std::copysign(root, c1));
  const double share = c1 < 0.0 ? c0 / half : half / c2;
  return std::clamp(share, 0.0, 1.0);
}

double Step::crossing_between(int node, double level_K) const {
  const auto i = static_cast<std::size_t>(node);
  // The cubic of at() in powers of the share, less the level.
  const double c0 = y0[i] - level_K;
  const double c1 = rise0[i];
  const double rise = y1[i] - y0[i];
  const double c2 = 3.0 * rise - (2.0 * rise0[i] + rise1[i]);
  const double c3 = rise0[i] + rise1[i] - 2.0 * rise;
  const bool from_below = c0 < 0.0;
  double low = 0.0;
  double high = 1.0;
  double share = std::clamp(-c0 / rise, 0.0, 1.0);
  // Newton's steps, halving the bracket where they leave it; `high` stays beyond the level.
  for (int k = 0; k < 60 && high - low > 1e-13; ++k) {
    const double value = c0 + share * (c1 + share * (c2 + share * c3));
    ((value < 0.0) == from_below ? low : high) = share;
    const double slope = c1 + share * (2.0 * c2 + share * 3.0 * c3);
    const double next = share - value / slope;
    // The next one would be off by the square of this one's way.
    if (std::abs(next - share) < 1e-8) return std::clamp(next, low, high);
    share = next > low && next < high ? next : 0.5 * (low + high);
  }
  return high;
}

void integrate(const HeatModel& model,
               std::span<Run> runs,
               std::span<RunSummary> summaries,
               const IntegratorOptions& options) {
  OVENDAYS_CHECK(runs.size() == summaries.size());
  for (const Run& run : runs) OVENDAYS_CHECK(run.forcing.air.size() == run.forcing.gains.size());
  widest()(model, runs.data(), summaries.data(), runs.size(), options);
}

RunSummary integrate(const HeatModel& model, Run& run, const IntegratorOptions& options) {
  RunSummary summary;
  integrate(model, std::span(&run, 1), std::span(&summary, 1), options);
  return summary;
}

std::vector<std::string> instruction_sets() {
  std::vector<std::string> names;
  for (const InstructionSet& set : usable_sets()) names.emplace_back(set.name);
  return names;
}

void integrate_with(const std::string& instruction_set,
                    const HeatModel& model,
                    std::span<Run> runs,
                    std::span<RunSummary> summaries,
                    const IntegratorOptions& options) {
  for (const InstructionSet& set : usable_sets()) {
    if (instruction_set == set.name)
      return set.engine(model, runs.data(), summaries.data(), runs.size(), options);
  }
  OVENDAYS_CHECK(false && "an instruction set of instruction_sets()");
}

void right_hand_side(const HeatModel& model,
                     const AirSegment& air,
                     const GainSegment& gains,
                     double share,
                     const State& y,
                     State& dydt,
                     Flows& flows) {
  const auto mix = [share](double a, double b) { return a + (b - a) * share; };
  portable::BoundaryValues<double> now{mix(air.start.ambient_K, air.end.ambient_K),
                                       mix(air.start.pane_env_K4, air.end.pane_env_K4),
                                       mix(air.start.skin_env_K4, air.end.skin_env_K4),
                                       mix(air.start.skin_gain_W, air.end.skin_gain_W),
                                       mix(air.start.wind_ms, air.end.wind_ms),
                                       {}};
  for (std::size_t s = 0; s < oven::kSurfaces; ++s)
    now.gain_W[s] = model.light_factor * mix(gains.start_W[s], gains.end_W[s]);
  const GapTilt tilt = gap_tilt(air.glazing_tilt_rad);
  const portable::SegmentConstants<double> constants{tilt.cosine,
                                                     tilt.sine_power,
                                                     tilt.cosine_root,
                                                     air.vapour_Pa,
                                                     air.pane_wind_factor,
                                                     air.lid_open ? 1.0 : 0.0};
  portable::Powers<double> powers;
  const portable::DerivedNumbers<double> derived(model);
  State at_K = y;
  for (const int n : {kNodeFood, kNodeShell1, kNodeShell2, kNodeShell3, kNodeShell4}) {
    const auto i = static_cast<std::size_t>(n);
    at_K[i] = model.food_temperature_K(y[i]);
  }
  portable::Network<double, false>(model, derived, now, constants, at_K.data(), powers, nullptr)
      .evaluate();
  for (std::size_t i = 0; i < kNodes; ++i) dydt[i] = powers.into_W[i] / model.capacity_JK[i];
  flows = {now.sun_W(), powers.out_W};
}
}  // namespace ovendays::heat
