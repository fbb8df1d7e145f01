// SPDX-License-Identifier: MIT
#include "cooks.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace ovendays::season {

task::CookSetup cook_setup(const Setup& setup, const PlannedCook& cook, std::size_t task) {
  task::CookSetup start;
  start.load_s = setup.load_times_s[cook.time];
  start.forcing = forcing_of(*cook.forcing, setup.load_of_task[task]);
  start.sunset_s = setup.sky_day(cook.day_index).light.sunset_s;
  // An oven that is not preheated is put out with the food, at air temperature.
  start.oven = setup.c->routine.preheat
                   ? cook.empty->at_load[cook.time]
                   : heat::uniform_state(air_at(*cook.forcing, start.load_s).start.ambient_K);
  return start;
}

std::vector<task::CookResult> run_planned_cooks(const Setup& setup,
                                                std::size_t task,
                                                std::span<const PlannedCook> cooks,
                                                const SeasonOptions& options,
                                                task::DominancePruning& pruning) {
  std::vector<task::CookSetup> starts;
  starts.reserve(cooks.size());
  for (const PlannedCook& cook : cooks) starts.push_back(cook_setup(setup, cook, task));
  std::vector<task::CookResult> results(cooks.size());
  task::run_cooks(setup.c->tasks[task],
                  setup.c->routine,
                  setup.models[task],
                  starts,
                  results,
                  options.integrator,
                  options.follow_all ? nullptr : &pruning);
  for (std::size_t i = 0; i < cooks.size(); ++i) {
    if (results[i].run.failed()) {
      fail_run("task '" + setup.c->tasks[task].name + "'",
               setup.sky_day(cooks[i].day_index).date,
               results[i].run);
    }
  }
  return results;
}

namespace {
// A quarter into the candidates is mid-morning with the default routine: the oven is warm, and most
// of the sun is still to come.
std::size_t first_tried(std::size_t times) { return times / 4; }

std::size_t times_before(const std::vector<double>& times, double finish_by_s) {
  return static_cast<std::size_t>(std::lower_bound(times.begin(), times.end(), finish_by_s) -
                                  times.begin());
}
}  // namespace

std::size_t usable_times(const Setup& setup, std::size_t task) {
  return times_before(setup.load_times_s, setup.c->tasks[task].finish_by_s);
}

double typical_load_s(const Case& c, std::size_t task) {
  const std::vector<double> times = task::loading_times(c.routine);
  const std::size_t usable = times_before(times, c.tasks[task].finish_by_s);
  return usable == 0 ? -1.0 : times[first_tried(usable)];
}

std::array<std::array<std::size_t, 2>, 4> rounds_of(std::size_t times, bool one_first) {
  const std::size_t first = first_tried(times);
  // Four times a day make full packs of lanes.
  const std::size_t last = std::min(first + 4, times);
  const std::size_t single_end = one_first ? std::min(first + 1, last) : first;
  return {{{first, single_end}, {single_end, last}, {last, times}, {0, first}}};
}

void remove_days(std::vector<std::size_t>& days, const std::vector<std::size_t>& found) {
  std::vector<std::size_t> rest;
  std::set_difference(
      days.begin(), days.end(), found.begin(), found.end(), std::back_inserter(rest));
  days = std::move(rest);
}
}  // namespace ovendays::season
