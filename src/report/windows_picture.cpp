// SPDX-License-Identifier: MIT
#include <cmath>

#include "axes.h"
#include "pictures.h"

namespace ovendays::report {
namespace {
constexpr double kHour_s = 3600.0;

struct Window {
  int days = 0;
  double first_h = 0, last_h = 0, done_h = 0;
};

// Medians, so that one odd day does not move the month.
Window window_of(const season::SeasonResult& result, std::size_t task, int month) {
  std::vector<double> first;
  std::vector<double> last;
  std::vector<double> done;
  for (int day = 0; day < season::kDays; ++day) {
    const season::DayTask& cook = result.at(task, day);
    if (base::date_from_day_index_365(day).month != month ||
        cook.outcome != season::Outcome::kCooked)
      continue;
    first.push_back(static_cast<double>(cook.window_first_s) / kHour_s);
    last.push_back(static_cast<double>(cook.window_last_s) / kHour_s);
    done.push_back(static_cast<double>(cook.finish_s - cook.load_s) / kHour_s);
  }
  if (first.empty()) return {};
  return {static_cast<int>(first.size()),
          season::median(first),
          season::median(last),
          season::median(done)};
}

// "9" or "9:30"; the scale beside it makes longer labels unnecessary.
std::string short_clock(double time_h) {
  const long minutes = std::lround(60.0 * time_h);
  const std::string rest = std::to_string(minutes % 60);
  const std::string hour = std::to_string(minutes / 60);
  return minutes % 60 == 0 ? hour : hour + ":" + (rest.size() < 2 ? "0" : "") + rest;
}

void draw_window(Drawing& d, const Axes& axes, const Window& window, int month) {
  const double column = axes.width / 12.0;
  const double middle = axes.left + (month - 0.5) * column;
  if (window.days == 0) {
    d.open(std::string(base::month_name(month)) + ": never done");
    d.text({middle, axes.y(0.5 * (axes.y_least + axes.y_most)) + 4, "middle", "soft"}, "–");
    d.close();
    return;
  }
  const double top = axes.y(window.first_h);
  const double height = std::max(3.0, axes.y(window.last_h) - top);
  d.open(std::string(base::month_name(month)) + ": load from " +
         base::clock_text(window.first_h * kHour_s) + " to " +
         base::clock_text(window.last_h * kHour_s) + ", done in " +
         duration_text(window.done_h * kHour_s) + " (" + days_text(window.days) + ")");
  d.box({middle - 8, top, 16, height}, "done", 2);
  d.text({middle, top - 3, "middle", "small"}, short_clock(window.first_h));
  d.text({middle, top + height + 10, "middle", "small"}, short_clock(window.last_h));
  d.close();
}
}  // namespace

Drawing windows_picture(const results::StoredSeason& season, std::size_t task) {
  std::array<Window, 12> windows{};
  double least_h = 9.0;
  double most_h = 15.0;
  for (int month = 1; month <= 12; ++month) {
    Window& window = windows[static_cast<std::size_t>(month - 1)];
    window = window_of(season.result, task, month);
    if (window.days == 0) continue;
    least_h = std::min(least_h, std::floor(window.first_h));
    most_h = std::max(most_h, std::ceil(window.last_h));
  }
  Drawing d(kPhoneWidth, "Loading times that work, by month: " + season.result.task_names[task]);
  // Time runs down the page from the morning, so the axis is inverted.
  const Axes axes{.left = 33,
                  .top = 20,
                  .width = kPhoneWidth - 37,
                  .height = 160,
                  .x_least = 0,
                  .x_most = 12,
                  .y_least = most_h,
                  .y_most = least_h};
  // Every other hour is labelled, beginning with the first one shown.
  for (int hour = static_cast<int>(least_h); hour <= most_h; hour += 2) {
    d.line(axes.left, axes.y(hour), axes.left + axes.width, axes.y(hour), "grid");
    d.text({axes.left - 4, axes.y(hour) + 3.5, "end", "small"}, base::clock_text(hour * kHour_s));
  }
  for (int month = 1; month <= 12; ++month) {
    draw_window(d, axes, windows[static_cast<std::size_t>(month - 1)], month);
    d.text({axes.left + (month - 0.5) * axes.width / 12.0, axes.bottom() + 26, "middle", "small"},
           base::month_name(month));
  }
  d.set_height(axes.bottom() + 34);
  return d;
}
}  // namespace ovendays::report
