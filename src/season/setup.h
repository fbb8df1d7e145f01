// SPDX-License-Identifier: MIT
// Everything of a season that does not change from day to day (optical tables, masks, heat models),
// and the forcing of blocks of days made from it. Private to season.
#pragma once

#include <functional>
#include <memory>
#include <span>
#include <vector>

#include "cache_parts.h"
#include "day_forcing.h"
#include "ovendays/heat/model.h"
#include "ovendays/season/parallel.h"
#include "ovendays/season/season.h"
#include "service_limits.h"

namespace ovendays::season {

struct Setup {
  Setup(const Case& the_case, int thread_count)
      : c(&the_case), threads(thread_count), scene(the_case.spot) {}

  const Case* c = nullptr;
  int threads = 1;
  spot::Scene scene;
  std::shared_ptr<const std::vector<sky::SkyDay>> sky_year;
  [[nodiscard]] const sky::SkyDay& sky_day(int day_index) const {
    return (*sky_year)[static_cast<std::size_t>(day_index)];
  }
  ForcingSetup forcing;
  std::vector<const oven::Vessel*> loads;  ///< nullptr first: the empty oven
  std::vector<std::string> load_names;
  std::vector<std::size_t> load_of_task;
  /// The first has all notches; it is that of the empty oven, and of the tasks that nothing limits.
  std::vector<AimGroup> groups;
  std::vector<std::size_t> group_of_task;
  [[nodiscard]] bool limited(std::size_t task) const { return group_of_task[task] > 0; }
  heat::HeatModel empty;
  std::vector<LayerFace> layer_faces;   ///< where the box may get too hot for its materials
  std::vector<heat::HeatModel> models;  ///< one per task
  std::vector<double> load_times_s;
  double boiling_K = 373.15;
  std::vector<Cause> stay_in;   ///< why nobody sets out to cook on a day; else kNone
  std::vector<bool> only_days;  ///< as SeasonOptions::only_days
  [[nodiscard]] bool simulated(int day_index) const {
    return only_days.empty() || only_days[static_cast<std::size_t>(day_index)];
  }
  /// Whether the oven is set out on a day that is simulated.
  [[nodiscard]] bool sets_out(int day_index) const {
    return stay_in[static_cast<std::size_t>(day_index)] == Cause::kNone && simulated(day_index);
  }
  BlockForcingKey block_key;    ///< of the forcing of blocks; first_day and count are to be set
  CacheParts* cache = nullptr;  ///< holds the forcing of blocks; nullptr: it is freed after use
};

/// @throws base::RunError
void make_setup(const Case& c,
                const weather::WeatherYear& year,
                const SeasonOptions& options,
                Setup& setup);

/// Forcing of the days first_day .. first_day + count - 1, from the cache where there is one.
std::shared_ptr<const BlockForcing> block_forcing(const Setup& setup, int first_day, int count);
}  // namespace ovendays::season
