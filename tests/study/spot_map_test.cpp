// SPDX-License-Identifier: MIT
// The map of a plot: symmetry, places far from everything, what is left out, the best places.
#include "ovendays/study/spot_map.h"
#include "catch.h"
#include "made_case.h"
#include "ovendays/spot/siting.h"
#include "thin_sun.h"

using namespace ovendays;
using namespace ovendays::study;
using test::quicker_options;
using test::thin_sun;
using test::within_abs;

namespace {
season::Case walled(const std::vector<spot::Obstruction>& obstructions) {
  season::Case c = test::small_case({"bread"});
  c.spot.obstructions = obstructions;
  c.spot.stated_shelter = 0.5;  // the same wind everywhere
  c.spot = spot::moved_to(c.spot, c.spot.mouth);
  return c;
}
}  // namespace

TEST_CASE("a place far from everything has the days of open ground", "[study][identity]") {
  season::Case c = walled({spot::Block{.name = "", .x_m = 0, .y_m = -4, .width_m = 8}});
  const weather::WeatherYear year = thin_sun();
  // Two kilometres north, a house 3 m high is below any sun that counts (0.1 deg).
  const MapGrid grid{.step_m = 1.0, .x_m = {0.0}, .y_m = {-1.0, 2000.0}};
  const SpotMap map = map_places(c, year, 0, grid, {quicker_options(), 0.3});
  season::Case open = c;
  open.spot.obstructions.clear();
  open.spot = spot::moved_to(open.spot, {0.0, 2000.0, 0.9});
  const season::TaskCounts counts =
      season::count_task(season::run_season(open, year, quicker_options()), 0);
  for (std::size_t m = 0; m < 13; ++m) CHECK(map.at(0, 1).days[m] == counts.outcomes[m][0]);
  CHECK(map.at(0, 0).days[12] < map.at(0, 1).days[12]);  // a metre behind the house
}

TEST_CASE("a plot that equals its mirror image gives a map that does", "[study][identity]") {
  // What the plot alone decides is mirrored to rounding. Days are not, and need not be: a morning's
  // sun finds a cold oven, an afternoon's a warm one.
  const season::Case c = [] {
    season::Case made = walled({spot::Bay{.name = "", .x_m = 0, .y_m = 1},
                                spot::Tree{.name = "", .x_m = -4, .y_m = -3},
                                spot::Tree{.name = "", .x_m = 4, .y_m = -3}});
    made.spot.stated_shelter.reset();
    return made;
  }();
  const MapGrid grid{.step_m = 1.0, .x_m = {-4.0, -2.5, -1.0, 1.0, 2.5, 4.0}, .y_m = {-3.0, 3.0}};
  const SpotMap map = map_places(c, thin_sun(), 0, grid, {quicker_options(), 0.3});
  for (std::size_t row = 0; row < 2; ++row) {
    for (std::size_t i = 0; i < 3; ++i) {
      const MapPlace& west = map.at(i, row);
      const MapPlace& east = map.at(5 - i, row);
      CHECK(west.free == east.free);
      CHECK(west.roofed == east.roofed);
      CHECK_THAT(west.wind_factor, within_abs(east.wind_factor, 1e-12));  // sums in another order
    }
  }
  CHECK_FALSE(map.at(0, 0).free);  // a trunk
  CHECK(map.at(2, 1).roofed);      // in the bay
}

TEST_CASE("a map moves with its plot", "[study][identity]") {
  // Whole metres, so that no coordinate is rounded: the same bits.
  const spot::Wall wall{.name = "", .x1_m = -3, .y1_m = -2, .x2_m = 5, .y2_m = -2, .top_m = 4};
  const season::Case c = walled({wall});
  const MapGrid grid{.step_m = 1.0, .x_m = {0.0, 4.0}, .y_m = {-1.0, 0.0}};
  const SpotMap map = map_places(c, thin_sun(), 0, grid, {quicker_options(), 0.3});
  spot::Wall moved = wall;
  moved.x1_m += 16.0;
  moved.x2_m += 16.0;
  moved.y1_m -= 8.0;
  moved.y2_m -= 8.0;
  const MapGrid there{.step_m = 1.0, .x_m = {16.0, 20.0}, .y_m = {-9.0, -8.0}};
  const SpotMap same = map_places(walled({moved}), thin_sun(), 0, there, {quicker_options(), 0.3});
  for (std::size_t i = 0; i < 4; ++i) CHECK(same.places[i].days == map.places[i].days);
  CHECK(map.at(0, 0).days[12] < map.at(0, 1).days[12]);  // nearer to the wall
}

TEST_CASE("a map is the same at any thread count", "[study][determinism]") {
  season::Case c = walled({spot::Tree{.name = "", .x_m = 1.0, .y_m = -2.0}});
  const MapGrid grid = map_grid({-1.0, 1.0, -2.0, 0.0}, c.spot.mouth, 1.0);
  MapOptions how{quicker_options(), 0.3};
  how.season.threads = 1;
  const SpotMap one = map_places(c, thin_sun(), 0, grid, how);
  how.season.threads = 3;
  const SpotMap three = map_places(c, thin_sun(), 0, grid, how);
  for (std::size_t i = 0; i < one.places.size(); ++i) {
    CHECK(one.places[i].free == three.places[i].free);
    CHECK(one.places[i].days == three.places[i].days);
  }
  // The trunk's place has no room; its neighbours, a metre off, do.
  CHECK_FALSE(one.at(2, 0).free);
  CHECK(one.at(1, 0).free);
  CHECK(one.here.days == one.at(1, 2).days);  // the case's own place is on the grid
}

TEST_CASE("an oven that cannot turn gets the facing that its sun comes from", "[study][unit]") {
  // A house close to the south-west hides the afternoon: the morning's side is left.
  season::Case c = walled({spot::Block{
      .name = "", .x_m = -4.5, .y_m = -4.0, .width_m = 8, .depth_m = 4, .height_m = 9}});
  c.tasks = test::small_case({"eggs"}).tasks;
  c.oven.aim.turns = false;
  const MapGrid grid{.step_m = 1.0, .x_m = {0.5}, .y_m = {-1.0}};
  const SpotMap map = map_places(c, thin_sun(0.8), 0, grid, {quicker_options(), 0.3});
  CHECK_FALSE(map.turns);
  const MapPlace& place = map.at(0, 0);
  REQUIRE(place.days[12] > 0);
  CHECK(place.facing_rad > 0.45 * base::kPi);
  CHECK(place.facing_rad < 1.01 * base::kPi);
  // No facing of those tried does better: by running them.
  season::Case fixed = c;
  fixed.spot = spot::moved_to(c.spot, {0.5, -1.0, 0.9});
  fixed.routine.re_aim = task::ReAim::kNever;
  for (const double facing : {0.75 * base::kPi, base::kPi, 1.25 * base::kPi}) {
    fixed.routine.facing_rad = facing;
    CHECK(test::cooked_days(season::run_season(fixed, thin_sun(0.8), quicker_options()), 0) <=
          place.days[12]);
  }
}

TEST_CASE("a grid goes through the case's own place and stays on the plot", "[study][unit]") {
  const MapGrid grid = map_grid({-1.0, 2.2, 0.0, 1.0}, {0.1, 0.6, 0.9}, 0.5);
  REQUIRE(grid.x_m.size() == 7);                          // -0.9, -0.4, 0.1, .. 2.1
  CHECK_THAT(grid.x_m.front(), within_abs(-0.9, 1e-12));  // rounding
  CHECK_THAT(grid.x_m.back(), within_abs(2.1, 1e-12));
  CHECK(grid.x_m[2] == 0.1);
  REQUIRE(grid.y_m.size() == 2);  // 0.1, 0.6
}

TEST_CASE("the default plot includes near obstructions and ignores far ones", "[study][unit]") {
  spot::Spot spot;
  CHECK(usual_plot(spot).west_m == -4.5);  // 3 m and a margin of 1.5 m
  spot.obstructions = {spot::Block{.name = "", .x_m = 8, .y_m = 0, .width_m = 4, .depth_m = 2},
                       spot::Block{.name = "", .x_m = 0, .y_m = 90, .width_m = 4, .depth_m = 2},
                       spot::Wall{.name = "", .x1_m = -60, .y1_m = 5, .x2_m = 2, .y2_m = 5}};
  const Plot plot = usual_plot(spot);
  CHECK(plot.east_m == 11.5);   // the near house and the margin
  CHECK(plot.north_m == 6.5);   // the wall; not the house 90 m off
  CHECK(plot.west_m == -16.5);  // the wall as far as 15 m
}

TEST_CASE("the best places are the best, apart, and near at equal days", "[study][unit]") {
  SpotMap map;
  map.grid = {.step_m = 1.0, .x_m = {0, 1, 2, 3, 4}, .y_m = {0.0}};
  map.mouth = {3.0, 0.0, 0.9};
  const int days[] = {300, 320, 320, 300, 0};
  for (const int of_year : days) {
    MapPlace place;
    place.free = true;
    place.days[12] = of_year;
    map.places.push_back(place);
  }
  // 320 twice: the nearer to x = 3 comes first and keeps its neighbours off.
  CHECK(best_places(map, periods()[0], 3, 2.0) == std::vector<std::size_t>{2, 0});
  CHECK(best_places(map, periods()[0], 3, 1.0) == std::vector<std::size_t>{2, 1, 3});
  map.places[2].free = false;
  CHECK(best_places(map, periods()[0], 1, 1.0) == std::vector<std::size_t>{1});
}
