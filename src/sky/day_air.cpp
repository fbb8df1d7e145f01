// SPDX-License-Identifier: MIT
#include "day_air.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"
#include "ovendays/sky/sky_model.h"

namespace ovendays::sky {
namespace {
constexpr double kHour_s = base::kSecondsPerHour;
// With a lower sun, global irradiance is a poor indicator of cloud.
constexpr double kCloudCosZenith = 0.0871557427476582;  // cos 85 deg
// Cloud fraction assumed if the sun is not high enough on the day and its neighbours (polar night).
constexpr double kUnknownCloud = 0.5;
}  // namespace

DayAir::DayAir(const weather::WeatherYear& year,
               long day,
               const DayFrame& frame,
               const SkyOptions& options)
    : year_(year), day_(day), frame_(frame), shift_s_(interval_shift_s(year)) {
  bool infrared_given = true;
  for (long hour = kFirstHour; hour < kFirstHour + kHours; ++hour) {
    const weather::WeatherHour& record = wrapped_hour(year, 24 * day + hour);
    hours_[static_cast<std::size_t>(hour - kFirstHour)] = {
        kHour_s * static_cast<double>(hour) + shift_s_ + record.met_s, &record};
    const bool may_be_used = hour >= -2 && hour < 26;
    infrared_given = infrared_given && (!may_be_used || record.horizontal_ir_Wm2.has_value());
  }
  if (!infrared_given) find_cloud(options);
}

// Collects cloud from the last usable hour before this day to the first one after it, so that every
// night is interpolated between its dusk and its dawn. Searches one day on either side.
void DayAir::find_cloud(const SkyOptions& options) {
  const long first = 24 * day_;
  for (long hour = first - 1; hour >= first - 24; --hour) {
    if (add_cloud_point(hour, options)) break;
  }
  for (long hour = first; hour < first + 24; ++hour) add_cloud_point(hour, options);
  for (long hour = first + 24; hour < first + 48; ++hour) {
    if (add_cloud_point(hour, options)) break;
  }
}

bool DayAir::add_cloud_point(long hour, const SkyOptions& options) {
  const weather::WeatherHour& record = wrapped_hour(year_, hour);
  if (record.ghi_Wm2 <= 0.0) return false;
  const double t_s =
      kHour_s * static_cast<double>(hour - 24 * day_) + shift_s_ + 0.5 * record.length_s;
  const sun::SunDirection sun = frame_.sun_at(t_s, year_.place);
  const double cos_z = std::cos(sun.zenith_rad);
  if (cos_z < kCloudCosZenith) return false;
  const ClearSky clear = clear_sky({sun.zenith_rad,
                                    sun::extraterrestrial_normal_Wm2(sun.distance_au),
                                    year_.place.elevation_m,
                                    frame_.air.pressure_Pa,
                                    options.linke_turbidity});
  const double clear_global_Wm2 = clear.dni_Wm2 * cos_z + clear.dhi_Wm2;
  cloud_.push_back({t_s, cloud_fraction(record.ghi_Wm2 / clear_global_Wm2)});
  return true;
}

double DayAir::cloud_at(double t_s) const {
  if (cloud_.empty()) return kUnknownCloud;
  const auto next = std::find_if(
      cloud_.begin(), cloud_.end(), [t_s](const CloudPoint& point) { return point.t_s >= t_s; });
  if (next == cloud_.begin()) return next->fraction;
  if (next == cloud_.end()) return cloud_.back().fraction;
  const CloudPoint& previous = *(next - 1);
  const double share = (t_s - previous.t_s) / (next->t_s - previous.t_s);
  return previous.fraction + share * (next->fraction - previous.fraction);
}

DayAir::Interpolation DayAir::interpolation_at(double t_s) const {
  const double passed = std::floor((t_s - shift_s_) / kHour_s);
  auto hour = static_cast<std::size_t>(static_cast<long>(passed) - kFirstHour);
  while (hour > 0 && hours_[hour].met_s > t_s) --hour;
  while (hour + 2 < hours_.size() && hours_[hour + 1].met_s <= t_s) ++hour;
  const double from_s = hours_[hour].met_s;
  return {hour, (t_s - from_s) / (hours_[hour + 1].met_s - from_s)};
}

void DayAir::fill(double t_s, SkyState& state) const {
  const Interpolation place = interpolation_at(t_s);
  const weather::WeatherHour& a = *hours_[place.hour].record;
  const weather::WeatherHour& b = *hours_[place.hour + 1].record;
  const auto mix = [&place](double x, double y) { return x + place.share * (y - x); };
  state.dry_bulb_K = mix(a.dry_bulb_K, b.dry_bulb_K);
  state.wind_ms = mix(a.wind_ms, b.wind_ms);

  SkyInfraredInput input{};
  input.dry_bulb_K = state.dry_bulb_K;
  input.dew_point_K = mix(a.dew_point_K, b.dew_point_K);
  const double solar_h = 12.0 + (t_s - frame_.light.transit_s) / kHour_s;
  input.hour_of_day = solar_h - 24.0 * std::floor(solar_h / 24.0);
  input.pressure_Pa = frame_.air.pressure_Pa;
  input.horizontal_ir_Wm2 = -1.0;
  if (a.horizontal_ir_Wm2 && b.horizontal_ir_Wm2) {
    input.horizontal_ir_Wm2 = mix(*a.horizontal_ir_Wm2, *b.horizontal_ir_Wm2);
  } else {
    input.cloud_fraction = cloud_at(t_s);
  }
  state.sky_K = sky_temperature_K(input);
}
}  // namespace ovendays::sky
