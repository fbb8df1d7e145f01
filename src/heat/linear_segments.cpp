// SPDX-License-Identifier: MIT
#include "linear_segments.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "ovendays/heat/correlations.h"

namespace ovendays::heat {
namespace {

/// Longer than any step, so it bounds none.
constexpr double kLongestStep_s = 1e6;

/// Where the absorbed sun jumps by kLargeJump_W (sum over all surfaces), or the wind by as much as
/// has the same effect, the oven's air swings for some seconds. The first step is then
/// kAfterJump_s, and longer in proportion after a smaller jump.
constexpr double kAfterJump_s = 15.0;
constexpr double kLargeJump_W = 60.0;
constexpr double kGust_Wsm = 50.0;

double first_step_s(const Forcing& forcing, std::size_t segment) {
  if (segment == 0) return kLongestStep_s;
  const Surroundings& now = forcing.air[segment].start;
  const Surroundings& before = forcing.air[segment - 1].end;
  double jump_W = kGust_Wsm * std::abs(now.wind_ms - before.wind_ms);
  for (std::size_t s = 0; s < oven::kSurfaces; ++s)
    jump_W += std::abs(forcing.gains[segment].start_W[s] - forcing.gains[segment - 1].end_W[s]);
  if (jump_W <= kAfterJump_s * kLargeJump_W / kLongestStep_s) return kLongestStep_s;
  return kAfterJump_s * std::max(1.0, kLargeJump_W / jump_W);
}

/// Remembers gap_tilt() of the few tilts at which a box is propped.
class KnownTilts {
 public:
  const GapTilt& of(double tilt_rad) {
    const auto same = [tilt_rad](const auto& known) { return known.first == tilt_rad; };
    const auto at = std::find_if(known_.begin(), known_.end(), same);
    if (at != known_.end()) return at->second;
    return known_.emplace_back(tilt_rad, gap_tilt(tilt_rad)).second;
  }

 private:
  std::vector<std::pair<double, GapTilt>> known_;
};

/// The time that the runs of one forcing cover together.
struct Reach {
  double from_s, to_s;
};

template <class Scalar>
std::vector<LinearSegment<Scalar>> linear_segments(const Forcing& forcing,
                                                   const Reach& reach,
                                                   double light_factor,
                                                   KnownTilts& tilts) {
  const auto plain = [](double x) { return static_cast<Scalar>(x); };
  std::vector<LinearSegment<Scalar>> ready;
  ready.reserve(forcing.air.size());
  double tilt_rad = -1.0;
  GapTilt tilt{};
  int marks = 0;
  double last_mark_s = -kMarksApart_s;
  for (std::size_t i = 0; i < forcing.air.size(); ++i) {
    const AirSegment& air = forcing.air[i];
    const bool marked = air.end_s >= last_mark_s + kMarksApart_s;
    const int mark =
        marked ? marks++
               : -1;  // counted from the forcing's start, so that every batch numbers alike
    if (marked) last_mark_s = air.end_s;
    if (air.end_s <= reach.from_s) continue;
    if (air.start_s >= reach.to_s) break;
    const GainSegment& gains = forcing.gains[i];
    const double span_s = air.end_s - air.start_s;
    const double per_s = span_s > 0.0 ? 1.0 / span_s : 0.0;
    const auto rate = [&](double a, double b) { return plain((b - a) * per_s); };
    const Surroundings& a = air.start;
    const Surroundings& b = air.end;
    if (tilt_rad != air.glazing_tilt_rad) {
      tilt_rad = air.glazing_tilt_rad;
      tilt = tilts.of(tilt_rad);
    }
    LinearSegment<Scalar>& r = ready.emplace_back();
    r.start_s = air.start_s;
    r.end_s = air.end_s;
    r.base = {plain(a.ambient_K),
              plain(a.pane_env_K4),
              plain(a.skin_env_K4),
              plain(a.skin_gain_W),
              plain(a.wind_ms)};
    r.rate = {rate(a.ambient_K, b.ambient_K),
              rate(a.pane_env_K4, b.pane_env_K4),
              rate(a.skin_env_K4, b.skin_env_K4),
              rate(a.skin_gain_W, b.skin_gain_W),
              rate(a.wind_ms, b.wind_ms)};
    for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
      r.gain_W[s] = plain(light_factor * gains.start_W[s]);
      r.gain_rate_Ws[s] = rate(light_factor * gains.start_W[s], light_factor * gains.end_W[s]);
    }
    r.tilt_cosine = plain(tilt.cosine);
    r.tilt_sine_power = plain(tilt.sine_power);
    r.tilt_free = plain(tilt.cosine_root);
    r.vapour_Pa = plain(air.vapour_Pa);
    r.pane_wind_factor = plain(air.pane_wind_factor);
    r.lid_open = air.lid_open;
    r.first_step_s = plain(first_step_s(forcing, i));
    r.mark = mark;
  }
  return ready;
}
}  // namespace

template <class Scalar>
LinearSegments<Scalar>::LinearSegments(const Run* runs, std::size_t count, double light_factor) {
  std::map<std::pair<const AirSegment*, const GainSegment*>, std::size_t> known;
  std::vector<const Forcing*> forcings;
  std::vector<Reach> reaches;
  std::vector<std::size_t> of_run;  // index of each run's forcing
  of_run.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    const Run& run = runs[i];
    const auto [at, is_new] =
        known.try_emplace({run.forcing.air.data(), run.forcing.gains.data()}, forcings.size());
    if (is_new) {
      forcings.push_back(&run.forcing);
      reaches.push_back({run.start_s, run.end_s});
    }
    Reach& reach = reaches[at->second];
    reach.from_s = std::min(reach.from_s, run.start_s);
    reach.to_s = std::max(reach.to_s, run.end_s);
    of_run.push_back(at->second);
  }
  KnownTilts tilts;
  per_forcing_.reserve(forcings.size());
  for (std::size_t f = 0; f < forcings.size(); ++f)
    per_forcing_.push_back(linear_segments<Scalar>(*forcings[f], reaches[f], light_factor, tilts));
  segments_.reserve(count);
  for (const std::size_t f : of_run)
    segments_.push_back({per_forcing_[f].data(), per_forcing_[f].data() + per_forcing_[f].size()});
  of_run_ = segments_.data();
}

template <class Scalar>
LinearSegments<Scalar>::~LinearSegments() = default;

template class LinearSegments<double>;
template class LinearSegments<float>;
}  // namespace ovendays::heat
