// SPDX-License-Identifier: MIT
#include <cmath>

#include "axes.h"
#include "ovendays/base/constants.h"
#include "palette.h"
#include "pictures.h"

namespace ovendays::report {
namespace {
constexpr std::size_t kMonths = 12;
constexpr std::size_t kHours = 24;

struct SunHours {
  double here_h = 0.0, open_h = 0.0;
};

// Hours with beam above 120 W/m2 (WMO), as counted by the season.
std::array<SunHours, kMonths> hours_by_month(const season::SeasonResult& result) {
  std::array<SunHours, kMonths> months{};
  for (int day = 0; day < season::kDays; ++day) {
    const season::DaySummary& summary = result.day[static_cast<std::size_t>(day)];
    SunHours& month =
        months[static_cast<std::size_t>(base::date_from_day_index_365(day).month - 1)];
    month.open_h += static_cast<double>(summary.beam_hours_open_s) / base::kSecondsPerHour;
    month.here_h += static_cast<double>(summary.beam_hours_here_s) / base::kSecondsPerHour;
  }
  return months;
}

// The lost hours are stacked on those that arrive; together they are the hours under an open sky.
void draw_sun_hours(Drawing& d, const Axes& axes, const SunHours& hours, int month) {
  const double column = axes.width / kMonths;
  const double x = axes.left + (month - 0.5) * column - 10;
  const double lost_h = hours.open_h - hours.here_h;
  d.open(std::string(base::month_name(month)) + ": " + fixed(hours.here_h, 0) +
         " h of strong sun at the spot, " + fixed(lost_h, 0) + " h lost");
  d.box({x, axes.y(hours.here_h), 20, axes.bottom() - axes.y(hours.here_h)}, "sun", 1);
  const double top = axes.y(hours.open_h);
  d.box({x + 0.6, top, 18.8, axes.y(hours.here_h) - top}, "lost");
  d.text({x + 10, axes.bottom() - 4, "middle", "small on"}, fixed(hours.here_h, 0));
  if (lost_h >= 0.5) d.text({x + 10, top - 3, "middle", "small strong"}, fixed(lost_h, 0));
  d.close();
}

// Mean of a month's days for each hour of the day [W/m2].
using BeamMap = std::array<std::array<double, kMonths>, kHours>;

BeamMap mean_beam(const season::SeasonResult& result) {
  BeamMap mean{};
  for (int day = 0; day < season::kDays; ++day) {
    const int month = base::date_from_day_index_365(day).month;
    const double share = 1.0 / base::days_in_month(2001, month);
    for (std::size_t hour = 0; hour < kHours; ++hour) {
      mean[hour][static_cast<std::size_t>(month - 1)] +=
          share * static_cast<double>(
                      result.hours[static_cast<std::size_t>(day) * kHours + hour].beam_mouth_Wm2);
    }
  }
  return mean;
}

// Hours without beam in every month are left out.
bool dark(const std::array<double, kMonths>& hour) {
  return std::all_of(hour.begin(), hour.end(), [](double beam_Wm2) { return beam_Wm2 < 0.5; });
}

// The scale ends at 1,000 W/m2, about the beam of a clear noon at normal incidence.
void draw_beam_cell(Drawing& d, const Box& cell, double beam_Wm2, const std::string& hint) {
  const std::string step = std::to_string(step_of(beam_Wm2 < 0.5 ? 0.0 : beam_Wm2 / 1000.0));
  const std::string letters = "small t" + step;
  d.open(hint + ": " + fixed(beam_Wm2, 0) + " W/m2");
  d.box(cell, "s" + step, 1.5);
  if (beam_Wm2 >= 0.5)
    d.text({cell.x + cell.width / 2, cell.y + cell.height / 2 + 3.3, "middle", letters.c_str()},
           fixed(beam_Wm2, 0));
  d.close();
}
}  // namespace

Drawing sun_hours_picture(const results::StoredSeason& season) {
  const auto months = hours_by_month(season.result);
  double open_h = 0.0;
  double here_h = 0.0;
  double most_h = 50.0;
  for (const SunHours& month : months) {
    open_h += month.open_h;
    here_h += month.here_h;
    most_h = std::max(most_h, month.open_h);
  }
  Drawing d(kPhoneWidth,
            "Hours of strong sun by month: " + grouped(here_h) + " of " + grouped(open_h) +
                " a year reach the spot");
  const double step_h = round_step(most_h, 4);
  const Axes axes{.left = 33,
                  .top = 18,
                  .width = kPhoneWidth - 37,
                  .height = 160,
                  .x_least = 0,
                  .x_most = 12,
                  .y_least = 0,
                  .y_most = step_h * std::ceil(most_h / step_h)};
  axes.rule(d, step_h, " h");
  axes.months(d);
  for (int month = 1; month <= 12; ++month)
    draw_sun_hours(d, axes, months[static_cast<std::size_t>(month - 1)], month);
  const double y = axes.bottom() + 24;
  d.box({axes.left, y, 12, 11}, "sun", 1);
  d.text({axes.left + 16, y + 9.5, "start", "small"}, "reaches the oven");
  d.box({axes.left + 110, y, 12, 11}, "lost");
  d.text({axes.left + 126, y + 9.5, "start", "small"}, "lost to obstructions");
  d.set_height(y + 18);
  return d;
}

Drawing beam_picture(const results::StoredSeason& season) {
  constexpr double kLeft = 33, kTop = 18, kRow = 17, kGap = 1.5;
  constexpr double kColumn = (kPhoneWidth - kLeft - 4) / kMonths;
  const BeamMap mean = mean_beam(season.result);
  Drawing d(kPhoneWidth,
            "Mean direct sunlight on the glass in each hour of the day, month by month, W/m2");
  for (int month = 1; month <= 12; ++month)
    d.text({kLeft + (month - 0.5) * kColumn, kTop - 6, "middle", "small"}, base::month_name(month));
  double y = kTop;
  for (std::size_t hour = 0; hour < kHours; ++hour) {
    if (dark(mean[hour])) continue;
    const double hour_s = static_cast<double>(hour) * base::kSecondsPerHour;
    d.text({kLeft - 4, y + 11.5, "end", "small"}, base::clock_text(hour_s));
    for (std::size_t month = 0; month < kMonths; ++month) {
      const Box cell{kLeft + static_cast<double>(month) * kColumn, y, kColumn - kGap, kRow - kGap};
      draw_beam_cell(d,
                     cell,
                     mean[hour][month],
                     std::string(base::month_name(static_cast<int>(month) + 1)) + " from " +
                         base::clock_text(hour_s));
    }
    y += kRow;
  }
  d.set_height(y + 4);
  return d;
}
}  // namespace ovendays::report
