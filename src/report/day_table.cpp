// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "day_summary.h"
#include "ovendays/base/calendar.h"
#include "text_table.h"

namespace ovendays::report {
namespace {
constexpr std::size_t kPlotLabels = 8;  // columns left of the plot
constexpr int kRowsAStep = 3;

// A plot made of characters: temperature upwards, time to the right.
class Plot {
 public:
  Plot(const season::DayTrace& trace, TemperatureUnit unit, std::size_t columns)
      : trace_(trace), unit_(unit), span_(cook_span(trace)), columns_(columns) {
    const DegreeRange range = degree_range(trace, span_, unit);
    least_ = range.least;
    most_ = range.most;
    rows_ = kRowsAStep * static_cast<int>(std::lround((most_ - least_) / range.step)) + 1;
    field_.assign(static_cast<std::size_t>(rows_), std::string(columns_, ' '));
    // Drawn in reverse order, so that the food ends up on top.
    for (std::size_t i = day_curves().size(); i-- > 0;) draw(day_curves()[i]);
  }

  [[nodiscard]] std::string text() const {
    std::string out;
    const double step = (most_ - least_) / (rows_ - 1);
    for (int row = 0; row < rows_; ++row) {
      const bool labelled = row % kRowsAStep == 0;
      const std::string label = labelled ? fixed(most_ - row * step, 0) : "";
      std::string line = pad_left(label, kPlotLabels - 2) + (labelled ? " ┤" : " │");
      line += field_[static_cast<std::size_t>(row)];
      while (line.ends_with(" ")) line.pop_back();
      out += line + "\n";
    }
    return out + foot();
  }

  /// Direct sunlight on the glass as one row of block characters.
  [[nodiscard]] std::string sun() const {
    static const char* const kBars[] = {" ", "▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"};
    std::string line;
    for (std::size_t column = 0; column < columns_; ++column) {
      const double share = minute_at(column).beam_mouth_Wm2 / 1100.0;
      line += kBars[std::clamp(static_cast<int>(std::lround(8.0 * share)), 0, 8)];
    }
    line = pad_right("beam", kPlotLabels) + line;
    while (line.ends_with(" ")) line.pop_back();
    return line + "\n";
  }

 private:
  [[nodiscard]] const season::MinuteTrace& minute_at(std::size_t column) const {
    const double share = static_cast<double>(column) / static_cast<double>(columns_ - 1);
    const double minute = span_.first_minute + share * (span_.last_minute - span_.first_minute);
    return trace_.minutes[static_cast<std::size_t>(std::lround(minute))];
  }

  void draw(const DayCurve& curve) {
    for (std::size_t column = 0; column < columns_; ++column) {
      const double value = degrees(minute_at(column).*curve.member, unit_);
      if (std::isnan(value)) continue;
      const double row = (most_ - value) / (most_ - least_) * (rows_ - 1);
      field_[static_cast<std::size_t>(std::lround(row))][column] = curve.letter;
    }
  }

  [[nodiscard]] std::string foot() const {
    std::string line = std::string(kPlotLabels - 1, ' ') + "└";
    for (std::size_t i = 0; i < columns_; ++i) line += "─";
    std::string hours(kPlotLabels + columns_ + 6, ' ');
    const std::vector<int> named = named_minutes(span_);
    for (const int minute : named) {
      const double share = static_cast<double>(minute - span_.first_minute) /
                           (span_.last_minute - span_.first_minute);
      const auto at =
          static_cast<std::size_t>(std::lround(share * static_cast<double>(columns_ - 1)));
      const std::string name = minute_name(minute, named);
      hours.replace(kPlotLabels + at - (at == 0 ? 0 : name.size() / 2), name.size(), name);
    }
    hours.erase(hours.find_last_not_of(' ') + 1);
    return line + "\n" + hours + "\n";
  }

  const season::DayTrace& trace_;
  TemperatureUnit unit_;
  DaySpan span_;
  std::size_t columns_;
  double least_ = 0.0, most_ = 0.0;
  int rows_ = 0;
  std::vector<std::string> field_;
};

void add_wrapped(std::string& out, const std::string& text, std::size_t width) {
  for (const std::string& line : wrap(text, width)) out += line + "\n";
}
}  // namespace

std::string day_table(const season::DayTrace& trace, const ReportOptions& options) {
  const std::size_t width = table_width(options.width);
  std::string out;
  add_wrapped(out, day_headline(trace, options.unit), width);
  out += "\n";
  add_wrapped(out,
              trace.site_name + ", spot: " + trace.spot_name + ". Oven: " + trace.oven_name + ".",
              width);
  for (const std::string& remark : day_remarks(trace, options.unit))
    add_wrapped(out, remark, width);
  out += "\n";
  const Plot plot(trace, options.unit, width - kPlotLabels - 1);
  out += pad_left(options.unit == TemperatureUnit::kCelsius ? "°C" : "°F", kPlotLabels - 2) + "\n";
  out += plot.text() + plot.sun();
  std::string keys;
  for (const DayCurve& curve : day_curves())
    keys += (keys.empty() ? "" : ", ") + std::string(1, curve.letter) + " " + curve.words;
  add_wrapped(out, keys + "; beam: direct sunlight on the glass, full height 1,100 W/m2.", width);
  out += "\nEvents (standard time)\n";
  for (const DayEvent& event : day_events(trace, options.unit))
    out += "  " + base::clock_text(event.time_s) + "  " + shortened(event.words, width - 9) + "\n";
  out += "\n";
  add_wrapped(out, food_caution(), width);
  return out;
}
}  // namespace ovendays::report
