// SPDX-License-Identifier: MIT
#include "hourly_trace.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"

namespace ovendays::season {
namespace {

/// WMO-No. 8: sunshine is direct irradiance above 120 W/m2.
constexpr double kSunshine_Wm2 = 120.0;

float narrow(double x) { return static_cast<float>(x); }

/// Integrals over an hour. The light is linear within a segment, so the trapezoid rule is exact for
/// any part of one.
struct HourSums {
  double span_s = 0, beam_J = 0, open_J = 0, diffuse_J = 0, visible_weighted = 0, beam_weight = 0;
  std::array<double, oven::kSurfaces> absorbed_J{};
};

/// @param first index of the first segment that reaches into the hour
HourSums sum_hour(const FineDay& day, std::size_t first, double from_s, double to_s) {
  HourSums sums;
  for (std::size_t i = first; i < day.segments.air.size() && day.segments.air[i].start_s < to_s;
       ++i) {
    const double a = std::max(from_s, day.segments.air[i].start_s);
    const double b = std::min(to_s, day.segments.air[i].end_s);
    if (b <= a) continue;
    const double span_s = day.segments.air[i].end_s - day.segments.air[i].start_s;
    const double middle = (0.5 * (a + b) - day.segments.air[i].start_s) / span_s;
    const auto part = [&](double x0, double x1) { return (b - a) * (x0 + (x1 - x0) * middle); };
    const LightSegment& l = day.light[i];
    sums.span_s += b - a;
    sums.beam_J += part(l.beam_mouth_Wm2[0], l.beam_mouth_Wm2[1]);
    sums.open_J += part(l.open_beam_mouth_Wm2[0], l.open_beam_mouth_Wm2[1]);
    sums.diffuse_J += part(l.diffuse_mouth_Wm2[0], l.diffuse_mouth_Wm2[1]);
    const double weight = part(l.dni_Wm2[0], l.dni_Wm2[1]);
    sums.visible_weighted += weight * 0.5 * (l.visible[0] + l.visible[1]);
    sums.beam_weight += weight;
    const heat::GainSegment& gain = day.segments.gains[0][i];
    for (std::size_t s = 0; s < oven::kSurfaces; ++s)
      sums.absorbed_J[s] += part(gain.start_W[s], gain.end_W[s]);
  }
  return sums;
}

/// The first segment from `from` on that ends after a time; the last one if none does.
std::size_t segment_after(const FineDay& day, std::size_t from, double time_s) {
  while (from + 1 < day.segments.air.size() && day.segments.air[from].end_s <= time_s) ++from;
  return from;
}

/// @param first index of the first segment that reaches into the hour
void fill_hour_light(const FineDay& day,
                     std::span<const task::Aim> aims,
                     const sky::SkyDay& sky,
                     int hour,
                     std::size_t first,
                     HourTrace& out) {
  const double from_s = hour * base::kSecondsPerHour;
  const double middle_s = from_s + 0.5 * base::kSecondsPerHour;
  const HourSums sums = sum_hour(day, first, from_s, from_s + base::kSecondsPerHour);
  const std::size_t segment = segment_after(day, first, middle_s);
  const heat::AirSegment& air = day.segments.air[segment];
  const double share = (middle_s - air.start_s) / (air.end_s - air.start_s);
  const base::Direction sun = sky::sun_at(sky, middle_s);
  out.sun_zenith_rad = narrow(std::acos(std::clamp(sun.z, -1.0, 1.0)));
  out.sun_azimuth_rad = narrow(base::azimuth_of(sun));
  const LightSegment& light = day.light[segment];
  // Weighted by the beam, the share times the open beam gives the beam at the mouth.
  out.visible_share = narrow(
      sums.beam_weight > 0.0 ? sums.visible_weighted / sums.beam_weight
                             : light.visible[0] + (light.visible[1] - light.visible[0]) * share);
  out.beam_mouth_Wm2 = narrow(sums.beam_J / sums.span_s);
  out.open_beam_mouth_Wm2 = narrow(sums.open_J / sums.span_s);
  out.diffuse_mouth_Wm2 = narrow(sums.diffuse_J / sums.span_s);
  for (std::size_t s = 0; s < oven::kSurfaces; ++s)
    out.absorbed_W[s] = narrow(sums.absorbed_J[s] / sums.span_s);
  const task::Aim& aim = task::aim_at(aims, middle_s);
  out.aim_azimuth_rad = narrow(aim.azimuth_rad);
  out.aim_tilt_rad = narrow(aim.glazing_tilt_rad);
  out.ambient_K = narrow(air.start.ambient_K + (air.end.ambient_K - air.start.ambient_K) * share);
  out.wind_ms = narrow(air.start.wind_ms + (air.end.wind_ms - air.start.wind_ms) * share);
}
}  // namespace

void trace_light(const FineDay& day,
                 std::span<const task::Aim> aims,
                 const sky::SkyDay& sky,
                 std::span<HourTrace> hours,
                 DaySummary& summary) {
  std::size_t first = 0;
  for (int hour = 0; hour < 24; ++hour) {
    first = segment_after(day, first, hour * base::kSecondsPerHour);
    fill_hour_light(day, aims, sky, hour, first, hours[static_cast<std::size_t>(hour)]);
  }
  double open_s = 0.0;
  double here_s = 0.0;
  for (std::size_t i = 0; i < day.segments.air.size(); ++i) {
    const LightSegment& l = day.light[i];
    if (0.5 * (l.dni_Wm2[0] + l.dni_Wm2[1]) <= kSunshine_Wm2) continue;
    const double span_s = day.segments.air[i].end_s - day.segments.air[i].start_s;
    open_s += span_s;
    here_s += span_s * 0.5 * (l.visible[0] + l.visible[1]);
  }
  summary.sunrise_s = narrow(sky.light.up ? sky.light.sunrise_s : 0.0);
  summary.sunset_s = narrow(sky.light.up ? sky.light.sunset_s : 0.0);
  summary.beam_hours_open_s = narrow(open_s);
  summary.beam_hours_here_s = narrow(here_s);
}

void trace_oven(const EmptyDay& empty,
                bool with_tray,
                std::span<HourTrace> hours,
                DaySummary& summary) {
  for (std::size_t hour = 0; hour < 24; ++hour) {
    const heat::State& state = empty.hour_end[hour];
    HourTrace& out = hours[hour];
    out.air_K = narrow(state[heat::kNodeAir]);
    out.liner_K = narrow(state[heat::kNodeLiner]);
    // A box without a tray has the liner in its place.
    out.tray_K = narrow(state[with_tray ? heat::kNodeTray : heat::kNodeLiner]);
    out.pane_K = narrow(state[heat::kNodePane]);
  }
  summary.peak_air_K = narrow(empty.peak_air_K);
  summary.audit_residual_J = narrow(empty.run.audit.residual_J());
  summary.audit_in_J = narrow(empty.run.audit.in_J);
}
}  // namespace ovendays::season
