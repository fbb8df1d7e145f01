// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "axes.h"
#include "day_summary.h"
#include "html.h"
#include "ovendays/base/calendar.h"

namespace ovendays::report {
namespace {
// The plots stand one above the other and have the same width, so that their times line up.
constexpr double kDayLeft = 38, kField = kPhoneWidth - kDayLeft - 6;

// The x axis is the time of day in minutes.
Axes axes_of(const DaySpan& span, double top, double height) {
  return {.left = kDayLeft,
          .top = top,
          .width = kField,
          .height = height,
          .x_least = static_cast<double>(span.first_minute),
          .x_most = static_cast<double>(span.last_minute),
          .y_least = 0,
          .y_most = 1};
}

DaySpan span_of(const Axes& axes) {
  return {static_cast<int>(axes.x_least), static_cast<int>(axes.x_most)};
}

void draw_day_hours(Drawing& d, const Axes& axes) {
  const std::vector<int> named = named_minutes(span_of(axes));
  for (const int minute : named) {
    const std::string name = minute_name(minute, named);
    const bool at_edge = minute == span_of(axes).last_minute && name.size() > 2;
    d.text({at_edge ? kPhoneWidth : axes.x(minute),
            axes.bottom() + 13,
            at_edge ? "end" : "middle",
            "small"},
           name);
  }
  d.line(axes.left, axes.bottom(), axes.left + axes.width, axes.bottom(), "axis");
}

// Shade is a tinted background under everything else.
void draw_shade(Drawing& d, const Axes& axes, const season::DayTrace& trace) {
  for (const Shaded& shaded : shaded_times(trace)) {
    const double from = axes.x(std::max(axes.x_least, shaded.from_s / 60.0));
    const double to = axes.x(std::min(axes.x_most, shaded.to_s / 60.0));
    if (to <= from) continue;
    d.open("in shade from " + base::clock_text(shaded.from_s) + " to " +
           base::clock_text(shaded.to_s));
    d.box({from, axes.top, std::max(0.5, to - from), axes.height}, "band");
    d.close();
  }
}

// Every other minute is enough for a whole day at the width of a telephone.
Polyline curve_of(const season::DayTrace& trace,
                  const Axes& axes,
                  double season::MinuteTrace::*member,
                  bool temperature,
                  TemperatureUnit unit) {
  const DaySpan span = span_of(axes);
  const int every = span.last_minute - span.first_minute > 360 ? 2 : 1;
  Polyline points;
  for (int m = span.first_minute; m <= span.last_minute; m += every) {
    const season::MinuteTrace& minute = trace.minutes[static_cast<std::size_t>(m)];
    const double value = temperature ? degrees(minute.*member, unit) : minute.*member;
    points.emplace_back(axes.x(m), axes.y(value));
  }
  return points;
}

enum class MomentWords { kShown, kLeftOut };

struct Moment {
  double time_s;
  const char* words;
};

// Vertical marks with labels at the top; labels that would overlap are stacked.
void draw_moments(Drawing& d, const Axes& axes, const season::DayTrace& trace, MomentWords shown) {
  std::vector<Moment> moments = {{trace.load_s, "loaded"}};
  if (trace.target_s) moments.push_back({*trace.target_s, "target"});
  moments.push_back({trace.end_s, trace.cook.done ? "done" : "given up"});
  double row = axes.top + 9;
  for (const Moment& moment : moments) {
    const double x = axes.x(moment.time_s / 60.0);
    const std::string words = std::string(moment.words) + " " + base::clock_text(moment.time_s);
    const double wide = 5.4 * static_cast<double>(words.size());
    const bool left = x + wide + 4 > axes.left + axes.width;
    d.line(x, axes.top, x, axes.bottom(), "mark thin");
    if (shown == MomentWords::kLeftOut) continue;
    d.box({left ? x - wide - 4 : x + 2, row - 8.5, wide + 2, 11}, "halo", 3);
    d.text({left ? x - 4 : x + 4, row, left ? "end" : "start", "small strong"}, words);
    row += 13;
  }
}

// The food is drawn last, so that it lies on top.
void draw_temperatures(Drawing& d, const season::DayTrace& trace, TemperatureUnit unit, Axes axes) {
  const DegreeRange range = degree_range(trace, span_of(axes), unit);
  axes.y_least = range.least;
  axes.y_most = range.most;
  draw_shade(d, axes, trace);
  axes.rule(d, range.step, unit == TemperatureUnit::kCelsius ? " °C" : " °F");
  const double target = axes.y(degrees(trace.target_K, unit));
  d.line(axes.left, target, axes.left + axes.width, target, "mark");
  for (std::size_t i = day_curves().size(); i-- > 0;) {
    const DayCurve& curve = day_curves()[i];
    d.polyline(curve_of(trace, axes, curve.member, true, unit),
               "l" + std::to_string(curve.colour) + " " + curve.dashes);
  }
  d.box({axes.left + 2, target - 11, 96, 10.5}, "halo", 3);
  d.text({axes.left + 4, target - 3, "start", "small"},
         "target " + temperature_text(trace.target_K, unit));
  draw_day_hours(d, axes);
}

// The key continues on a second line where the first is full.
double draw_curve_keys(Drawing& d, double y) {
  double x = kDayLeft;
  for (const DayCurve& curve : day_curves()) {
    const double wide = 30 + 5.3 * static_cast<double>(std::string_view(curve.words).size());
    if (x + wide > kPhoneWidth) {
      x = kDayLeft;
      y += 15;
    }
    d.line(x, y - 3, x + 20, y - 3, "l" + std::to_string(curve.colour) + " " + curve.dashes);
    d.text({x + 24, y, "start", "small"}, curve.words);
    x += wide;
  }
  return y + 14;
}

// The unobstructed beam lies behind the beam that arrives; the visible rim is the loss.
void draw_light(Drawing& d, const season::DayTrace& trace, const Axes& axes) {
  draw_shade(d, axes, trace);
  axes.rule(d, 250);
  const auto area = [&](double season::MinuteTrace::*member, const char* kind) {
    Polyline points = curve_of(trace, axes, member, false, TemperatureUnit::kCelsius);
    points.insert(points.begin(), {axes.left, axes.bottom()});
    points.emplace_back(axes.left + axes.width, axes.bottom());
    d.polygon(points, kind);
  };
  area(&season::MinuteTrace::open_beam_mouth_Wm2, "lost");
  area(&season::MinuteTrace::beam_mouth_Wm2, "sun");
  d.polyline(
      curve_of(
          trace, axes, &season::MinuteTrace::diffuse_mouth_Wm2, false, TemperatureUnit::kCelsius),
      "l2");
  for (const task::Aim& aim : trace.aims) {
    const double minute = aim.from_s / 60.0;
    if (minute <= axes.x_least || minute >= axes.x_most) continue;
    d.line(axes.x(minute), axes.bottom() - 5, axes.x(minute), axes.bottom(), "axis");
  }
  draw_day_hours(d, axes);
}

double draw_light_keys(Drawing& d, double y) {
  d.box({kDayLeft, y - 9, 12, 10}, "sun");
  d.text({kDayLeft + 16, y, "start", "small"}, "direct sunlight");
  d.box({kDayLeft + 108, y - 9, 12, 10}, "lost");
  d.text({kDayLeft + 124, y, "start", "small"}, "direct sunlight hidden");
  d.line(kDayLeft + 194, y - 3, kDayLeft + 210, y - 3, "l2");
  d.text({kDayLeft + 214, y, "start", "small"}, "diffuse");
  d.line(kDayLeft + 258, y - 7, kDayLeft + 258, y, "axis");
  d.text({kDayLeft + 263, y, "start", "small"}, "re-aimed");
  return y + 8;
}

Drawing day_drawing(const season::DayTrace& trace, TemperatureUnit unit) {
  Drawing d(kPhoneWidth, day_headline(trace, unit));
  d.text({kDayLeft, 12, "start", "strong"}, "The cook");
  const Axes cook = axes_of(cook_span(trace), 20, 190);
  draw_temperatures(d, trace, unit, cook);
  draw_moments(d, cook, trace, MomentWords::kShown);
  const double keys = draw_curve_keys(d, cook.bottom() + 30);
  d.text({kDayLeft, keys + 14, "start", "strong"}, "The whole day");
  const Axes day = axes_of(day_span(trace), keys + 22, 120);
  draw_temperatures(d, trace, unit, day);
  draw_moments(d, day, trace, MomentWords::kLeftOut);
  d.text({kDayLeft, day.bottom() + 34, "start", "strong"}, "Light on the glass, W/m²");
  Axes light = axes_of(day_span(trace), day.bottom() + 42, 100);
  // The scale is the same for dull and bright days, so that pictures can be compared.
  double most = 750.0;
  for (const season::MinuteTrace& minute : trace.minutes)
    most = std::max(most, minute.open_beam_mouth_Wm2);
  light.y_most = 250.0 * std::ceil(most / 250.0);
  draw_light(d, trace, light);
  d.set_height(draw_light_keys(d, light.bottom() + 30));
  return d;
}
}  // namespace

std::string day_svg(const season::DayTrace& trace, const ReportOptions& options) {
  return day_drawing(trace, options.unit).file(day_headline(trace, options.unit));
}

std::string day_page(const season::DayTrace& trace, const ReportOptions& options) {
  Html page;
  page.element("h1", day_headline(trace, options.unit));
  page.element("p class=\"soft\"",
               "Spot: " + trace.spot_name + ", " + trace.site_name + ". Oven: " + trace.oven_name +
                   ". Simulated; all times are standard time.");
  for (const std::string& remark : day_remarks(trace, options.unit)) page.element("p", remark);
  page.raw("<div class=\"pair\">");
  page.figure("Temperatures and light",
              day_drawing(trace, options.unit),
              "Darker background: more than half of the mouth is in shade.");
  page.raw("<div>");
  page.element("h3", "Events");
  page.raw("<dl class=\"times\">");
  for (const DayEvent& event : day_events(trace, options.unit))
    page.pair(base::clock_text(event.time_s), event.words);
  page.close_terms();
  page.element("p class=\"soft\"", food_caution());
  page.raw("</div>\n</div>");
  return whole_page({trace.task_name + ", " + long_date(trace.date), page.take(), ""});
}
}  // namespace ovendays::report
