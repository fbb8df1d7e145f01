// SPDX-License-Identifier: MIT
#include "trials.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace ovendays::season {

task::CookSetup cook_setup(const Setup& setup, const Trial& trial, std::size_t task) {
  task::CookSetup cook;
  cook.load_s = setup.load_times_s[trial.time];
  cook.forcing = forcing_of(*trial.day.forcing, setup.load_of_task[task]);
  cook.sunset_s = setup.sky_day(trial.day.index).light.sunset_s;
  cook.oven = setup.c->routine.preheat
                  ? trial.day.empty->at_load[trial.time]
                  : heat::uniform_state(air_at(*trial.day.forcing, cook.load_s).start.ambient_K);
  return cook;
}

std::vector<task::CookResult> cook_trials(const Setup& setup,
                                          std::size_t task,
                                          std::span<const Trial> trials,
                                          const SeasonOptions& options,
                                          task::Forerunners& forerunners) {
  std::vector<task::CookSetup> setups;
  setups.reserve(trials.size());
  for (const Trial& trial : trials) setups.push_back(cook_setup(setup, trial, task));
  std::vector<task::CookResult> results(trials.size());
  task::run_cooks(setup.c->tasks[task],
                  setup.c->routine,
                  setup.models[task],
                  setups,
                  results,
                  options.integrator,
                  options.follow_all ? nullptr : &forerunners);
  for (std::size_t i = 0; i < trials.size(); ++i) {
    if (results[i].run.failed()) {
      fail_run("task '" + setup.c->tasks[task].name + "'",
               setup.sky_day(trials[i].day.index).date,
               results[i].run);
    }
  }
  return results;
}

std::size_t usable_times(const Setup& setup, std::size_t task) {
  const std::vector<double>& times = setup.load_times_s;
  return static_cast<std::size_t>(
      std::lower_bound(times.begin(), times.end(), setup.c->tasks[task].finish_by_s) -
      times.begin());
}

std::array<std::array<std::size_t, 2>, 4> rounds_of(std::size_t times, bool one_ahead) {
  const std::size_t first = times / 4;
  const std::size_t last = std::min(first + 4, times);
  const std::size_t ahead = one_ahead ? std::min(first + 1, last) : first;
  return {{{first, ahead}, {ahead, last}, {last, times}, {0, first}}};
}

void take_out(std::vector<std::size_t>& days, const std::vector<std::size_t>& found) {
  std::vector<std::size_t> rest;
  std::set_difference(
      days.begin(), days.end(), found.begin(), found.end(), std::back_inserter(rest));
  days = std::move(rest);
}
}  // namespace ovendays::season
