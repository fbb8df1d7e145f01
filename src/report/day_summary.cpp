// SPDX-License-Identifier: MIT
#include "day_summary.h"

#include <algorithm>
#include <cmath>

#include "axes.h"
#include "ovendays/base/calendar.h"
#include "ovendays/base/constants.h"

namespace ovendays::report {
namespace {
using season::DayTrace;
using season::MinuteTrace;

// Apparent sunrise, because the zenith angles of a trace include refraction.
bool sun_up(const MinuteTrace& minute) { return minute.sun_zenith_rad < 0.5 * base::kPi; }

std::string clock(double time_s) { return base::clock_text(time_s); }

bool air_fell_short(const DayTrace& trace) {
  return trace.oven_air_K && trace.cook.air_s < trace.oven_air_s;
}

// What the task asks for and the cook did not give: the core's target, its hold, the oven's air.
std::string unmet_demands(const DayTrace& trace, TemperatureUnit unit) {
  const std::string target = temperature_text(trace.target_K, unit);
  std::string text;
  if (trace.cook.peak_core_K >= trace.target_K && trace.cook.hold_s < trace.hold_s) {
    text = "the core never held " + target + " for " + duration_text(trace.hold_s) +
           (trace.unbroken ? " in one go"
                           : ", only for " + duration_text(trace.cook.hold_s) + " in all");
  }
  if (air_fell_short(trace)) {
    text += (text.empty() ? "" : "; ") + std::string("the oven's air never held ") +
            temperature_text(*trace.oven_air_K, unit) + " for " + duration_text(trace.oven_air_s) +
            (trace.cook.air_s > 0.0 ? ", only for " + duration_text(trace.cook.air_s) + " in all"
                                    : " and never reached it");
  }
  if (!text.empty() && trace.cook.peak_core_K >= trace.target_K) return text;
  return "the core reached " + temperature_text(trace.cook.peak_core_K, unit) + " and needs " +
         target + (text.empty() ? "" : "; " + text);
}

// Events of the cook. Boiling is reported only while the pot is in the oven.
void add_cook(const DayTrace& trace, TemperatureUnit unit, std::vector<DayEvent>& events) {
  events.push_back({trace.load_s, "loaded: " + trace.task_name + ", in the " + trace.vessel_name});
  if (trace.target_s)
    events.push_back({*trace.target_s, "core at " + temperature_text(trace.target_K, unit)});
  if (trace.cook.boiling_from_s >= 0.0 && trace.cook.boiling_from_s <= trace.end_s)
    events.push_back({trace.cook.boiling_from_s, "the food boils"});
  if (trace.cook.done) {
    events.push_back(
        {trace.cook.finish_s,
         trace.cook.safe ? "done" : "hot enough, but slower than its safety rule allows"});
  } else {
    events.push_back({trace.end_s, "given up: " + unmet_demands(trace, unit)});
  }
}
}  // namespace

std::string long_date(const base::Date& date) {
  return std::to_string(date.day) + " " + long_month_name(date.month);
}

std::string food_caution() {
  return "These are simulated temperatures, not a promise that any food is safe: measure the "
         "middle "
         "of the food with a thermometer.";
}

std::vector<Shaded> shaded_times(const DayTrace& trace) {
  std::vector<Shaded> found;
  bool before = false;
  for (const MinuteTrace& minute : trace.minutes) {
    const bool shaded = sun_up(minute) && minute.visible_share < 0.5;
    if (shaded && !before) found.push_back({minute.time_s, minute.time_s});
    if (shaded) found.back().to_s = minute.time_s;
    before = shaded;
  }
  // A shadow that passes within two minutes, such as a post's, is not worth a line.
  std::erase_if(found, [](const Shaded& shaded) { return shaded.to_s - shaded.from_s < 120.0; });
  return found;
}

std::vector<DayEvent> day_events(const DayTrace& trace, TemperatureUnit unit) {
  std::vector<DayEvent> events;
  if (trace.light.up) {
    events.push_back({std::max(0.0, trace.light.sunrise_s), "the sun rises"});
    events.push_back({std::min(base::kSecondsPerDay, trace.light.sunset_s), "the sun sets"});
  }
  for (const Shaded& shaded : shaded_times(trace)) {
    events.push_back(
        {shaded.from_s, "more than half of the mouth in shade, until " + clock(shaded.to_s)});
  }
  add_cook(trace, unit, events);
  std::stable_sort(events.begin(), events.end(), [](const DayEvent& a, const DayEvent& b) {
    return a.time_s < b.time_s;
  });
  return events;
}

std::string day_headline(const DayTrace& trace, TemperatureUnit unit) {
  std::string text =
      trace.task_name + " on " + long_date(trace.date) + ": loaded at " + clock(trace.load_s);
  if (!trace.cook.done) {
    return text + ", not done: " + unmet_demands(trace, unit) + ".";
  }
  text += ", done at " + clock(trace.cook.finish_s) + ", after " +
          duration_text(trace.cook.finish_s - trace.load_s);
  return text + (trace.cook.safe ? "." : ", but slower than its safety rule allows.");
}

namespace {
// Relates the cook shown to the outcome that the season reports for the day.
std::string cook_remark(const DayTrace& trace) {
  const season::DayTask& day = trace.season;
  const auto single = [](float time_s) { return clock(static_cast<double>(time_s)); };
  if (day.outcome == season::Outcome::kNoGo) {
    return std::string("The season counts this day as no-go (") + season::cause_name(day.cause) +
           "): the oven stays indoors. This is what would have happened outside.";
  }
  if (day.load_s < 0.0F) {
    return "Loaded at the time you gave. No loading time of the routine is early enough.";
  }
  if (!trace.as_season) {
    return "Loaded at the time you gave. The season reports loading at " + single(day.load_s) +
           " that day: " + season::outcome_name(day.outcome) +
           (day.finish_s >= 0.0F ? ", done at " + single(day.finish_s) : "") + ".";
  }
  if (day.window_count == 0) return "No loading time works that day; this one came closest.";
  return "This is the quickest of the loading times that work on this day, from " +
         single(day.window_first_s) + " to " + single(day.window_last_s) + ".";
}
}  // namespace

std::vector<std::string> day_remarks(const DayTrace& trace, TemperatureUnit unit) {
  std::vector<std::string> remarks = {cook_remark(trace)};
  if (!trace.cook.done && air_fell_short(trace)) {
    remarks.emplace_back(
        "How hot the oven's air must be is common practice, without a source: food bakes in cooler "
        "air too, only more slowly.");
  }
  const double stands_s = trace.finish_by_s - trace.cook.finish_s;
  if (trace.cook.done && trace.overdone_after_s && stands_s > *trace.overdone_after_s) {
    remarks.push_back("Left in until " + clock(trace.finish_by_s) + ", " + duration_text(stands_s) +
                      " after it is done, it would be overdone: take it out by " +
                      clock(trace.cook.finish_s + *trace.overdone_after_s) + ".");
  }
  if (trace.target_K < trace.asked_target_K) {
    remarks.push_back(lowered_target_text(
        {trace.place.elevation_m, trace.boiling_K, trace.asked_target_K, trace.target_K}, unit));
  }
  if (!trace.rule.empty()) {
    remarks.push_back("The core spent " + duration_text(trace.cook.danger_s) +
                      " in the danger zone; the " + trace.rule + " rule allows " +
                      duration_text(trace.rule_limit_s) + ".");
  }
  return remarks;
}

const std::vector<DayCurve>& day_curves() {
  static const std::vector<DayCurve> curves = {
      {&MinuteTrace::core_K, "core of the food", 'C', 0, ""},
      {&MinuteTrace::vessel_K, "vessel", 'v', 1, "dash"},
      {&MinuteTrace::air_K, "oven air", 'a', 2, ""},
      {&MinuteTrace::liner_K, "liner", 'l', 3, "dot"},
      {&MinuteTrace::empty_air_K, "air of the empty oven", 'e', 4, "dash"},
      {&MinuteTrace::ambient_K, "outside air", 'o', 5, "dot"}};
  return curves;
}

DaySpan day_span(const DayTrace& trace) {
  constexpr double kHour_s = 3600.0;
  // A cook may begin before sunrise or run into the night.
  double first_s = trace.load_s;
  double last_s = trace.end_s;
  if (trace.light.up) {
    first_s = std::min(first_s, trace.light.sunrise_s);
    last_s = std::max(last_s, trace.light.sunset_s);
  }
  const auto whole = [](double hours) { return static_cast<int>(hours) * 60; };
  return {std::max(0, whole(std::floor(first_s / kHour_s))),
          std::min(season::kMinutes, whole(std::ceil(last_s / kHour_s)))};
}

DaySpan cook_span(const DayTrace& trace) {
  constexpr double kQuarter_s = 900.0;
  const auto quarters = [](double number) { return static_cast<int>(number) * 15; };
  return {std::max(0, quarters(std::floor(trace.load_s / kQuarter_s) - 1.0)),
          std::min(season::kMinutes, quarters(std::ceil(trace.end_s / kQuarter_s) + 1.0))};
}

std::vector<int> named_minutes(const DaySpan& span) {
  // The shortest round step that leaves room between the labels.
  int step = 180;
  for (const int shorter : {120, 60, 30, 15, 10}) {
    if ((span.last_minute - span.first_minute) / shorter <= 7) step = shorter;
  }
  std::vector<int> minutes;
  const int first = (span.first_minute + step - 1) / step * step;
  for (int minute = first; minute <= span.last_minute; minute += step) minutes.push_back(minute);
  return minutes;
}

std::string minute_name(int minute, const std::vector<int>& all) {
  const bool whole = std::all_of(all.begin(), all.end(), [](int each) { return each % 60 == 0; });
  return whole ? std::to_string(minute / 60) : clock(60.0 * minute);
}

// Chooses a scale that shows every curve of the span.
DegreeRange degree_range(const DayTrace& trace, const DaySpan& span, TemperatureUnit unit) {
  // The target has its own line, which must be visible even if no temperature comes near it.
  double least = degrees(trace.target_K, unit);
  double most = least;
  for (int m = span.first_minute; m <= span.last_minute; ++m) {
    for (const DayCurve& curve : day_curves()) {
      const double value = degrees(trace.minutes[static_cast<std::size_t>(m)].*curve.member, unit);
      if (std::isnan(value)) continue;
      least = std::min(least, value);
      most = std::max(most, value);
    }
  }
  const double step = round_step(most - least, 6);
  return {step * std::floor(least / step), step * std::ceil(most / step), step};
}
}  // namespace ovendays::report
