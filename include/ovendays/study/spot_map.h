// SPDX-License-Identifier: MIT
// Where on the plot to put the oven: one season for each standing place of a grid, everything else
// as in the case. Only what the place decides changes: what is seen of sun and sky, wind, rain.
// World axes x east, y north [m]; the ground is level. Thread-safe: yes.
#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <vector>

#include "ovendays/season/season.h"
#include "ovendays/spot/plan.h"

namespace ovendays::study {

/// The plot's edges [m].
struct Plot {
  double west_m = 0.0, east_m = 0.0, south_m = 0.0, north_m = 0.0;
};
/// The surroundings of the case's own place: 3 m each way, wider to hold what stands within 12 m of
/// it (no farther than 15 m), and a margin of 1.5 m.
Plot usual_plot(const spot::Spot& spot);

inline constexpr std::size_t kMostPlaces = 20000;

/// Places a step apart; the case's own place is one of them wherever it lies on the plot.
struct MapGrid {
  double step_m = 0.5;
  std::vector<double> x_m;  ///< ascending
  std::vector<double> y_m;
  [[nodiscard]] std::size_t places() const { return x_m.size() * y_m.size(); }
};
/// @param step_m above 0. The grid is empty where no place falls on the plot.
MapGrid map_grid(const Plot& plot, const base::Point& mouth, double step_m);
/// How many places map_grid would make, without making them.
double count_places(const Plot& plot, double step_m);

struct MapPlace {
  bool free = false;           ///< there is room to stand
  double facing_rad = -1.0;    ///< best of those tried where the oven does not turn; else < 0
  double wind_factor = 0.0;    ///< see spot::Spot
  bool roofed = false;         ///< rain does not reach it
  std::array<int, 13> days{};  ///< days cooked by month; index 12 the year
};

struct SpotMap {
  MapGrid grid;
  std::vector<MapPlace> places;  ///< row by row from the south, each from west to east
  bool turns = true;             ///< the oven follows the sun; else each place has its facing
  base::Point mouth;             ///< the case's own place
  MapPlace here;                 ///< what the map says of it, on the grid or not

  [[nodiscard]] const MapPlace& at(std::size_t column, std::size_t row) const {
    return places[row * grid.x_m.size() + column];
  }
};

struct MapOptions {
  season::SeasonOptions season;  ///< threads and progress are of all places together
  double room_m = 0.4;           ///< least distance to walls, blocks and trunks
};

/// Room that the case's oven needs: half the diagonal of its box's outside, so that it can turn.
/// Flaps count for nothing: they stand above what is near.
double room_needed_m(const oven::OvenDesign& oven);

/// Runs all places for one task. Where the oven does not turn (its design, or a routine that never
/// aims) each place takes the facing with most days in the year of eight around the compass and
/// the two halfway to the neighbours of the best; of equal ones the first from the equator's side.
/// @throws base::RunError as run_season does
SpotMap map_places(const season::Case& c,
                   const weather::WeatherYear& year,
                   std::size_t task,
                   const MapGrid& grid,
                   const MapOptions& options);

/// A part of the year.
struct Period {
  const char* name;
  std::array<int, 3> months;  ///< 1..12; {0, 0, 0} the whole year
};
/// The year and four seasons, January's first: the winter place need not be the summer place.
const std::array<Period, 5>& periods();
int days_in(const MapPlace& place, const Period& period);

/// The best places of a period, best first, at least `apart_m` from each other; of equal ones the
/// nearest to the case's own place. Indices into SpotMap::places; places without a day are left
/// out.
std::vector<std::size_t> best_places(const SpotMap& map,
                                     const Period& period,
                                     std::size_t most,
                                     double apart_m);
}  // namespace ovendays::study
