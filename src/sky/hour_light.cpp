// SPDX-License-Identifier: MIT
#include "hour_light.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"
#include "ovendays/sky/sky_model.h"

namespace ovendays::sky {
namespace {
constexpr double kShortestLit_s = 60.0;  // shorter lit intervals are neglected
constexpr double kSnap_s = 1.0;          // sunrise and sunset snap to interval ends this close

// The lit intervals within [from, to].
std::vector<LitInterval> lit_inside(const DayFrame& frame, double from_s, double to_s) {
  std::vector<LitInterval> inside;
  for (const LitInterval& lit : frame.lit) {
    LitInterval part{std::max(lit.from_s, from_s), std::min(lit.to_s, to_s)};
    if (part.from_s < from_s + kSnap_s) part.from_s = from_s;
    if (part.to_s > to_s - kSnap_s) part.to_s = to_s;
    if (part.to_s - part.from_s >= kShortestLit_s) inside.push_back(part);
  }
  return inside;
}

// The mandatory segment ends: interval ends, midnights, sunrises and sunsets.
std::vector<double> mandatory_ends(double from_s,
                                   double to_s,
                                   const std::vector<LitInterval>& lit) {
  std::vector<double> ends = {from_s, to_s};
  for (const LitInterval& part : lit) ends.insert(ends.end(), {part.from_s, part.to_s});
  for (double midnight_s : {0.0, base::kSecondsPerDay}) {
    if (midnight_s > from_s && midnight_s < to_s) ends.push_back(midnight_s);
  }
  std::sort(ends.begin(), ends.end());
  ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
  return ends;
}

// Appends the grid points between two segment ends. Points too close to either end are skipped.
void append_grid(std::vector<double>& times, double from_s, double to_s, double step_s) {
  const double margin_s = std::min(60.0, 0.25 * step_s);
  for (double n = std::floor(from_s / step_s); n * step_s < to_s - margin_s; n += 1.0) {
    if (n * step_s > from_s + margin_s) times.push_back(n * step_s);
  }
}

HourPoint make_point(const HourInput& q, double t_s) {
  if (q.known && q.known->t_s == t_s) return *q.known;
  HourPoint point;
  point.t_s = t_s;
  point.sun = q.frame.sun_at(t_s, q.place);
  point.extra_Wm2 = sun::extraterrestrial_normal_Wm2(point.sun.distance_au);
  point.height = SunHeight(point.sun.zenith_rad);
  point.beam_shape = clear_beam_shape(point.height);
  point.diffuse_shape = std::max(0.0, point.height.cos_zenith);
  return point;
}

bool contains(const std::vector<LitInterval>& lit, double t_s) {
  return std::any_of(lit.begin(), lit.end(), [t_s](const LitInterval& part) {
    return t_s > part.from_s && t_s < part.to_s;
  });
}

void divide_hour(const HourInput& q, HourLight& light) {
  const double end_s = q.start_s + q.hour.length_s;
  const std::vector<LitInterval> lit = lit_inside(q.frame, q.start_s, end_s);
  const std::vector<double> ends = mandatory_ends(q.start_s, end_s, lit);
  std::vector<double> times = {ends.front()};
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    const bool is_lit = contains(lit, 0.5 * (ends[i] + ends[i + 1]));
    if (is_lit) append_grid(times, ends[i], ends[i + 1], q.step_s);
    times.push_back(ends[i + 1]);
    HourSegment segment;
    segment.lit = is_lit;
    light.segments.resize(times.size() - 1, segment);
  }
  for (double t_s : times) light.points.push_back(make_point(q, t_s));
}

// How the light follows from the profile: scale * profile * extraterrestrial, or constant.
struct Spread {
  double scale = 0.0;
  double flat_Wm2 = 0.0;
  double unplaced_Jm2 = 0.0;
};

struct LitSums {
  double lit_s = 0.0;
  double weighted_Jm2 = 0.0;    // integral of profile * extraterrestrial, by the trapezoidal rule
  double greatest_shape = 0.0;  // largest value of the profile at any point
  double least_extra_Wm2 = 1e9;
};

template <typename Shape>
LitSums lit_sums(const HourLight& light, Shape shape) {
  LitSums sums;
  for (std::size_t i = 0; i < light.segments.size(); ++i) {
    if (!light.segments[i].lit) continue;
    const HourPoint& a = light.points[i];
    const HourPoint& b = light.points[i + 1];
    const double dt_s = b.t_s - a.t_s;
    sums.lit_s += dt_s;
    sums.weighted_Jm2 += 0.5 * dt_s * (shape(a) * a.extra_Wm2 + shape(b) * b.extra_Wm2);
    sums.greatest_shape = std::max({sums.greatest_shape, shape(a), shape(b)});
    sums.least_extra_Wm2 = std::min({sums.least_extra_Wm2, a.extra_Wm2, b.extra_Wm2});
  }
  return sums;
}

// Chooses the scale, or constant light if scale * most_shape would exceed the extraterrestrial
// irradiance.
Spread choose_spread(const LitSums& sums, double energy_Jm2, double most_shape) {
  Spread spread;
  if (energy_Jm2 <= 0.0) return spread;
  if (sums.lit_s <= 0.0) {
    spread.unplaced_Jm2 = energy_Jm2;
    return spread;
  }
  if (sums.weighted_Jm2 > 0.0) {
    spread.scale = energy_Jm2 / sums.weighted_Jm2;
    if (spread.scale * most_shape <= 1.0) return spread;
  }
  spread.scale = 0.0;
  spread.flat_Wm2 = energy_Jm2 / sums.lit_s;
  if (spread.flat_Wm2 > sums.least_extra_Wm2) {
    spread.flat_Wm2 = sums.least_extra_Wm2;
    spread.unplaced_Jm2 = energy_Jm2 - spread.flat_Wm2 * sums.lit_s;
  }
  return spread;
}
}  // namespace

void spread_hour(const HourInput& input, HourLight& light) {
  light.points.clear();
  light.segments.clear();
  divide_hour(input, light);
  const auto beam_shape = [](const HourPoint& p) { return p.beam_shape; };
  const auto diffuse_shape = [](const HourPoint& p) { return p.diffuse_shape; };
  const double length_s = input.hour.length_s;

  const LitSums beam_sums = lit_sums(light, beam_shape);
  const Spread beam =
      choose_spread(beam_sums, input.hour.dni_Wm2 * length_s, beam_sums.greatest_shape);
  // The diffuse profile is that of the extraterrestrial horizontal irradiance, which a scale above
  // 1 exceeds at every point; hence 1.0.
  const Spread diffuse =
      choose_spread(lit_sums(light, diffuse_shape), input.hour.dhi_Wm2 * length_s, 1.0);
  light.unplaced_beam_Jm2 = beam.unplaced_Jm2;
  light.unplaced_diffuse_Jm2 = diffuse.unplaced_Jm2;

  const auto value_Wm2 = [](const Spread& spread, double shape, double extra_Wm2) {
    return spread.scale * shape * extra_Wm2 + spread.flat_Wm2;
  };
  for (std::size_t i = 0; i < light.segments.size(); ++i) {
    HourSegment& segment = light.segments[i];
    if (!segment.lit) continue;
    const HourPoint& a = light.points[i];
    const HourPoint& b = light.points[i + 1];
    segment.start_dni_Wm2 = value_Wm2(beam, a.beam_shape, a.extra_Wm2);
    segment.end_dni_Wm2 = value_Wm2(beam, b.beam_shape, b.extra_Wm2);
    segment.start_dhi_Wm2 = value_Wm2(diffuse, a.diffuse_shape, a.extra_Wm2);
    segment.end_dhi_Wm2 = value_Wm2(diffuse, b.diffuse_shape, b.extra_Wm2);
  }
}
}  // namespace ovendays::sky
