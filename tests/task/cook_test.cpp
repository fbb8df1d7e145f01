// SPDX-License-Identifier: MIT
// When a cook counts as done: target, hold, oven air and danger zone, against the same run counted
// second by second.
#include "catch.h"
#include "cook_trial.h"

using namespace ovendays;
using namespace ovendays::test;

namespace {
// Errors of the step control (0.02 K a step) over the slope at the target (1 K/min): 1 to 2 s.
constexpr double kLocated_s = 5.0;

/// Sun that goes away for 50 min in the middle: the core falls below a high target and comes back.
CookTrial broken_sun() {
  CookTrial trial;
  trial.load_s = 0.0;
  trial.task.target_K = kC + 85.0;
  for (std::size_t i = 0; i < trial.sun.gains.size(); ++i) {
    if (i < 14 || i >= 19) continue;
    trial.sun.gains[i].start_W.fill(0.0);
    trial.sun.gains[i].end_W.fill(0.0);
  }
  return trial;
}
}  // namespace

TEST_CASE("a cook is done when the core reaches its target", "[task][identity]") {
  CookTrial trial;
  const Seconds fine = fine_run(trial);
  const task::CookResult r = trial.cook();
  REQUIRE(r.done);
  const double expected_s = hold_met_s(fine.core_K, trial.task.target_K, 0.0, false);
  REQUIRE(expected_s > 600.0);
  CHECK_THAT(r.finish_s - trial.load_s, within_abs(expected_s, kLocated_s));
  CHECK(r.peak_core_K >= trial.task.target_K);
  CHECK(r.run.reason == heat::StopReason::kWatcherStopped);
  CHECK(r.run.end_s >= r.finish_s);
}

TEST_CASE("the core of a solid decides, not its rim", "[task][identity]") {
  CookTrial trial;
  trial.model = made_network(1, true);
  const Seconds fine = fine_run(trial);
  const task::CookResult r = trial.cook();
  REQUIRE(r.done);
  CHECK_THAT(r.finish_s - trial.load_s,
             within_abs(hold_met_s(fine.core_K, trial.task.target_K, 0.0, false), kLocated_s));
  CookTrial rim = trial;
  rim.model.shells = false;  // asks the food node, the outermost of the same network
  CHECK(rim.cook().finish_s < r.finish_s - 300.0);
}

TEST_CASE("a hold adds up over breaks unless it must be unbroken", "[task][identity]") {
  CookTrial trial = broken_sun();
  const Seconds fine = fine_run(trial);
  const double first_s = hold_met_s(fine.core_K, trial.task.target_K, 0.0, false);
  REQUIRE(first_s > 0.0);
  // A hold longer than the first stay above the target, which is there in the fine run.
  double stay_s = 0.0;
  while (fine.core_K[static_cast<std::size_t>(first_s + stay_s)] >= trial.task.target_K)
    stay_s += 1.0;
  REQUIRE(stay_s > 300.0);
  REQUIRE(first_s + stay_s < 4.0 * 3600);
  trial.task.hold_s = stay_s + 600.0;
  const double in_all_s = hold_met_s(fine.core_K, trial.task.target_K, trial.task.hold_s, false);
  const double in_one_go_s = hold_met_s(fine.core_K, trial.task.target_K, trial.task.hold_s, true);
  REQUIRE(in_all_s > 0.0);
  REQUIRE(in_one_go_s > in_all_s + stay_s - 10.0);

  const task::CookResult added = trial.cook();
  REQUIRE(added.done);
  // Three crossings count into the sum.
  CHECK_THAT(added.finish_s, within_abs(in_all_s, 3.0 * kLocated_s));
  CHECK_THAT(added.hold_s, within_abs(trial.task.hold_s, 1e-6));
  trial.task.unbroken = true;
  const task::CookResult unbroken = trial.cook();
  REQUIRE(unbroken.done);
  CHECK_THAT(unbroken.finish_s, within_abs(in_one_go_s, kLocated_s));
}

TEST_CASE("baking also waits for the oven's air", "[task][identity]") {
  CookTrial trial;
  const Seconds fine = fine_run(trial);
  const double core_s = hold_met_s(fine.core_K, trial.task.target_K, 0.0, false);
  trial.task.oven_air_K = fine.air_K[static_cast<std::size_t>(core_s)] + 5.0;
  trial.task.oven_air_s = 900.0;
  const double air_s = hold_met_s(fine.air_K, *trial.task.oven_air_K, 900.0, false);
  REQUIRE(air_s > core_s + 900.0);
  const task::CookResult r = trial.cook();
  REQUIRE(r.done);
  // The air climbs slowly here (0.2 K/min), which makes its crossing less sharp.
  CHECK_THAT(r.finish_s - trial.load_s, within_abs(air_s, 3.0 * kLocated_s));
  CHECK_THAT(r.air_s, within_abs(900.0, 1e-6));
  trial.task.oven_air_K = kC + 280.0;
  const task::CookResult never = trial.cook();
  CHECK_FALSE(never.done);
  CHECK_THAT(never.air_s, within_abs(0.0, 0.0));
  CHECK(never.peak_core_K >= trial.task.target_K);
}

TEST_CASE("time in the danger zone is counted up to the finish", "[task][identity]") {
  CookTrial trial;
  trial.task.spoils = true;
  for (const task::DangerRule& rule : task::danger_rules()) {
    INFO(rule.key);
    trial.task.rule = rule.key;
    trial.task.start_K = kC + 1.0;  // below either zone, so that both ends are crossed
    const Seconds fine = fine_run(trial);
    const task::CookResult r = trial.cook();
    REQUIRE(r.done);
    const double counted_s = fine.between_s(rule.low_K, rule.high_K, r.finish_s - trial.load_s);
    REQUIRE(counted_s > 600.0);
    CHECK_THAT(r.danger_s, within_abs(counted_s, kLocated_s));
    CHECK(r.safe == (r.danger_s <= rule.limit_s));
  }
}

TEST_CASE("danger ends with the cook, also where the target lies within the zone",
          "[task][identity]") {
  CookTrial trial;
  trial.task.spoils = true;
  trial.task.start_K = kC + 1.0;
  trial.task.target_K = kC + 45.0;
  trial.task.hold_s = 100.0;
  const task::DangerRule& rule = task::danger_rules().front();
  const Seconds fine = fine_run(trial);
  const double finish_s = hold_met_s(fine.core_K, trial.task.target_K, 100.0, false);
  const task::CookResult r = trial.cook();
  REQUIRE(r.done);
  CHECK_THAT(r.finish_s - trial.load_s, within_abs(finish_s, kLocated_s));
  CHECK_THAT(r.danger_s, within_abs(fine.between_s(rule.low_K, rule.high_K, finish_s), kLocated_s));
}

TEST_CASE("slow food that spoils is unsafe, and food that does not spoil is not", "[task][unit]") {
  CookTrial trial;
  trial.load_s = 0.0;
  trial.oven_K = 293.15;
  trial.sun = made_forcing(8.0, 170.0);
  trial.task.target_K = kC + 62.0;
  trial.task.spoils = true;
  trial.task.rule = "two-hour";
  const task::CookResult slow = trial.cook();
  REQUIRE(slow.done);
  CHECK(slow.danger_s > 7200.0);
  CHECK_FALSE(slow.safe);
  trial.task.rule = "four-hour";
  const task::CookResult four = trial.cook();
  CHECK(four.safe == (four.danger_s <= 14400.0));
  trial.task.spoils = false;
  trial.task.rule = "two-hour";
  CHECK(trial.cook().safe);
}

TEST_CASE("a target above boiling is lowered, and boiling is noticed", "[task][unit]") {
  CookTrial trial;
  trial.model.boiling_K = kC + 90.0;  // at some 3000 m
  trial.sun = made_forcing(8.0, 500.0);
  trial.task.target_K = kC + 97.0;
  const task::CookResult done = trial.cook();
  REQUIRE(done.done);
  CHECK(done.peak_core_K >= kC + 89.0);
  CHECK(done.boiling_from_s < 0.0);  // done before it boiled
  trial.task.hold_s = 3600.0;
  const task::CookResult held = trial.cook();
  REQUIRE(held.done);
  CHECK(held.boiling_from_s > done.finish_s);
  CHECK(held.boiling_from_s < held.finish_s);
  CHECK(held.evaporated_kg > 0.01);
  // The network lets food pass the boiling point by surplus power over 5000 W/K: below 0.1 K at
  // 500 W; and a step may err by 0.02 K.
  CHECK(held.peak_core_K < kC + 90.12);
}

TEST_CASE("the food starts at the task's temperature whatever the oven has", "[task][unit]") {
  struct First : heat::StepWatcher {
    bool on_step(const heat::Step& step) override {
      if (!seen) first = step.y0.copy();
      seen = true;
      return true;
    }
    bool seen = false;
    heat::State first{};
  };
  CookTrial trial;
  trial.model = made_network(1, true);
  First watcher;
  REQUIRE(trial.cook(&watcher).done);
  REQUIRE(watcher.seen);
  for (const int node : {heat::kNodeVessel, heat::kNodeFood, heat::kNodeShell1, heat::kNodeShell4})
    CHECK(watcher.first[static_cast<std::size_t>(node)] == trial.task.start_K);
  CHECK(watcher.first[heat::kNodeLiner] == trial.oven_K);
  CHECK(watcher.first[heat::kNodeWater] == 100.0);
}

TEST_CASE("frozen food is done later, by the time that melting it takes", "[task][unit]") {
  CookTrial fresh;
  CookTrial ice;
  ice.model = frozen(ice.model);
  ice.task.start_K = kC - 18.0;
  const task::CookResult first = fresh.cook();
  const task::CookResult last = ice.cook();
  REQUIRE(first.done);
  REQUIRE(last.done);
  // 2 kg with 90 % water from -18 to 4 C: 2 (0.9 x 334 + 2.1 x 18 + 3.9 x 4) kJ, at 420 W at most.
  CHECK(last.finish_s - first.finish_s > 708e3 / 420.0);
  // The warmest moment of a cook that ends before the thaw is given as a temperature.
  ice.task.finish_by_s = ice.load_s + 900.0;
  const task::CookResult early = ice.cook();
  REQUIRE_FALSE(early.done);
  CHECK(early.peak_core_K > kC - 18.0);
  CHECK(early.peak_core_K < kC);
}
