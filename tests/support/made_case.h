// SPDX-License-Identifier: MIT
// Small cases and weather years made by hand for tests of the season: a sky that is known for every
// hour, and cases cut down so that a season takes a fraction of a second.
#pragma once

#include <cmath>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "ovendays/base/constants.h"
#include "ovendays/season/case.h"
#include "ovendays/season/season.h"
#include "ovendays/sun/sun.h"

namespace ovendays::test {

struct MadeWeather {
  double latitude_deg = 35.0;
  double turbidity = 2.0;  ///< Linke; the season's own clear sky has 3, which is dimmer
  double beam = 1.0;       ///< factor on the clear beam
  double diffuse = 1.0;    ///< factor on the clear diffuse light
  double wind_ms = 0.0;
  double mean_K = 288.15;  ///< of the year
  /// May change an hour: day 0..364 and hour 0..23.
  std::function<void(int day, int hour, weather::WeatherHour&)> change;
};

/// Mean clear light of the hour from 0 h + start_s, six instants.
inline void light_hour(const MadeWeather& made,
                       const sun::Place& place,
                       weather::WeatherHour& hour) {
  constexpr int kInstants = 6;
  for (int i = 0; i < kInstants; ++i) {
    const double at_s = hour.start_s + 3600.0 * (i + 0.5) / kInstants;
    const sun::SunPosition p =
        sun::sun_position(base::utc_from_local(hour.date, at_s, place.utc_offset_s), place);
    if (p.zenith_rad > 0.5 * base::kPi) continue;
    const sky::ClearSky clear = sky::clear_sky({p.zenith_rad,
                                                sun::extraterrestrial_normal_Wm2(p.distance_au),
                                                place.elevation_m,
                                                hour.pressure_Pa,
                                                made.turbidity});
    const double dni_Wm2 = made.beam * clear.dni_Wm2 / kInstants;
    const double dhi_Wm2 = made.diffuse * clear.dhi_Wm2 / kInstants;
    hour.dni_Wm2 += dni_Wm2;
    hour.dhi_Wm2 += dhi_Wm2;
    hour.ghi_Wm2 += dni_Wm2 * std::cos(p.zenith_rad) + dhi_Wm2;
  }
}

/// A year whose days are all alike but for the sun's height and the air's yearly wave (10 K).
inline weather::WeatherYear made_weather(const MadeWeather& made = {}) {
  weather::WeatherYear year;
  year.file = "made";
  year.place = {"made", made.latitude_deg * base::kRadPerDeg, 0.0, 300.0, 0.0};
  for (int h = 0; h < 8760; ++h) {
    weather::WeatherHour hour;
    hour.date = base::date_from_day_index_365(h / 24);
    hour.start_s = 3600.0 * (h % 24);
    hour.pressure_Pa = 97800.0;
    const int day = h / 24;
    const double summer = std::cos((day - 200) / 365.0 * base::kTwoPi);
    const double noon = std::cos((h - 24 * day - 14) / 24.0 * base::kTwoPi);
    const double side = made.latitude_deg < 0.0 ? -1.0 : 1.0;
    hour.dry_bulb_K = made.mean_K + side * 10.0 * summer + 5.0 * noon;
    hour.dew_point_K = hour.dry_bulb_K - 12.0;
    hour.wind_ms = made.wind_ms;
    hour.precipitation_m = 0.0;
    light_hour(made, year.place, hour);
    if (made.change) made.change(h / 24, h % 24, hour);
    year.hours.push_back(hour);
  }
  return year;
}

/// The starter case with the oven in the open, of its tasks those asked for (all where none is
/// named), never kept in by rain, loading times an hour apart.
inline season::Case small_case(const std::vector<std::string>& tasks) {
  const std::string folder = std::string(OVENDAYS_SOURCE_DIR) + "/weather/";
  season::Case c = season::read_case_text(season::starter_case(), folder + "starter.toml");
  c.spot = {};
  c.oven.as_built = oven::kAsDrawn;
  c.routine.load_every_s = 3600.0;
  c.routine.stay_in_rain_m = 10.0;
  c.routine.stay_in_wind_ms = 100.0;
  std::vector<task::Task> kept;
  for (const std::string& name : tasks) {
    for (const task::Task& t : c.tasks) {
      if (t.name.find(name) != std::string::npos) kept.push_back(t);
    }
  }
  if (!tasks.empty()) c.tasks = std::move(kept);
  return c;
}

/// Two threads and coarser optics than the program's default: for tests that compare two seasons.
inline season::SeasonOptions quick_options(bool causes = false) {
  season::SeasonOptions options;
  options.threads = 2;
  options.causes = causes;
  options.optics.rays = 128;
  options.optics.grid = 25;
  return options;
}

inline season::SeasonResult run(const season::Case& c,
                                const weather::WeatherYear& year,
                                bool causes = false) {
  return season::run_season(c, year, quick_options(causes));
}

/// Days of the year from..to-1.
struct Days {
  int from = 0;
  int to = season::kDays;
};

inline int cooked_days(const season::SeasonResult& r, std::size_t task, Days days = {}) {
  int count = 0;
  for (int d = days.from; d < days.to; ++d)
    count += r.at(task, d).outcome == season::Outcome::kCooked ? 1 : 0;
  return count;
}

inline int days_with(const season::SeasonResult& r, std::size_t task, season::Cause cause) {
  int count = 0;
  for (int d = 0; d < season::kDays; ++d) count += r.at(task, d).cause == cause ? 1 : 0;
  return count;
}
}  // namespace ovendays::test
