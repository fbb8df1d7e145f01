// SPDX-License-Identifier: MIT
#include "ovendays/study/spot_map.h"

#include <cmath>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/season/parallel.h"
#include "ovendays/season/season_cache.h"
#include "ovendays/spot/siting.h"

namespace ovendays::study {
namespace {

constexpr int kFacings = 8;

// Whether the oven follows the sun; otherwise each place needs a facing of its own.
bool oven_turns(const season::Case& c) {
  return c.oven.aim.turns && c.routine.re_aim != task::ReAim::kNever;
}

// Reduces an azimuth to [0, 2 pi).
double compass(double azimuth_rad) {
  const double turns = azimuth_rad / base::kTwoPi;
  return (turns - std::floor(turns)) * base::kTwoPi;
}

/// Simulates one place; many threads may use one object.
class PlaceRun {
 public:
  PlaceRun(const season::Case& c,
           const weather::WeatherYear& year,
           std::size_t task,
           const MapOptions& options)
      : case_(c), year_(year), options_(options.season), room_m_(options.room_m) {
    case_.tasks = {c.tasks[task]};
    // Each season uses one thread, because the places are distributed over the threads. One cache
    // serves all places: sky and optics do not depend on the place.
    options_.threads = 1;
    options_.causes = false;
    options_.days_only = options_.outcomes_only = true;
    options_.cache = &cache_;
    options_.progress = {};
  }

  /// Skips a place without room, unless it is the case's own place.
  [[nodiscard]] MapPlace run(const base::Point& mouth, bool even_without_room) const {
    MapPlace place;
    season::Case c = case_;
    c.spot = spot::moved_to(case_.spot, mouth);
    place.free = spot::clearance_m(c.spot, mouth) >= room_m_;
    if (!place.free && !even_without_room) return place;
    place.wind_factor = c.spot.wind_factor;
    place.roofed = c.spot.roofed;
    if (oven_turns(c)) {
      place.days = days(c);
    } else {
      face(c, place);
    }
    return place;
  }

 private:
  [[nodiscard]] std::array<int, 13> days(const season::Case& c) const {
    return season::cooked_by_month(season::run_season(c, year_, options_), 0);
  }

  // Tries facings from the equator's side outwards, so that ties go to the facing nearest to it,
  // and then refines the best one by half a step.
  void face(season::Case& c, MapPlace& place) const {
    c.routine.re_aim = task::ReAim::kNever;
    const auto attempt = [&](double azimuth_rad) {
      c.routine.facing_rad = compass(azimuth_rad);
      const std::array<int, 13> tried = days(c);
      if (place.facing_rad >= 0.0 && tried[12] <= place.days[12]) return;
      place.days = tried;
      place.facing_rad = c.routine.facing_rad;
    };
    const double equator_rad = year_.place.latitude_rad < 0.0 ? 0.0 : base::kPi;
    constexpr double kStep_rad = base::kTwoPi / kFacings;
    attempt(equator_rad);
    for (int i = 1; i <= kFacings / 2; ++i) {
      attempt(equator_rad - i * kStep_rad);
      if (2 * i < kFacings) attempt(equator_rad + i * kStep_rad);
    }
    const double best_rad = place.facing_rad;
    attempt(best_rad - 0.5 * kStep_rad);
    attempt(best_rad + 0.5 * kStep_rad);
  }

  season::SeasonCache cache_;  // the sky and the oven's optics are the same everywhere
  season::Case case_;
  const weather::WeatherYear& year_;
  season::SeasonOptions options_;
  double room_m_;
};
}  // namespace

double room_needed_m(const oven::OvenDesign& oven) {
  double wall_m = 0.0;
  for (const oven::Layer& layer : oven.box.wall) wall_m += layer.thickness_m;
  return 0.5 *
         std::hypot(oven.box.inner_width_m + 2.0 * wall_m, oven.box.inner_depth_m + 2.0 * wall_m);
}

SpotMap map_places(const season::Case& c,
                   const weather::WeatherYear& year,
                   std::size_t task,
                   const MapGrid& grid,
                   const MapOptions& options) {
  OVENDAYS_CHECK(task < c.tasks.size());
  SpotMap map;
  map.grid = grid;
  map.turns = oven_turns(c);
  map.mouth = c.spot.mouth;
  map.places.resize(grid.places());
  const PlaceRun place(c, year, task, options);
  map.here = place.run(c.spot.mouth, true);
  const int count = static_cast<int>(grid.places());
  season::Progress progress(count, options.season.progress);
  season::parallel(count, season::thread_count(options.season.threads), [&](int i) {
    const auto index = static_cast<std::size_t>(i);
    const base::Point mouth{
        grid.x_m[index % grid.x_m.size()], grid.y_m[index / grid.x_m.size()], c.spot.mouth.z};
    map.places[index] = place.run(mouth, false);
    progress.add();
  });
  return map;
}
}  // namespace ovendays::study
