// SPDX-License-Identifier: MIT
#include <cmath>

#include "day_summary.h"
#include "ovendays/base/calendar.h"
#include "ovendays/base/constants.h"

namespace ovendays::report {

std::string day_csv(const season::DayTrace& trace, const ReportOptions& options) {
  const std::string unit = options.unit == TemperatureUnit::kCelsius ? "_degC" : "_degF";
  std::string text =
      "time,sun_elevation_deg,sun_azimuth_deg,visible_share,beam_mouth_Wm2,open_beam_mouth_Wm2,"
      "diffuse_mouth_Wm2,aim_azimuth_deg,glazing_tilt_deg,wind_ms";
  for (const char* name : {"ambient", "empty_oven_air", "oven_air", "liner", "vessel", "core"})
    text += std::string(",") + name + unit;
  text += "\n";
  for (const season::MinuteTrace& m : trace.minutes) {
    const auto add = [&text](double value, int decimals) {
      text += std::isnan(value) ? std::string(",") : "," + fixed(value, decimals);
    };
    text += base::clock_text(m.time_s);
    add(90.0 - m.sun_zenith_rad * base::kDegPerRad, 3);
    add(m.sun_azimuth_rad * base::kDegPerRad, 3);
    add(m.visible_share, 3);
    for (const double light_Wm2 : {m.beam_mouth_Wm2, m.open_beam_mouth_Wm2, m.diffuse_mouth_Wm2})
      add(light_Wm2, 1);
    const task::Aim& aim = task::aim_at(trace.aims, m.time_s);
    add(aim.azimuth_rad * base::kDegPerRad, 1);
    add(aim.glazing_tilt_rad * base::kDegPerRad, 1);
    add(m.wind_ms, 2);
    for (const double temperature_K :
         {m.ambient_K, m.empty_air_K, m.air_K, m.liner_K, m.vessel_K, m.core_K})
      add(degrees(temperature_K, options.unit), 2);
    text += "\n";
  }
  return text;
}
}  // namespace ovendays::report
