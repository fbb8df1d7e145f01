// SPDX-License-Identifier: MIT
#include "columns.h"

#include <array>
#include <bit>
#include <cstdint>

#include "ovendays/base/file.h"

namespace ovendays::results {
namespace {
using season::DaySummary;
using season::DayTask;
using season::HourTrace;
using weather::WeatherHour;

constexpr std::array<HourColumn, 14> kHour = {{
    {"sun_zenith_rad", "zenith angle of the sun, mid-hour", "rad", &HourTrace::sun_zenith_rad},
    {"sun_azimuth_rad",
     "azimuth of the sun clockwise from north, mid-hour",
     "rad",
     &HourTrace::sun_azimuth_rad},
    {"visible_share", "share of the beam that reaches the mouth", "1", &HourTrace::visible_share},
    {"beam_mouth_Wm2",
     "beam and circumsolar light on the glazing plane, hour mean",
     "W m-2",
     &HourTrace::beam_mouth_Wm2},
    {"diffuse_mouth_Wm2",
     "diffuse and reflected light on the glazing plane, hour mean",
     "W m-2",
     &HourTrace::diffuse_mouth_Wm2},
    {"open_beam_mouth_Wm2",
     "beam on the glazing plane had nothing stood in the way, hour mean",
     "W m-2",
     &HourTrace::open_beam_mouth_Wm2},
    {"aim_azimuth_rad", "azimuth the glazing faces, mid-hour", "rad", &HourTrace::aim_azimuth_rad},
    {"aim_tilt_rad", "tilt of the glazing from level, mid-hour", "rad", &HourTrace::aim_tilt_rad},
    {"oven_air_K", "air in the empty oven, end of hour", "K", &HourTrace::air_K},
    {"liner_K", "liner of the empty oven, end of hour", "K", &HourTrace::liner_K},
    {"tray_K", "tray of the empty oven, end of hour", "K", &HourTrace::tray_K},
    {"pane_K", "inner pane of the empty oven, end of hour", "K", &HourTrace::pane_K},
    {"ambient_K", "air at the oven, mid-hour", "K", &HourTrace::ambient_K},
    {"wind_oven_ms", "wind at the oven, mid-hour", "m s-1", &HourTrace::wind_ms},
}};

constexpr std::array<DayColumn, 7> kDay = {{
    {"sunrise_s", "sunrise, local standard time", "s", &DaySummary::sunrise_s},
    {"sunset_s", "sunset, local standard time", "s", &DaySummary::sunset_s},
    {"beam_open_s",
     "time with beam above 120 W m-2 on open ground",
     "s",
     &DaySummary::beam_hours_open_s},
    {"beam_here_s",
     "the same times the share of the beam that reaches the mouth",
     "s",
     &DaySummary::beam_hours_here_s},
    {"peak_air_K", "hottest air in the empty oven", "K", &DaySummary::peak_air_K},
    {"audit_residual_J",
     "energy in less out less stored, empty oven",
     "J",
     &DaySummary::audit_residual_J},
    {"audit_in_J", "energy taken in, empty oven", "J", &DaySummary::audit_in_J},
}};

constexpr std::array<TaskDayColumn, 10> kTaskDay = {{
    {"load_s", "time of loading of the cook told of", "s", &DayTask::load_s, true},
    {"finish_s", "time at which it is done", "s", &DayTask::finish_s, true},
    {"margin_s", "time left before the meal when it is done", "s", &DayTask::margin_s},
    {"peak_core_K", "hottest core of the food", "K", &DayTask::peak_core_K},
    {"shortfall_K", "target less hottest core, not below zero", "K", &DayTask::shortfall_K},
    {"hold_share", "share of the needed hold that was reached", "1", &DayTask::hold_share},
    {"danger_s", "time of the core in the danger zone", "s", &DayTask::danger_s},
    {"evaporated_kg", "water boiled or dried away", "kg", &DayTask::evaporated_kg},
    {"window_first_s", "earliest loading that works", "s", &DayTask::window_first_s, true},
    {"window_last_s", "latest loading that works", "s", &DayTask::window_last_s, true},
}};

constexpr std::array<WeatherColumn, 11> kWeather = {{
    {"interval_start_s", "start of the hour's interval", "s", &WeatherHour::start_s},
    {"interval_length_s", "length of the hour's interval", "s", &WeatherHour::length_s},
    {"sun_instant_s",
     "from interval start to the instant whose sun stands for it",
     "s",
     &WeatherHour::sun_s},
    {"air_instant_s",
     "from interval start to the instant of temperature, wind and pressure",
     "s",
     &WeatherHour::met_s},
    {"ghi_Wm2", "global horizontal irradiance, interval mean", "W m-2", &WeatherHour::ghi_Wm2},
    {"dni_Wm2", "direct normal irradiance, interval mean", "W m-2", &WeatherHour::dni_Wm2},
    {"dhi_Wm2", "diffuse horizontal irradiance, interval mean", "W m-2", &WeatherHour::dhi_Wm2},
    {"dry_bulb_K", "dry-bulb temperature", "K", &WeatherHour::dry_bulb_K},
    {"dew_point_K", "dew point", "K", &WeatherHour::dew_point_K},
    {"wind_10m_ms", "wind speed at 10 m", "m s-1", &WeatherHour::wind_ms},
    {"pressure_Pa", "air pressure at the site", "Pa", &WeatherHour::pressure_Pa},
}};

constexpr std::array<SparseColumn, 5> kSparse = {{
    {"gust_ms", "gust", "m s-1", &WeatherHour::gust_ms},
    {"horizontal_ir_Wm2",
     "infrared from the sky on level ground",
     "W m-2",
     &WeatherHour::horizontal_ir_Wm2},
    {"albedo", "share of light the ground reflects", "1", &WeatherHour::albedo},
    {"snow_depth_m", "depth of snow", "m", &WeatherHour::snow_depth_m},
    {"precipitation_m", "precipitation", "m", &WeatherHour::precipitation_m},
}};

constexpr std::array<TaskColumn, 14> kTask = {{
    {"task_food_kg", "mass of the food", "kg", &StoredTask::food_kg},
    {"task_start_K", "food and vessel when loaded", "K", &StoredTask::start_K},
    {"task_target_K", "target of the core, as used", "K", &StoredTask::used_target_K},
    {"task_asked_target_K", "target of the core, as asked", "K", &StoredTask::target_K},
    {"task_hold_s", "time to be spent at the target", "s", &StoredTask::hold_s},
    {"task_finish_by_s", "latest time to be done", "s", &StoredTask::finish_by_s},
    {"task_danger_limit_s",
     "longest time in the danger zone by the task's rule; 0 where none applies",
     "s",
     &StoredTask::rule_limit_s},
    {"range_draws", "seasons behind the ranges; 0: none was made", "1", &StoredTask::draws},
    {"days_p10", "days of the year, one draw in ten has fewer", "1", &StoredTask::low_days, true},
    {"days_p50", "days of the year, median of the draws", "1", &StoredTask::median_days, true},
    {"days_p90", "days of the year, one draw in ten has more", "1", &StoredTask::high_days, true},
    {"typical_load_s",
     "loading time of the durations of all draws",
     "s",
     &StoredTask::typical_load_s,
     true},
    {"duration_p50_s", "from loading to done, median", "s", &StoredTask::done_in_s, true},
    {"duration_p80_s",
     "from loading to done, one in five is slower",
     "s",
     &StoredTask::slow_s,
     true},
}};

constexpr std::array<TaskText, 5> kTaskText = {{
    {"task_vessel", "vessel", "", &StoredTask::vessel},
    {"task_source", "source of the target", "", &StoredTask::source},
    {"task_rule", "key of the food safety rule counted by; empty: none", "", &StoredTask::rule},
    {"task_rule_text", "the rule in words", "", &StoredTask::rule_text},
    {"task_notch_limit",
     "what keeps the vessel out of notches: fixed, clearance or settings; empty: nothing",
     "",
     &StoredTask::notch_limit},
}};

void add_bits(std::string& bytes, double value) {
  const auto bits = std::bit_cast<std::uint32_t>(static_cast<float>(value));
  std::array<char, 4> four{};
  for (unsigned i = 0; i < 4; ++i) four[i] = static_cast<char>((bits >> (8 * i)) & 0xFFU);
  bytes.append(four.data(), four.size());
}
}  // namespace

std::span<const HourColumn> hour_columns() { return kHour; }
std::span<const DayColumn> day_columns() { return kDay; }
std::span<const TaskDayColumn> task_day_columns() { return kTaskDay; }
std::span<const WeatherColumn> weather_columns() { return kWeather; }
std::span<const SparseColumn> sparse_columns() { return kSparse; }
std::span<const TaskColumn> task_columns() { return kTask; }
std::span<const TaskText> task_texts() { return kTaskText; }

std::string weather_digest(const weather::WeatherYear& year) {
  std::string bytes;
  bytes.reserve(4 * (kWeather.size() + kSparse.size()) * year.hours.size());
  for (const weather::WeatherHour& hour : year.hours) {
    for (const WeatherColumn& column : kWeather) add_bits(bytes, hour.*column.member);
    // No quantity of the sparse columns is negative, so that -1 can stand for "not given".
    for (const SparseColumn& column : kSparse) {
      add_bits(bytes, (hour.*column.member).value_or(-1.0));
    }
  }
  return base::sha256_hex(bytes);
}
}  // namespace ovendays::results
