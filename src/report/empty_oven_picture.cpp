// SPDX-License-Identifier: MIT
#include <cmath>

#include "axes.h"
#include "pictures.h"

namespace ovendays::report {
namespace {
constexpr int kHalfSpan = 15;  // days either way of the running median

double peak_K(const season::SeasonResult& result, int day) {
  return static_cast<double>(result.day[static_cast<std::size_t>(day)].peak_air_K);
}

double warmest_K(const season::SeasonResult& result, int day) {
  double warmest = 0.0;
  const std::size_t first = static_cast<std::size_t>(day) * 24;
  for (std::size_t hour = first; hour < first + 24; ++hour)
    warmest = std::max(warmest, static_cast<double>(result.hours[hour].ambient_K));
  return warmest;
}

// The median wraps around the year, from December into January.
double running_median_K(const season::SeasonResult& result, int day) {
  std::vector<double> around;
  for (int other = day - kHalfSpan; other <= day + kHalfSpan; ++other)
    around.push_back(peak_K(result, (other + season::kDays) % season::kDays));
  return season::median(around);
}

// One bar for each day, from the outside air to the hottest air inside.
void draw_days(Drawing& d,
               const Axes& axes,
               const season::SeasonResult& result,
               TemperatureUnit unit) {
  for (int day = 0; day < season::kDays; ++day) {
    const double top = axes.y(degrees(peak_K(result, day), unit));
    const double foot =
        axes.y(degrees(std::min(peak_K(result, day), warmest_K(result, day)), unit));
    d.open(date_text(day) + ": " + temperature_text(peak_K(result, day), unit) +
           ", outside at most " + temperature_text(warmest_K(result, day), unit));
    d.box({axes.x(day), top, axes.width / season::kDays, std::max(0.5, foot - top)}, "s4");
    d.close();
  }
}

void draw_peaks(Drawing& d,
                const Axes& axes,
                const season::SeasonResult& result,
                TemperatureUnit unit) {
  Polyline usual;
  for (int day = 0; day < season::kDays; ++day)
    usual.emplace_back(axes.x(day + 0.5), axes.y(degrees(running_median_K(result, day), unit)));
  d.polyline(usual, "path");
  const double boiling = axes.y(degrees(result.boiling_K, unit));
  d.line(axes.left, boiling, axes.left + axes.width, boiling, "mark");
  d.box({axes.left + 3, boiling + 2, 132, 12}, "halo", 3);
  d.text({axes.left + 6, boiling + 11, "start", "small"},
         "water boils here at " + temperature_text(result.boiling_K, unit));
}
}  // namespace

Drawing empty_oven_picture(const results::StoredSeason& season, TemperatureUnit unit) {
  const season::SeasonResult& r = season.result;
  double least = degrees(r.boiling_K, unit);
  double most = least;
  for (int day = 0; day < season::kDays; ++day) {
    least = std::min(least, degrees(warmest_K(r, day), unit));
    most = std::max(most, degrees(peak_K(r, day), unit));
  }
  Drawing d(kPhoneWidth, "Hottest air of each day in the empty oven, through the year");
  const double step = round_step(most - least, 5);
  const Axes axes{.left = 38,
                  .top = 14,
                  .width = kPhoneWidth - 42,
                  .height = 170,
                  .x_least = 0,
                  .x_most = season::kDays,
                  .y_least = step * std::floor(least / step),
                  .y_most = step * std::ceil(most / step)};
  axes.rule(d, step, unit == TemperatureUnit::kCelsius ? " °C" : " °F");
  draw_days(d, axes, r, unit);
  draw_peaks(d, axes, r, unit);
  axes.months(d);
  const double y = axes.bottom() + 24;
  d.box({axes.left, y, 12, 11}, "s4");
  d.text({axes.left + 16, y + 9.5, "start", "small"}, "each day, up from the outside air");
  d.line(axes.left + 190, y + 6, axes.left + 214, y + 6, "path");
  d.text({axes.left + 218, y + 9.5, "start", "small"}, "median of a month");
  d.set_height(y + 18);
  return d;
}
}  // namespace ovendays::report
