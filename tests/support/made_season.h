// SPDX-License-Identifier: MIT
// A season made by hand, without a run: smooth invented numbers with every outcome, every cause and
// every sentinel in them, for tests of the file and of the reports. No claim about any oven.
#pragma once

#include <cmath>
#include <string>

#include "ovendays/base/calendar.h"
#include "ovendays/base/constants.h"
#include "ovendays/season/case.h"
#include "ovendays/season/season.h"

namespace ovendays::test {

struct MadeSeason {
  season::Case c;
  weather::WeatherYear year;
  season::SeasonResult result;
};

namespace made {
inline float single(double value) { return static_cast<float>(value); }

inline weather::WeatherYear weather_year() {
  weather::WeatherYear year;
  year.file = "made.epw";
  year.sha256 = std::string(64, 'a');
  year.place = {.name = "Madeville, nowhere",
                .latitude_rad = 39.25 * base::kRadPerDeg,
                .longitude_rad = -104.75 * base::kRadPerDeg,
                .elevation_m = 1602.0,
                .utc_offset_s = -7.0 * 3600.0};
  year.hours_in_file = 8760;
  year.filled_hours = 1;
  year.notes = {{12, "one hour filled"}, {0, "no rain given"}};
  for (int h = 0; h < 8760; ++h) {
    weather::WeatherHour hour;
    hour.date = base::date_from_day_index_365(h / 24, h < 4000 ? 2003 : 1998);
    hour.start_s = (h % 24) * 3600.0;
    const double sun = std::max(0.0, std::sin((h % 24 - 6) / 12.0 * base::kPi));
    hour.dni_Wm2 = std::round(800.0 * sun);
    hour.dhi_Wm2 = std::round(90.0 * sun);
    hour.ghi_Wm2 = std::round(700.0 * sun * sun + 90.0 * sun);
    hour.dry_bulb_K = 285.0 + std::round(100.0 * sun) / 10.0;
    if (h % 3 == 0) hour.precipitation_m = 0.001;
    if (h < 24) hour.albedo = 0.25;
    hour.line = h + 9;
    hour.filled = h == 77;
    year.hours.push_back(hour);
  }
  return year;
}

inline season::Case case_of() {
  season::Case c;
  c.file = "made.toml";
  c.text = "# made by hand\n[site]\nname = \"Madeville \xC3\xA9\"\n";
  c.sha256 = std::string(64, 'b');
  // A pot that slides in the second notch.
  c.oven.vessels = {{.name = "black pot"}};
  c.oven.aim.notch_tilt_rad = {0.0, 40.0 * base::kRadPerDeg};
  const char* names[] = {"Rice", "Beans, soaked", "Chicken pieces", "Bread", "Canned sun <&>"};
  for (const char* name : names) {
    task::Task t;
    t.name = name;
    t.vessel = "black pot";
    t.source = "invented";
    t.hold_s = 900.0;
    t.spoils = t.name == "Chicken pieces";
    c.tasks.push_back(t);
  }
  return c;
}

// A task succeeds where the season's height (0 in winter, 1 in summer) and a day's luck allow it.
inline season::DayTask day_task(int task, int day) {
  season::DayTask d;
  const double season = 0.5 - 0.5 * std::cos((day + 10) / 365.0 * base::kTwoPi);
  const double luck = std::fmod(day * 0.6180339887, 1.0);
  const double hard = 0.2 * task;
  if (task == 4) {  // never done, and each cause in turn
    d.outcome = day % 2 == 0 ? season::Outcome::kNoGo : season::Outcome::kShort;
    d.cause = static_cast<season::Cause>(1 + day % (season::kCauses - 1));
  } else if (0.6 * season + 0.7 * luck > 0.3 + hard) {
    d.outcome = season::Outcome::kCooked;
    d.load_s = single(9.5 * 3600 + 1800 * (task % 3));
    d.finish_s = single(9.5 * 3600 + 1800 * (task % 3) + 5400 + 1800 * task + 600 * luck);
    d.margin_s = 66600.0F - d.finish_s;
    d.window_first_s = 9.0F * 3600;
    d.window_last_s = single(12.0 * 3600 + std::floor(season * 4) * 1800);
    d.window_count = 7;
  } else {
    d.outcome = task == 2 && luck > 0.4 ? season::Outcome::kUnsafe : season::Outcome::kShort;
    d.cause = luck < 0.5 ? season::Cause::kCloud : season::Cause::kSeason;
    d.load_s = 10.0F * 3600;
  }
  d.peak_core_K = single(330.0 + 40.0 * season);
  d.shortfall_K = std::max(0.0F, 355.15F - d.peak_core_K);
  d.hold_share = single(luck);
  d.danger_s = single(3600 * luck);
  d.evaporated_kg = single(0.01 * luck);
  return d;
}

inline void fill_hours(season::SeasonResult& r) {
  for (int h = 0; h < 8760; ++h) {
    season::HourTrace t;
    const double sun = std::max(0.0, std::sin((h % 24 - 6) / 12.0 * base::kPi));
    t.sun_zenith_rad = single(1.5 - sun);
    t.sun_azimuth_rad = single((h % 24) / 24.0 * base::kTwoPi);
    t.visible_share = single(sun);
    t.beam_mouth_Wm2 = single(700 * sun * (1.0 + 0.1 * std::sin(h)));
    t.diffuse_mouth_Wm2 = single(80 * sun);
    t.open_beam_mouth_Wm2 = single(800 * sun);
    t.aim_azimuth_rad = 3.1F;
    t.aim_tilt_rad = 0.5F;
    for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
      t.absorbed_W[s] = single(10.0 * static_cast<double>(s) * sun);
    }
    t.air_K = single(290 + 110 * sun);
    t.liner_K = t.air_K + 2;
    t.tray_K = t.air_K + 5;
    t.pane_K = t.air_K - 40;
    t.ambient_K = 290;
    t.wind_ms = 1.5F;
    r.hours.push_back(t);
  }
}

inline spot::SpotMask mask(double visible) {
  spot::SpotMask m;
  m.sky = sky::sky_patches(8);
  m.ground = sky::ground_patches(4);
  m.sky_visible.assign(m.sky.size(), visible);
  m.sky_blocked.assign(m.sky.size(), {0.1, 0.2, 0.0, 0.0, 0.05});
  m.ground_visible.assign(m.ground.size(), 1.0 / 3.0);
  m.ground_blocked.assign(m.ground.size(), {});
  m.horizon = sky::horizon_directions(36);
  m.horizon_visible.assign(m.horizon.size(), visible / 2);
  m.sky_view_factor = visible;
  return m;
}
}  // namespace made

/// @param masks with the sky masks
inline MadeSeason made_season(bool masks = true) {
  MadeSeason m{made::case_of(), made::weather_year(), {}};
  season::SeasonResult& r = m.result;
  r.site_name = "Madeville, nowhere";
  r.spot_name = "carport";
  r.oven_name = "18 in box, four flaps";
  r.place = m.year.place;
  r.boiling_K = 367.9;
  r.memory_K = 0.02;
  r.load_names = {"empty", "black pot"};
  r.notes = {"the weather has no rain: no day is lost to it"};
  r.audit = {.worst_share = 3e-4,
             .in_J = 5.5e9,
             .out_J = 5.4e9,
             .stored_J = 9.9e7,
             .residual_J = 1.5e5,
             .runs = 31234,
             .steps = 5000001,
             .rejected = 4321};
  for (std::size_t t = 0; t < m.c.tasks.size(); ++t) {
    r.task_names.push_back(m.c.tasks[t].name);
    r.task_target_K.push_back(m.c.tasks[t].target_K);
    for (int day = 0; day < season::kDays; ++day) {
      r.days.push_back(made::day_task(static_cast<int>(t), day));
    }
  }
  made::fill_hours(r);
  for (season::DaySummary& day : r.day) {
    day = {.sunrise_s = 6.0F * 3600,
           .sunset_s = 18.0F * 3600,
           .beam_hours_open_s = 30000,
           .beam_hours_here_s = 20000,
           .peak_air_K = 400.0F,
           .audit_residual_J = 12.5F,
           .audit_in_J = 7e6F};
  }
  if (masks) {
    r.mask_january = made::mask(0.75);
    r.mask_july = made::mask(0.5);
  }
  return m;
}
}  // namespace ovendays::test
