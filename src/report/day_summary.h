// SPDX-License-Identifier: MIT
// The texts, events and scales of one day that its table, picture and page share.
#pragma once

#include <string>
#include <vector>

#include "ovendays/report/day_report.h"
#include "words.h"

namespace ovendays::report {

/// An event of the day.
struct DayEvent {
  double time_s;
  std::string words;
};
/// Events in order of time: sunrise, shade, loading, target, boiling, end of the cook, sunset.
std::vector<DayEvent> day_events(const season::DayTrace& trace, TemperatureUnit unit);

/// The result in one sentence: "rice on 21 June: loaded at 08:00, done at 09:12."
std::string day_headline(const season::DayTrace& trace, TemperatureUnit unit);
/// The food-safety caution that accompanies every cook.
std::string food_caution();
/// Remarks: whether this is the cook that the season reports, what the demands are worth, and the
/// time in the danger zone.
std::vector<std::string> day_remarks(const season::DayTrace& trace, TemperatureUnit unit);

/// A time of two minutes or more with the sun up and over half of the mouth in shade.
struct Shaded {
  double from_s, to_s;
};
std::vector<Shaded> shaded_times(const season::DayTrace& trace);

/// "21 June".
std::string long_date(const base::Date& date);

/// A curve of the day: a member of MinuteTrace, its name, its letter in a terminal plot, and its
/// index in Palette::trace.
struct DayCurve {
  double season::MinuteTrace::*member;
  const char* words;
  char letter;
  std::size_t colour;
  const char* dashes;  ///< CSS class of the dash pattern; may be empty
};
/// The curves, most important first: core, vessel, oven air, liner, empty oven, outside air.
const std::vector<DayCurve>& day_curves();

/// First and last minute that a plot shows.
struct DaySpan {
  int first_minute, last_minute;
};
/// Span of daylight and cook, in whole hours.
DaySpan day_span(const season::DayTrace& trace);
/// Span of the cook with a quarter of an hour on either side, in whole quarters.
DaySpan cook_span(const season::DayTrace& trace);
/// Times to label along a span [minute of the day]: at most eight, at round times.
std::vector<int> named_minutes(const DaySpan& span);
/// Label of a minute: "9" if all labelled minutes are whole hours, otherwise "09:30".
std::string minute_name(int minute, const std::vector<int>& all);

/// Temperature scale of a plot: round limits, and the step between grid lines.
struct DegreeRange {
  double least, most, step;
};
DegreeRange degree_range(const season::DayTrace& trace, const DaySpan& span, TemperatureUnit unit);
}  // namespace ovendays::report
