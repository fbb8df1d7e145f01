// SPDX-License-Identifier: MIT
// Where on the plot to put the oven: simulates one season for each place of a grid. The place
// decides how much of sun and sky the oven sees, and its wind and rain; everything else is as in
// the case. World axes x east, y north [m]; the ground is level. Thread-safe: yes.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <vector>

#include "ovendays/season/season.h"
#include "ovendays/spot/plan_view.h"

namespace ovendays::study {

/// Edges of the plot [m].
struct Plot {
  double west_m = 0.0, east_m = 0.0, south_m = 0.0, north_m = 0.0;
};
/// Default plot: 3 m around the case's own place, extended to include everything that stands within
/// 12 m of it (but at most 15 m away), plus a margin of 1.5 m.
Plot usual_plot(const spot::Spot& spot);

inline constexpr std::size_t kMostPlaces = 20000;

/// Places at equal distances. The case's own place is one of them if it lies on the plot.
struct MapGrid {
  double step_m = 0.5;
  std::vector<double> x_m;  ///< ascending
  std::vector<double> y_m;
  [[nodiscard]] std::size_t places() const { return x_m.size() * y_m.size(); }
};
/// The grid through `mouth` on a plot; empty if no place falls on the plot. @param step_m above 0
MapGrid map_grid(const Plot& plot, const base::Point& mouth, double step_m);
/// Number of places that map_grid would make.
double count_places(const Plot& plot, double step_m);

struct MapPlace {
  bool free = false;           ///< whether there is room for the oven
  double facing_rad = -1.0;    ///< best facing if the oven does not turn; otherwise < 0
  double wind_factor = 0.0;    ///< as in spot::Spot
  bool roofed = false;         ///< whether rain cannot reach the oven
  std::array<int, 13> days{};  ///< days cooked by month; index 12 is the year
};

struct SpotMap {
  MapGrid grid;
  std::vector<MapPlace> places;  ///< row by row from the south, west to east
  bool turns = true;  ///< whether the oven follows the sun; if not, each place has its facing
  base::Point mouth;  ///< the case's own place
  MapPlace here;      ///< result for the case's own place, even if it is not on the grid

  [[nodiscard]] const MapPlace& at(std::size_t column, std::size_t row) const {
    return places[row * grid.x_m.size() + column];
  }
};

struct MapOptions {
  season::SeasonOptions season;  ///< threads and progress refer to all places together
  double room_m = 0.4;           ///< smallest distance to walls, blocks and trunks
};

/// Distance that the oven needs to obstacles so that it can turn [m]: half the outer diagonal of
/// its box. Flaps are ignored, because they extend above nearby obstacles.
double room_needed_m(const oven::OvenDesign& oven);

/// Simulates all places for one task. If the oven does not turn (by its design, or because the
/// routine never aims), each place gets the facing with most days among eight around the compass
/// and the two midway between the best and its neighbours; ties go to the one nearest to the
/// equator.
/// @param task index of a task of the case
/// @throws base::RunError as run_season does
SpotMap map_places(const season::Case& c,
                   const weather::WeatherYear& year,
                   std::size_t task,
                   const MapGrid& grid,
                   const MapOptions& options);

/// A part of the year, for which the best places are listed.
struct Period {
  const char* name;
  std::array<int, 3> months;  ///< 1..12; {0, 0, 0} for the whole year
};
/// The year and its four quarters from December on; the best place may differ between them.
const std::array<Period, 5>& periods();
/// Days cooked at a place in a period.
int days_in(const MapPlace& place, const Period& period);

/// The best places of a period, at least `apart_m` from each other, as indices into
/// SpotMap::places. Ties go to the place nearest to the case's own. Places without a single day are
/// left out.
/// @param most largest number of places
std::vector<std::size_t> best_places(const SpotMap& map,
                                     const Period& period,
                                     std::size_t most,
                                     double apart_m);
}  // namespace ovendays::study
