// SPDX-License-Identifier: MIT
// What terminal, picture and page of a day say alike.
#pragma once

#include <string>
#include <vector>

#include "ovendays/report/day_report.h"
#include "words.h"

namespace ovendays::report {

/// Something that happened, at its time.
struct DayEvent {
  double time_s;
  std::string words;
};
/// In order of time: sunrise, set out, shade comes and goes, loading, target, done, sunset.
std::vector<DayEvent> day_events(const season::DayTrace& trace, TemperatureUnit unit);

/// "rice on 21 June: loaded at 08:00, done at 09:12."
std::string day_headline(const season::DayTrace& trace, TemperatureUnit unit);
/// What is said beside every cook.
std::string food_caution();
/// Remarks: a day on which the oven stays in, a cook other than the season's.
std::vector<std::string> day_remarks(const season::DayTrace& trace);

/// A stretch of two minutes or more in which over half of the mouth is in shade, the sun being up.
struct Shaded {
  double from_s, to_s;
};
std::vector<Shaded> shaded_times(const season::DayTrace& trace);

/// "21 June".
std::string long_date(const base::Date& date);

/// A trace to be drawn: a member of the minute, what it is called, its letter in a terminal, its
/// place in the palette's traces.
struct DayCurve {
  double season::MinuteTrace::*member;
  const char* words;
  char letter;
  std::size_t colour;
  const char* dashes;  ///< class of the line's pattern
};
/// Core, vessel, oven air, liner, empty oven, outside air.
const std::vector<DayCurve>& day_curves();

/// First and last minute of what is shown.
struct DaySpan {
  int first_minute, last_minute;
};
/// The sun's day and the cook, in whole hours.
DaySpan day_span(const season::DayTrace& trace);
/// The cook with a quarter of an hour on either side, in whole quarters.
DaySpan cook_span(const season::DayTrace& trace);
/// Times to be named along a span [min of the day]: eight at most, on round times.
std::vector<int> named_minutes(const DaySpan& span);
/// "9" for a whole hour where all of them are, else "09:30".
std::string minute_name(int minute, const std::vector<int>& all);

/// Lowest and highest of a span's temperatures, on round numbers, and the step between lines.
struct DegreeRange {
  double least, most, step;
};
DegreeRange degree_range(const season::DayTrace& trace, const DaySpan& span, TemperatureUnit unit);
}  // namespace ovendays::report
