// SPDX-License-Identifier: MIT
#include "ovendays/sky/sky_year.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "day_air.h"
#include "day_frame.h"
#include "hour_light.h"
#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"

namespace ovendays::sky {
namespace {
using base::kSecondsPerDay;
using base::kSecondsPerHour;

double albedo_of(const weather::WeatherHour& hour, const SkyOptions& options) {
  constexpr double kSnowCounts_m = 0.01;
  const double by_month = options.albedo_by_month[hour.date.month - 1];
  if (by_month >= 0.0) return by_month;
  if (hour.albedo) return *hour.albedo;
  if (hour.snow_depth_m && *hour.snow_depth_m > kSnowCounts_m) return options.snow_albedo;
  return options.default_albedo;
}

void fill_day_means(const weather::WeatherYear& year, const SkyOptions& options, SkyDay& day) {
  day.albedo = day.dew_point_K = day.rain_m = 0.0;
  for (int h = 0; h < 24; ++h) {
    const weather::WeatherHour& hour = year.at(day.day_index, h);
    day.albedo += albedo_of(hour, options) / 24.0;
    day.dew_point_K += hour.dew_point_K / 24.0;
    day.rain_m += hour.precipitation_m.value_or(0.0);
  }
}

// Builds the states at the ends of the segments of a day.
class StateBuilder {
 public:
  StateBuilder(const DayAir& air, const ClearSite& clear) : air_(air), clear_(clear) {}

  // The sun and the air, without light.
  [[nodiscard]] SkyState dark_state(const HourPoint& point, double t_s) const {
    SkyState state;
    state.to_sun = point.sun.direction();
    state.zenith_rad = point.sun.zenith_rad;
    state.azimuth_rad = point.sun.azimuth_rad;
    air_.fill(t_s, state);
    return state;
  }

  void add_light(const HourPoint& point, double dni_Wm2, double dhi_Wm2, SkyState& state) const {
    state.dni_Wm2 = dni_Wm2;
    state.dhi_Wm2 = dhi_Wm2;
    state.ghi_Wm2 = dni_Wm2 * point.diffuse_shape + dhi_Wm2;  // the shape is cos z, 0 at least
    const PerezParts parts = perez_parts(point.height, dni_Wm2, dhi_Wm2, point.extra_Wm2);
    state.circumsolar_normal_Wm2 = parts.circumsolar_normal_Wm2;
    state.isotropic_horizontal_Wm2 = parts.isotropic_horizontal_Wm2;
    state.horizon_Wm2 = parts.horizon_Wm2;
  }

  void add_clear_light(const HourPoint& point, SkyState& state) const {
    const ClearSky clear = clear_.at(point.height, point.extra_Wm2);
    const PerezParts parts =
        perez_parts(point.height, clear.dni_Wm2, clear.dhi_Wm2, point.extra_Wm2);
    state.clear_dni_Wm2 = clear.dni_Wm2;
    state.clear_dhi_Wm2 = clear.dhi_Wm2;
    state.clear_circumsolar_normal_Wm2 = parts.circumsolar_normal_Wm2;
    state.clear_isotropic_horizontal_Wm2 = parts.isotropic_horizontal_Wm2;
    state.clear_horizon_Wm2 = parts.horizon_Wm2;
  }

 private:
  const DayAir& air_;
  const ClearSite& clear_;
};

// Appends the segments of an hour that are within the day.
// @param offset_s added to times of the hour's frame to get times of the day's
void append_segments(const HourLight& light,
                     double offset_s,
                     const StateBuilder& builder,
                     SkyDay& day) {
  for (std::size_t i = 0; i < light.segments.size(); ++i) {
    const HourPoint& a = light.points[i];
    const HourPoint& b = light.points[i + 1];
    const double start_s = a.t_s + offset_s;
    const double end_s = b.t_s + offset_s;
    if (start_s < 0.0 || end_s > kSecondsPerDay) continue;  // no segment crosses midnight
    const HourSegment& segment = light.segments[i];
    // Within an hour the light is continuous, so the last end state is also this start state.
    const bool joined = i > 0 && !day.segments.empty() && light.segments[i - 1].lit == segment.lit;
    if (!joined) {
      SkyState start = builder.dark_state(a, start_s);
      if (segment.lit) {
        builder.add_light(a, segment.start_dni_Wm2, segment.start_dhi_Wm2, start);
        builder.add_clear_light(a, start);
      }
      if (day.states.empty() || !(start == day.states.back())) day.states.push_back(start);
    }
    const std::size_t start_state = day.states.size() - 1;
    SkyState& end = day.states.emplace_back(builder.dark_state(b, end_s));
    if (segment.lit) {
      builder.add_light(b, segment.end_dni_Wm2, segment.end_dhi_Wm2, end);
      builder.add_clear_light(b, end);
    }
    day.segments.push_back({start_s, end_s, start_state});
  }
}

// Upper bound of the number of segments: one per hour, the grid while the sun may be up, and a few
// for midnight, sunrise and sunset.
std::size_t most_segments(const DayFrame& frame, double step_s) {
  double lit_s = 0.0;
  for (const LitInterval& lit : frame.lit) lit_s += lit.to_s - lit.from_s;
  return 32 + static_cast<std::size_t>(std::min(lit_s, kSecondsPerDay) / step_s);
}

// The light may be discontinuous at the start of an hour and at sunrise and sunset.
constexpr std::size_t kMostJumps = 28;

// Gives the frame of the day that an hour belongs to: this day or, for an interval that crosses
// midnight, a neighbouring one.
class Frames {
 public:
  Frames(const weather::WeatherYear& year, long day)
      : year_(year), day_(day), own_(make_day_frame(year, day)) {}
  [[nodiscard]] const DayFrame& own() const { return own_; }
  const DayFrame& of(long day) {
    if (day == day_) return own_;
    if (!other_ || other_day_ != day) other_ = make_day_frame(year_, day);
    other_day_ = day;
    return *other_;
  }

 private:
  const weather::WeatherYear& year_;
  long day_;
  DayFrame own_;
  std::optional<DayFrame> other_;
  long other_day_ = 0;
};

// Distributes the light of every interval that overlaps the day, in order.
void fill_segments(const weather::WeatherYear& year,
                   const SkyOptions& options,
                   Frames& frames,
                   SkyDay& day) {
  const DayAir air(year, day.day_index, frames.own(), options);
  const ClearSite clear({.zenith_rad = 0.0,
                         .dni_extra_Wm2 = 0.0,
                         .elevation_m = year.place.elevation_m,
                         .pressure_Pa = day.pressure_Pa,
                         .linke_turbidity = options.linke_turbidity});
  const StateBuilder builder(air, clear);
  HourLight light;
  const std::size_t most = most_segments(frames.own(), options.step_s);
  day.segments.reserve(most);
  day.states.reserve(most + kMostJumps);
  const double shift_s = interval_shift_s(year);
  const long before = std::lround(std::floor(-shift_s / kSecondsPerHour));
  std::optional<HourPoint> known;  // the sun at the end of the last interval
  for (long hour = 24L * day.day_index + before;; ++hour) {
    const long owner = hour >= 0 ? hour / 24 : (hour - 23) / 24;
    const double offset_s = kSecondsPerDay * static_cast<double>(owner - day.day_index);
    const double start_s = kSecondsPerHour * static_cast<double>(hour - 24 * owner) + shift_s;
    if (start_s + offset_s >= kSecondsPerDay) break;
    const weather::WeatherHour& record = wrapped_hour(year, hour);
    OVENDAYS_CHECK(std::abs(record.length_s - kSecondsPerHour) < 1e-6);
    OVENDAYS_CHECK(std::abs(std::remainder(record.start_s - start_s, kSecondsPerDay)) < 1e-3);
    spread_hour({frames.of(owner), year.place, record, start_s, options.step_s, known}, light);
    known = light.points.back();
    append_segments(light, offset_s, builder, day);
    if (start_s + offset_s < 0.0)
      continue;  // unplaced energy counts on the day the interval starts
    day.unplaced_beam_Jm2 += light.unplaced_beam_Jm2;
    day.unplaced_diffuse_Jm2 += light.unplaced_diffuse_Jm2;
  }
}
}  // namespace

SkyDay make_sky_day(const weather::WeatherYear& year, int day_index, const SkyOptions& options) {
  OVENDAYS_CHECK(day_index >= 0 && day_index < kDaysPerYear);
  OVENDAYS_CHECK(options.step_s >= 1.0 && std::fmod(kSecondsPerHour, options.step_s) == 0.0);
  Frames frames(year, day_index);
  SkyDay day;
  day.day_index = day_index;
  day.date = frames.own().date;
  day.light = frames.own().light;
  day.pressure_Pa = frames.own().air.pressure_Pa;
  fill_day_means(year, options, day);
  fill_segments(year, options, frames, day);
  return day;
}

std::vector<SkyDay> make_sky_year(const weather::WeatherYear& year, const SkyOptions& options) {
  std::vector<SkyDay> days;
  days.reserve(static_cast<std::size_t>(kDaysPerYear));
  for (int day = 0; day < kDaysPerYear; ++day) days.push_back(make_sky_day(year, day, options));
  return days;
}

base::Direction sun_at(const SkyDay& day, double time_s) {
  OVENDAYS_CHECK(!day.segments.empty());
  const auto later = [](double t, const SkySegment& s) { return t < s.end_s; };
  auto it = std::upper_bound(day.segments.begin(), day.segments.end(), time_s, later);
  if (it == day.segments.end()) --it;
  const double span_s = it->end_s - it->start_s;
  const double share = span_s > 0.0 ? std::clamp((time_s - it->start_s) / span_s, 0.0, 1.0) : 0.0;
  return base::normalized((1.0 - share) * day.start(*it).to_sun + share * day.end(*it).to_sun);
}
}  // namespace ovendays::sky
