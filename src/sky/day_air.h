// SPDX-License-Identifier: MIT
// Dry bulb, wind and sky temperature at any instant of one day.
#pragma once

#include <array>
#include <vector>

#include "day_frame.h"
#include "ovendays/sky/sky_year.h"

namespace ovendays::sky {

class DayAir {
 public:
  /// @param day 0..364 @param frame of that day
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
  // A record with the instant its air refers to, in seconds of the day.
  struct AirHour {
    double met_s;
    const weather::WeatherHour* record;
  };
  // Records a and a + 1 of hours_ around an instant, and the share of the latter.
  struct Between {
    std::size_t hour;
    double share;
  };
  [[nodiscard]] Between between(double t_s) const;
  [[nodiscard]] double cloud_at(double t_s) const;
  bool add_cloud_point(long hour, const SkyOptions& options);
  void find_cloud(const SkyOptions& options);

  const weather::WeatherYear& year_;
  long day_;
  const DayFrame& frame_;
  // From a few hours before the day to a few after it: intervals start up to half an hour off the
  // full hour.
  static constexpr long kFirstHour = -4;
  static constexpr long kHours = 32;
  std::array<AirHour, kHours> hours_{};
  double shift_s_;
  std::vector<CloudPoint> cloud_;  // in order of time; empty in the polar night
};
}  // namespace ovendays::sky
