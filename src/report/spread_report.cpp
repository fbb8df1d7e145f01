// SPDX-License-Identifier: MIT
#include <algorithm>
#include <filesystem>

#include "axes.h"
#include "ovendays/base/constants.h"
#include "ovendays/report/question_report.h"
#include "text_table.h"

namespace ovendays::report {
namespace {
using study::Spread;
using study::UncertainInput;

// P10 follows from P90: symmetric around 1 for a normal factor, reciprocal for a log-normal one.
std::string range_text(const UncertainInput& input) {
  switch (input.shape) {
    case UncertainInput::Shape::kNormalFactor:
      return "x " + fixed(2.0 - input.p90, 2) + " to " + fixed(input.p90, 2) + ", normal";
    case UncertainInput::Shape::kLogNormalFactor:
      return "x " + fixed(1.0 / input.p90, 2) + " to " + fixed(input.p90, 2) + ", log-normal";
    case UncertainInput::Shape::kLater:
      return fixed(study::value_at(input, 0.1) / base::kSecondsPerMinute, 0) + " to " +
             fixed(input.p90 / base::kSecondsPerMinute, 0) + " min, half-normal";
    case UncertainInput::Shape::kNormalShift:
      break;
  }
  if (std::string(input.unit) != "K")
    return "by -" + fixed(input.p90, 2) + " to +" + fixed(input.p90, 2) + ", normal";
  return "by -" + fixed(input.p90, 0) + " to +" + fixed(input.p90, 0) + " °C (" +
         fixed(1.8 * input.p90, 0) + " °F), normal";
}

std::string year_name(const std::string& file) {
  return std::filesystem::path(file).filename().string();
}

std::string weather_text(const Spread& spread) {
  if (spread.year_files.size() > 1) {
    return "Weather: each draw takes one of the " + std::to_string(spread.year_files.size()) +
           " years in turn, so the spread between years is the measured one.";
  }
  return "Weather: each draw rearranges the year '" + year_name(spread.year_files[0]) +
         "' in spells of " + std::to_string(study::kBlock_days) + " days taken from up to " +
         std::to_string(study::kWindow_days) +
         " days earlier or later. Real years differ by more than that. Give --weather several "
         "times "
         "to use several measured years.";
}

std::vector<TextRow> range_rows(const Spread& spread) {
  std::vector<TextRow> rows;
  for (std::size_t t = 0; t < spread.task_names.size(); ++t) {
    const auto ends = study::days_range(spread, t, 12);
    rows.push_back({spread.task_names[t],
                    {std::to_string(spread.by_year[t][0][12]),
                     fixed(ends[0], 0),
                     fixed(ends[1], 0),
                     fixed(ends[2], 0)}});
  }
  return rows;
}

std::vector<TextRow> chance_rows(const Spread& spread) {
  std::vector<TextRow> rows;
  for (std::size_t t = 0; t < spread.task_names.size(); ++t) {
    rows.push_back({spread.task_names[t], {}});
    for (std::size_t m = 0; m < 13; ++m) {
      rows.back().cells.push_back(chance_text(study::day_chance(spread, t, m)));
    }
  }
  return rows;
}

std::vector<TextRow> year_rows(const Spread& spread) {
  std::vector<TextRow> rows;
  for (std::size_t y = 0; y < spread.year_files.size(); ++y) {
    rows.push_back({year_name(spread.year_files[y]), {}});
    for (std::size_t t = 0; t < spread.task_names.size(); ++t) {
      rows.back().cells.push_back(std::to_string(spread.by_year[t][y][12]));
    }
  }
  return rows;
}

std::vector<TextRow> input_rows() {
  std::vector<TextRow> rows;
  for (const UncertainInput& input : study::uncertain_inputs()) {
    rows.push_back({input.what, {range_text(input)}});
  }
  return rows;
}
}  // namespace

std::string spread_table(const Spread& spread, int width) {
  const std::size_t columns = table_width(width);
  std::string out =
      "Uncertainty: days of the year over " + std::to_string(spread.draws.size()) +
      " draws of the uncertain inputs\n" +
      text_table({"as given", "P10", "P50", "P90"}, range_rows(spread), columns) +
      paragraph("P10: one draw in ten has fewer days; P90: one in ten has more.", columns);
  if (spread.year_files.size() > 1) {
    std::vector<std::string> heads;
    for (const std::string& name : spread.task_names) heads.push_back(shortened(name, 8));
    out += "\nThe case as given, year by year\n" + text_table(heads, year_rows(spread), columns);
  }
  out +=
      "\nChance that a day works, in percent\n" +
      text_table(month_heads(), chance_rows(spread), columns) + "\nUncertain inputs\n" +
      text_table({"range of 8 in 10 draws"}, input_rows(), columns) +
      paragraph(
          "These ranges are judgement or common practice, no source, except that of the heat into "
          "the food, which is the model's own error against measured loaded ovens.",
          columns) +
      "\n" + paragraph(weather_text(spread), columns);
  return out;
}

namespace {
constexpr double kSpreadWidth = 760, kSpreadNames = 200, kSpreadRow = 34;

// One row of the picture: the bar is P10 to P90, the thin lines are the single draws.
void draw_spread(Drawing& d, const Axes& axes, const Spread& spread, std::size_t task, double y) {
  const auto ends = study::days_range(spread, task, 12);
  d.open(spread.task_names[task] + ": P10 " + fixed(ends[0], 0) + ", P50 " + fixed(ends[1], 0) +
         ", P90 " + fixed(ends[2], 0) + " days");
  d.text({20, y + 4, "start", ""}, shortened(spread.task_names[task], 30));
  d.line(axes.left, y, axes.left + axes.width, y, "grid");
  d.box({axes.x(ends[0]), y - 8, std::max(2.0, axes.x(ends[2]) - axes.x(ends[0])), 16}, "done", 3);
  for (const study::MonthDays& draw : spread.days[task]) {
    d.line(axes.x(draw[12]), y - 4, axes.x(draw[12]), y + 4, "axis");
  }
  d.line(axes.x(ends[1]), y - 10, axes.x(ends[1]), y + 10, "path");
  d.text({kSpreadWidth - 20, y + 4, "end", "strong"},
         fixed(ends[0], 0) + " – " + fixed(ends[1], 0) + " – " + fixed(ends[2], 0));
  d.close();
}
}  // namespace

std::string spread_svg(const Spread& spread) {
  Drawing d(kSpreadWidth, "days of the year over all draws");
  const double rows = static_cast<double>(spread.task_names.size());
  const Axes axes{.left = kSpreadNames,
                  .top = 24,
                  .width = kSpreadWidth - kSpreadNames - 140,
                  .height = rows * kSpreadRow,
                  .x_least = 0.0,
                  .x_most = season::kDays,
                  .y_least = 0.0,
                  .y_most = 1.0};
  d.text({kSpreadWidth - 20, 14, "end", "soft"}, "P10 – P50 – P90");
  d.text({axes.left, 14, "start", "soft"}, "days of the year");
  for (std::size_t t = 0; t < spread.task_names.size(); ++t) {
    draw_spread(d, axes, spread, t, axes.top + (static_cast<double>(t) + 0.5) * kSpreadRow);
  }
  d.line(axes.left, axes.bottom(), axes.left + axes.width, axes.bottom(), "axis");
  for (int days = 0; days <= 350; days += 50) {
    d.line(axes.x(days), axes.bottom(), axes.x(days), axes.bottom() + 4, "axis");
    d.text({axes.x(days), axes.bottom() + 15, "middle", "small"}, std::to_string(days));
  }
  d.text({20, axes.bottom() + 36, "start", "soft"},
         "Bar: range of 8 in 10 draws. Thick line: median. Thin lines: each of " +
             std::to_string(spread.draws.size()) + " draws.");
  d.set_height(axes.bottom() + 50);
  return d.file("Uncertainty: days on which each task gets done");
}
}  // namespace ovendays::report
