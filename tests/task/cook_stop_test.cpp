// SPDX-License-Identifier: MIT
// What ends a cook other than its success, and what opening the lid costs.
#include "catch.h"
#include "cook_trial.h"

using namespace ovendays;
using namespace ovendays::test;

TEST_CASE("a cook that needs a minute more than it has is not done", "[task][unit]") {
  CookTrial trial;
  const task::CookResult r = trial.cook();
  REQUIRE(r.done);
  trial.task.finish_by_s = r.finish_s + 60.0;
  const task::CookResult in_time = trial.cook();
  CHECK(in_time.done);
  // Ends of steps move with the end of the run, so the finish does by a second or so.
  CHECK_THAT(in_time.finish_s, within_abs(r.finish_s, 5.0));
  trial.task.finish_by_s = r.finish_s - 60.0;
  const task::CookResult late = trial.cook();
  CHECK_FALSE(late.done);
  CHECK(late.run.end_s <= trial.task.finish_by_s + 1e-9);
  CHECK(late.peak_core_K < trial.task.target_K);
  CHECK(late.peak_core_K > trial.task.target_K - 3.0);  // a minute short, at about 1 K/min
}

TEST_CASE("every opening of the lid costs time", "[task][unit]") {
  CookTrial trial;
  trial.task.target_K = kC + 90.0;
  const double shut_s = trial.cook().finish_s;
  trial.routine.lid_open_s = 60.0;
  const task::CookResult loading = trial.cook();
  trial.routine.lid_open_after_s = {1800.0};
  const task::CookResult one_look = trial.cook();
  trial.routine.lid_open_after_s = {1800.0, 2700.0};
  const task::CookResult two_looks = trial.cook();
  REQUIRE((loading.done && one_look.done && two_looks.done));
  CHECK(loading.finish_s > shut_s + 10.0);
  CHECK(one_look.finish_s > loading.finish_s + 10.0);
  CHECK(two_looks.finish_s > one_look.finish_s + 10.0);
  CHECK(one_look.run.audit.out_J > loading.run.audit.out_J);
}

TEST_CASE("nobody opens the lid while nobody is home", "[task][unit]") {
  CookTrial trial;
  trial.task.target_K = kC + 90.0;
  trial.routine.lid_open_s = 60.0;
  const task::CookResult none = trial.cook();
  trial.routine.lid_open_after_s = {1800.0};
  trial.routine.home_until_s = trial.load_s + 1200.0;
  const task::CookResult away = trial.cook();
  CHECK(away.finish_s == none.finish_s);
  trial.routine.home_until_s = trial.load_s + 1800.0;
  CHECK(trial.cook().finish_s > none.finish_s);
  trial.routine.home_until_s = 86400.0;
  trial.routine.home_from_s = trial.load_s + 1900.0;
  CHECK(trial.cook().finish_s == none.finish_s);
}

TEST_CASE("after sunset a cook that cools below its target is given up", "[task][unit]") {
  CookTrial trial;
  trial.load_s = 0.0;
  trial.task.target_K = kC + 85.0;
  trial.task.hold_s = 6.0 * 3600;
  trial.sunset_s = 3.0 * 3600;
  for (std::size_t i = 18; i < trial.sun.gains.size(); ++i) trial.sun.gains[i] = {};
  const task::CookResult r = trial.cook();
  CHECK_FALSE(r.done);
  CHECK(r.run.reason == heat::StopReason::kWatcherStopped);
  CHECK(r.run.end_s > trial.sunset_s);
  CHECK(r.run.end_s < trial.task.finish_by_s - 3600.0);
  CHECK(r.peak_core_K > trial.task.target_K);
  CHECK(r.hold_s > 60.0);
  // What it kept of the heat counts: the hold is that of the run to the end.
  const Seconds fine = fine_run(trial);
  double held_s = 0.0;
  for (const double K : fine.core_K) held_s += K >= trial.task.target_K;
  CHECK_THAT(r.hold_s, within_abs(held_s, 15.0));  // the slow way down crosses at 0.3 K/min
}

TEST_CASE("after sunset a core still hot enough may finish its hold", "[task][unit]") {
  CookTrial trial;
  trial.load_s = 0.0;
  trial.task.target_K = kC + 65.0;
  trial.sunset_s = 3.0 * 3600;
  for (std::size_t i = 18; i < trial.sun.gains.size(); ++i) trial.sun.gains[i] = {};
  const double reached_s = trial.cook().finish_s;
  REQUIRE(reached_s > 0.0);
  trial.task.hold_s = trial.sunset_s - reached_s + 600.0;
  const task::CookResult r = trial.cook();
  REQUIRE(r.done);
  CHECK_THAT(r.finish_s, within_abs(trial.sunset_s + 600.0, 5.0));
}

TEST_CASE("cooks side by side come out as alone", "[task][determinism]") {
  CookTrial trial;
  trial.task.hold_s = 600.0;
  std::vector<task::CookSetup> setups;
  for (int i = 0; i < 19; ++i) {  // more than one pack
    setups.push_back(trial.setup());
    setups.back().load_s = 700.0 * i;
    setups.back().oven = heat::uniform_state(300.0 + 5.0 * i);
  }
  std::vector<task::CookResult> together(setups.size());
  task::run_cooks(trial.task, trial.routine, trial.model, setups, together, {});
  for (std::size_t i = 0; i < setups.size(); ++i) {
    task::CookResult alone;
    task::run_cooks(trial.task, trial.routine, trial.model, {&setups[i], 1}, {&alone, 1}, {});
    CHECK(alone.done == together[i].done);
    CHECK(alone.finish_s == together[i].finish_s);
    CHECK(alone.danger_s == together[i].danger_s);
    CHECK(alone.hold_s == together[i].hold_s);
    CHECK(alone.peak_core_K == together[i].peak_core_K);
    CHECK(alone.evaporated_kg == together[i].evaporated_kg);
  }
}

TEST_CASE("a cook comes out the same whether every step is looked at or only those that matter",
          "[task][unit]") {
  struct Counting : heat::StepWatcher {
    bool on_step(const heat::Step&) override {
      ++steps;
      return true;
    }
    int steps = 0;
  };
  for (const double hold_s : {0.0, 600.0, 3600.0, 86400.0}) {
    CookTrial trial;
    trial.task.hold_s = hold_s;
    const task::CookResult quiet = trial.cook();
    Counting all;
    const task::CookResult watched = trial.cook(&all);
    INFO("hold " << hold_s << " s");
    CHECK(all.steps == watched.run.steps);
    CHECK(quiet.run.steps == watched.run.steps);
    CHECK(quiet.done == watched.done);
    CHECK_THAT(quiet.finish_s, within_abs(watched.finish_s, 1e-6));
    CHECK_THAT(quiet.hold_s, within_abs(watched.hold_s, 1e-6));
    CHECK_THAT(quiet.danger_s, within_abs(watched.danger_s, 1e-6));
    CHECK_THAT(quiet.air_s, within_abs(watched.air_s, 1e-6));
    CHECK(quiet.peak_core_K == watched.peak_core_K);
    CHECK(quiet.boiling_from_s == watched.boiling_from_s);
    CHECK_THAT(quiet.evaporated_kg, within_abs(watched.evaporated_kg, 1e-12));
  }
}

TEST_CASE("a failed integration is reported, not thrown", "[task][unit]") {
  CookTrial trial;
  heat::IntegratorOptions options;
  options.tolerance_K = 1e-12;
  options.shortest_step_s = 5.0;
  const task::CookSetup setup = trial.setup();
  task::CookResult r;
  task::run_cooks(trial.task, trial.routine, trial.model, {&setup, 1}, {&r, 1}, options);
  CHECK(r.run.failed());
  CHECK_FALSE(r.done);
}
