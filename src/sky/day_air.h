// SPDX-License-Identifier: MIT
// Dry bulb, wind and sky temperature at any instant of one day. Private to sky.
#pragma once

#include <array>
#include <vector>

#include "day_frame.h"
#include "ovendays/sky/sky_year.h"

namespace ovendays::sky {

/// Interpolates the air of one day between the records of the weather year.
class DayAir {
 public:
  /// @param year must outlive this object
  /// @param day 0..364
  /// @param frame of that day; must outlive this object
  DayAir(const weather::WeatherYear& year,
         long day,
         const DayFrame& frame,
         const SkyOptions& options);
  /// Fills dry_bulb_K, sky_K and wind_ms. @param t_s seconds of the day, 0..86400
  void fill(double t_s, SkyState& state) const;

 private:
  struct CloudPoint {
    double t_s;
    double fraction;
  };
  // A record with the instant of its air values, in seconds of the day.
  struct AirHour {
    double met_s;
    const weather::WeatherHour* record;
  };
  // The records hours_[hour] and hours_[hour + 1] around an instant, and the weight of the latter.
  struct Interpolation {
    std::size_t hour;
    double share;
  };
  [[nodiscard]] Interpolation interpolation_at(double t_s) const;
  [[nodiscard]] double cloud_at(double t_s) const;
  // False if the hour has no light or its sun is too low to estimate cloud.
  bool add_cloud_point(long hour, const SkyOptions& options);
  void find_cloud(const SkyOptions& options);

  const weather::WeatherYear& year_;
  long day_;
  const DayFrame& frame_;
  // The records from a few hours before the day to a few hours after it, because the instants of
  // the first and last ones may lie inside the day.
  static constexpr long kFirstHour = -4;
  static constexpr long kHours = 32;
  std::array<AirHour, kHours> hours_{};
  double shift_s_;
  std::vector<CloudPoint> cloud_;  // in order of time; empty in the polar night
};
}  // namespace ovendays::sky
