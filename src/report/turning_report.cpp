// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <numeric>

#include "axes.h"
#include "ovendays/report/question_report.h"
#include "ovendays/study/study_arrays.h"
#include "palette.h"
#include "text_table.h"

namespace ovendays::report {
namespace {
using study::Turning;
using study::TurningDays;

/// Largest share of days that turning less often may cost: one day in fifty.
constexpr double kWorth = 0.02;

std::string short_turning_name(const Turning& turning) {
  switch (turning.kind) {
    case Turning::Kind::kOnce:
      return "once";
    case Turning::Kind::kNever:
      return "never";
    case Turning::Kind::kEvery:
      break;
  }
  return std::to_string(std::lround(turning.every_s / 60.0));
}

std::vector<std::string> heads_of(const std::vector<TurningDays>& rows) {
  std::vector<std::string> heads;
  heads.reserve(rows.size());
  for (const TurningDays& row : rows) heads.push_back(short_turning_name(row.turning));
  return heads;
}

// "no turning helps" where no interval gives a single day.
std::string enough_text(const std::vector<TurningDays>& rows, std::size_t task) {
  const Turning* enough = often_enough(rows, task);
  return enough == nullptr ? "no turning helps" : study::turning_name(*enough);
}
}  // namespace

const Turning* often_enough(const std::vector<TurningDays>& rows, std::size_t task) {
  int most = 0;
  for (const TurningDays& row : rows) most = std::max(most, row.tasks[task].days[12]);
  if (most == 0) return nullptr;
  const Turning* enough = nullptr;
  for (const TurningDays& row : rows) {
    if (row.tasks[task].days[12] >= (1.0 - kWorth) * most) enough = &row.turning;
  }
  return enough;
}

std::string turning_table(const std::vector<TurningDays>& rows,
                          const std::vector<std::string>& tasks,
                          int width) {
  const std::size_t columns = table_width(width);
  std::vector<TextRow> days;
  std::vector<TextRow> turns;
  std::vector<TextRow> enough;
  for (std::size_t t = 0; t < tasks.size(); ++t) {
    days.push_back({tasks[t], {}});
    turns.push_back({tasks[t], {}});
    for (const TurningDays& row : rows) {
      const bool timed = row.turning.kind == Turning::Kind::kEvery;
      days.back().cells.push_back(std::to_string(row.tasks[t].days[12]));
      turns.back().cells.push_back(timed ? fixed(row.tasks[t].turns_a_cook, 1) : "-");
    }
    enough.push_back({tasks[t], {enough_text(rows, t)}});
  }
  return "Days of the year, by minutes between turns of the oven\n" +
         text_table(heads_of(rows), days, columns) +
         paragraph(
             "once: turned once a day, towards the noon sun; never: always faces as the routine "
             "says.",
             columns) +
         "\nTurns during one cook, on average (the quickest cook of each day)\n" +
         text_table(heads_of(rows), turns, columns) +
         "\nOften enough: the longest interval that costs no more than one day in fifty\n" +
         text_table({"turn it"}, enough, columns);
}

namespace {
constexpr double kTurningWidth = 760, kTurningLabels = 190;

/// Moves the labels of the lines apart until no two are closer than `gap`.
std::vector<double> spread_labels(const std::vector<double>& wanted, double gap, double bottom) {
  std::vector<std::size_t> order(wanted.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return wanted[a] < wanted[b];
  });
  std::vector<double> placed(wanted.size());
  double free_from = -1e9;
  for (const std::size_t i : order) {
    placed[i] = std::max(wanted[i], free_from);
    free_from = placed[i] + gap;
  }
  double free_to = bottom;  // push labels that left the picture back up
  for (auto i = order.rbegin(); i != order.rend(); ++i) {
    placed[*i] = std::min(placed[*i], free_to);
    free_to = placed[*i] - gap;
  }
  return placed;
}

// There are kLines colours; further tasks reuse them with a dash pattern.
std::string line_kind(std::size_t task) {
  return "l" + std::to_string(task % kLines) + (task < kLines ? "" : " dash");
}

void draw_turning_lines(Drawing& d,
                        const Axes& axes,
                        const std::vector<TurningDays>& rows,
                        const std::vector<std::string>& tasks) {
  std::vector<double> ends;
  for (std::size_t t = 0; t < tasks.size(); ++t) {
    Polyline points;
    d.open(tasks[t]);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      points.emplace_back(axes.x(static_cast<double>(i)), axes.y(rows[i].tasks[t].days[12]));
    }
    d.polyline(points, line_kind(t));
    for (const auto& [x, y] : points) d.circle(x, y, 2.2, "ink");
    d.close();
    ends.push_back(points.back().second);
  }
  const std::vector<double> placed = spread_labels(ends, 14.0, axes.bottom());
  const double right = axes.left + axes.width;
  for (std::size_t t = 0; t < tasks.size(); ++t) {
    const std::string letters = "n" + std::to_string(t % kLines);
    d.line(right + 4, ends[t], right + 16, placed[t], line_kind(t) + " thin");
    d.text({right + 20, placed[t] + 3.5, "start", letters.c_str()}, shortened(tasks[t], 30));
  }
}
}  // namespace

std::string turning_svg(const std::vector<TurningDays>& rows,
                        const std::vector<std::string>& tasks) {
  int most = 0;
  for (const TurningDays& row : rows) {
    for (const study::TaskTurning& task : row.tasks) most = std::max(most, task.days[12]);
  }
  Drawing d(kTurningWidth, "days of the year against how often the oven is turned");
  const double step = round_step(std::max(most, 10), 6);
  const Axes axes{.left = 44,
                  .top = 26,
                  .width = kTurningWidth - 44 - kTurningLabels,
                  .height = 300,
                  .x_least = -0.3,
                  .x_most = static_cast<double>(rows.size()) - 0.7,
                  .y_least = 0.0,
                  .y_most = step * std::ceil(std::max(most, 10) / step)};
  d.text({8, 12, "start", "soft"}, "days of the year");
  axes.rule(d, step);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    d.text({axes.x(static_cast<double>(i)), axes.bottom() + 15, "middle", "soft"},
           short_turning_name(rows[i].turning));
  }
  d.line(axes.left, axes.bottom(), axes.left + axes.width, axes.bottom(), "axis");
  d.text({axes.left + 0.5 * axes.width, axes.bottom() + 34, "middle", "soft"},
         "minutes between turns; once: towards the noon sun; never: always faces one way");
  draw_turning_lines(d, axes, rows, tasks);
  d.set_height(axes.bottom() + 48);
  return d.file("Days on which each task gets done, by how often the oven is turned");
}
}  // namespace ovendays::report
