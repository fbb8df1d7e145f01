// SPDX-License-Identifier: MIT
// The grid of places on the plot, and the choice of the best ones.
#include <algorithm>
#include <cmath>

#include "ovendays/base/check.h"
#include "ovendays/study/spot_map.h"

namespace ovendays::study {
namespace {

// Extents of the default plot: at least kAround_m each way; obstructions within kNear_m extend it,
// up to kFarthest_m; kMargin_m beyond that. Judgement.
constexpr double kAround_m = 3.0, kNear_m = 12.0, kFarthest_m = 15.0, kMargin_m = 1.5;
// Keeps a place on the edge of the plot in the grid in spite of rounding.
constexpr double kSlack = 1e-9;

// Values from from_m to to_m that differ from through_m by whole steps. Counting whole steps from
// through_m keeps the case's own place exactly on the grid.
std::vector<double> steps_between(double from_m, double to_m, double through_m, double step_m) {
  std::vector<double> values;
  const auto first = static_cast<long>(std::ceil((from_m - through_m) / step_m - kSlack));
  const auto last = static_cast<long>(std::floor((to_m - through_m) / step_m + kSlack));
  for (long i = first; i <= last; ++i) {
    values.push_back(through_m + static_cast<double>(i) * step_m);
  }
  return values;
}
}  // namespace

Plot usual_plot(const spot::Spot& spot) {
  const base::Point& mouth = spot.mouth;
  Plot plot{mouth.x - kAround_m, mouth.x + kAround_m, mouth.y - kAround_m, mouth.y + kAround_m};
  for (const spot::Obstruction& obstruction : spot.obstructions) {
    base::Point low{1e300, 1e300, 0.0};
    base::Point high{-1e300, -1e300, 0.0};
    for (const spot::PlanLine& line : spot::plan_view(obstruction)) {
      for (const base::Point& p : line.points) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y), 0.0};
        high = {std::max(high.x, p.x), std::max(high.y, p.y), 0.0};
      }
    }
    // Distance from the mouth to the bounding box of the obstruction, zero inside it.
    const double aside_m = std::max({0.0, low.x - mouth.x, mouth.x - high.x});
    const double along_m = std::max({0.0, low.y - mouth.y, mouth.y - high.y});
    if (std::hypot(aside_m, along_m) > kNear_m) continue;
    plot.west_m = std::min(plot.west_m, std::max(low.x, mouth.x - kFarthest_m));
    plot.east_m = std::max(plot.east_m, std::min(high.x, mouth.x + kFarthest_m));
    plot.south_m = std::min(plot.south_m, std::max(low.y, mouth.y - kFarthest_m));
    plot.north_m = std::max(plot.north_m, std::min(high.y, mouth.y + kFarthest_m));
  }
  plot.west_m -= kMargin_m;
  plot.east_m += kMargin_m;
  plot.south_m -= kMargin_m;
  plot.north_m += kMargin_m;
  return plot;
}

double count_places(const Plot& plot, double step_m) {
  return (std::floor((plot.east_m - plot.west_m) / step_m) + 1.0) *
         (std::floor((plot.north_m - plot.south_m) / step_m) + 1.0);
}

MapGrid map_grid(const Plot& plot, const base::Point& mouth, double step_m) {
  OVENDAYS_CHECK(step_m > 0.0 && count_places(plot, step_m) <= 4.0 * kMostPlaces);
  return {.step_m = step_m,
          .x_m = steps_between(plot.west_m, plot.east_m, mouth.x, step_m),
          .y_m = steps_between(plot.south_m, plot.north_m, mouth.y, step_m)};
}

const std::array<Period, 5>& periods() {
  static const std::array<Period, 5> all = {{{"the year", {0, 0, 0}},
                                             {"December to February", {12, 1, 2}},
                                             {"March to May", {3, 4, 5}},
                                             {"June to August", {6, 7, 8}},
                                             {"September to November", {9, 10, 11}}}};
  return all;
}

int days_in(const MapPlace& place, const Period& period) {
  if (period.months[0] == 0) return place.days[12];
  int days = 0;
  for (const int month : period.months) days += place.days[static_cast<std::size_t>(month - 1)];
  return days;
}

std::vector<std::size_t> best_places(const SpotMap& map,
                                     const Period& period,
                                     std::size_t most,
                                     double apart_m) {
  const std::size_t columns = map.grid.x_m.size();
  const auto x_m = [&](std::size_t i) { return map.grid.x_m[i % columns]; };
  const auto y_m = [&](std::size_t i) { return map.grid.y_m[i / columns]; };
  const auto from_here_m = [&](std::size_t i) {
    return std::hypot(x_m(i) - map.mouth.x, y_m(i) - map.mouth.y);
  };
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < map.places.size(); ++i) {
    if (map.places[i].free && days_in(map.places[i], period) > 0) order.push_back(i);
  }
  // A stable sort makes the result independent of the library: equal places keep the grid's order.
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const int more = days_in(map.places[a], period) - days_in(map.places[b], period);
    return more != 0 ? more > 0 : from_here_m(a) < from_here_m(b) - kSlack;
  });
  // Skip places next to better ones; otherwise the list would show one good corner several times.
  std::vector<std::size_t> best;
  for (const std::size_t i : order) {
    const bool crowded = std::any_of(best.begin(), best.end(), [&](std::size_t other) {
      return std::hypot(x_m(i) - x_m(other), y_m(i) - y_m(other)) < apart_m - kSlack;
    });
    if (crowded) continue;
    best.push_back(i);
    if (best.size() == most) break;
  }
  return best;
}
}  // namespace ovendays::study
