// SPDX-License-Identifier: MIT
#include "hour_light.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"
#include "ovendays/sky/sky_model.h"

namespace ovendays::sky {
namespace {
constexpr double kShortestLit_s = 60.0;  // a stretch of light below this cannot carry energy
constexpr double kSnap_s = 1.0;          // sunrise this close to an interval's end falls on it

// The stretches of light inside [from, to].
std::vector<Stretch> lit_inside(const DayFrame& frame, double from_s, double to_s) {
  std::vector<Stretch> inside;
  for (const Stretch& lit : frame.lit) {
    Stretch part{std::max(lit.from_s, from_s), std::min(lit.to_s, to_s)};
    if (part.from_s < from_s + kSnap_s) part.from_s = from_s;
    if (part.to_s > to_s - kSnap_s) part.to_s = to_s;
    if (part.to_s - part.from_s >= kShortestLit_s) inside.push_back(part);
  }
  return inside;
}

// Cuts that must be: interval ends, midnights, sunrises and sunsets.
std::vector<double> needed_cuts(double from_s, double to_s, const std::vector<Stretch>& lit) {
  std::vector<double> cuts = {from_s, to_s};
  for (const Stretch& part : lit) cuts.insert(cuts.end(), {part.from_s, part.to_s});
  for (double midnight_s : {0.0, base::kSecondsPerDay}) {
    if (midnight_s > from_s && midnight_s < to_s) cuts.push_back(midnight_s);
  }
  std::sort(cuts.begin(), cuts.end());
  cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
  return cuts;
}

// Appends the grid's points strictly between two cuts; those that would leave a sliver are skipped.
void append_grid(std::vector<double>& times, double from_s, double to_s, double step_s) {
  const double margin_s = std::min(60.0, 0.25 * step_s);
  for (double n = std::floor(from_s / step_s); n * step_s < to_s - margin_s; n += 1.0) {
    if (n * step_s > from_s + margin_s) times.push_back(n * step_s);
  }
}

HourPoint make_point(const HourQuestion& q, double t_s) {
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

bool contains(const std::vector<Stretch>& lit, double t_s) {
  return std::any_of(lit.begin(), lit.end(), [t_s](const Stretch& part) {
    return t_s > part.from_s && t_s < part.to_s;
  });
}

void cut_hour(const HourQuestion& q, HourLight& light) {
  const double end_s = q.start_s + q.hour.length_s;
  const std::vector<Stretch> lit = lit_inside(q.frame, q.start_s, end_s);
  const std::vector<double> needed = needed_cuts(q.start_s, end_s, lit);
  std::vector<double> times = {needed.front()};
  for (std::size_t i = 0; i + 1 < needed.size(); ++i) {
    const bool is_lit = contains(lit, 0.5 * (needed[i] + needed[i + 1]));
    if (is_lit) append_grid(times, needed[i], needed[i + 1], q.step_s);
    times.push_back(needed[i + 1]);
    HourPiece piece;
    piece.lit = is_lit;
    light.pieces.resize(times.size() - 1, piece);
  }
  for (double t_s : times) light.points.push_back(make_point(q, t_s));
}

// How to turn a shape into light: value = scale x weight, or `flat` everywhere.
struct Spread {
  double scale = 0.0;
  double flat_Wm2 = 0.0;
  double unplaced_Jm2 = 0.0;
};

struct LitSums {
  double lit_s = 0.0;
  double weighted_Jm2 = 0.0;    // trapezoid of shape x extraterrestrial
  double greatest_shape = 0.0;  // 1 is the extraterrestrial light
  double least_extra_Wm2 = 1e9;
};

template <typename Shape>
LitSums lit_sums(const HourLight& light, Shape shape) {
  LitSums sums;
  for (std::size_t i = 0; i < light.pieces.size(); ++i) {
    if (!light.pieces[i].lit) continue;
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

// @param most_shape the shape's value that stands for the extraterrestrial light
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

void spread_hour(const HourQuestion& question, HourLight& light) {
  light.points.clear();
  light.pieces.clear();
  cut_hour(question, light);
  const auto beam_shape = [](const HourPoint& p) { return p.beam_shape; };
  const auto diffuse_shape = [](const HourPoint& p) { return p.diffuse_shape; };
  const double length_s = question.hour.length_s;

  const LitSums beam_sums = lit_sums(light, beam_shape);
  const Spread beam =
      choose_spread(beam_sums, question.hour.dni_Wm2 * length_s, beam_sums.greatest_shape);
  // The diffuse shape IS the extraterrestrial light on the horizontal: a scale above 1 passes it.
  const Spread diffuse =
      choose_spread(lit_sums(light, diffuse_shape), question.hour.dhi_Wm2 * length_s, 1.0);
  light.unplaced_beam_Jm2 = beam.unplaced_Jm2;
  light.unplaced_diffuse_Jm2 = diffuse.unplaced_Jm2;

  const auto value_Wm2 = [](const Spread& spread, double shape, double extra_Wm2) {
    return spread.scale * shape * extra_Wm2 + spread.flat_Wm2;
  };
  for (std::size_t i = 0; i < light.pieces.size(); ++i) {
    HourPiece& piece = light.pieces[i];
    if (!piece.lit) continue;
    const HourPoint& a = light.points[i];
    const HourPoint& b = light.points[i + 1];
    piece.start_dni_Wm2 = value_Wm2(beam, a.beam_shape, a.extra_Wm2);
    piece.end_dni_Wm2 = value_Wm2(beam, b.beam_shape, b.extra_Wm2);
    piece.start_dhi_Wm2 = value_Wm2(diffuse, a.diffuse_shape, a.extra_Wm2);
    piece.end_dhi_Wm2 = value_Wm2(diffuse, b.diffuse_shape, b.extra_Wm2);
  }
}
}  // namespace ovendays::sky
