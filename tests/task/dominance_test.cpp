// SPDX-License-Identifier: MIT
// Cooks are pruned only if they would neither have worked nor got further than the one that failed.
#include "catch.h"
#include "cook_trial.h"
#include "ovendays/base/random.h"

using namespace ovendays;
using namespace ovendays::test;

namespace {

/// Loaded every half hour into the same oven.
std::vector<task::CookSetup> half_hours(const CookTrial& trial, int count) {
  std::vector<task::CookSetup> setups;
  for (int i = 0; i < count; ++i) {
    setups.push_back(trial.setup());
    setups.back().load_s = 1800.0 * i;
  }
  return setups;
}

/// Under so weak a sun that nothing gets done.
CookTrial weak_sun() {
  CookTrial trial;
  trial.sun = made_forcing(8.0, 120.0);
  trial.task.target_K = kC + 95.0;
  return trial;
}

std::vector<task::CookResult> cook_all(const CookTrial& trial,
                                       const std::vector<task::CookSetup>& setups,
                                       task::DominancePruning* pruning) {
  std::vector<task::CookResult> results(setups.size());
  // One call each, so that every one that fails has done so before the next is loaded.
  for (std::size_t i = 0; i < setups.size(); ++i) {
    task::run_cooks(
        trial.task, trial.routine, trial.model, {&setups[i], 1}, {&results[i], 1}, {}, pruning);
  }
  return results;
}

std::vector<task::CookResult> with_pruning(const CookTrial& trial,
                                           const std::vector<task::CookSetup>& setups) {
  task::DominancePruning pruning(trial.model);
  return cook_all(trial, setups, &pruning);
}

int pruned(const std::vector<task::CookResult>& cooks) {
  int count = 0;
  for (const task::CookResult& r : cooks) count += r.pruned;
  return count;
}
}  // namespace

TEST_CASE("a cook that never gets hot enough prunes those that are loaded later", "[task][unit]") {
  const CookTrial trial = weak_sun();
  const std::vector<task::CookSetup> setups = half_hours(trial, 8);
  const std::vector<task::CookResult> cooks = with_pruning(trial, setups);
  CHECK_FALSE(cooks[0].pruned);
  CHECK(pruned(cooks) == 7);
  for (const task::CookResult& r : cooks) {
    CHECK_FALSE(r.done);
    if (r.pruned) CHECK(r.run.reason == heat::StopReason::kWatcherStopped);
    if (r.pruned) CHECK(r.run.end_s < trial.task.finish_by_s - 1800.0);
  }
}

TEST_CASE("a cook that gets done prunes no other", "[task][unit]") {
  const CookTrial trial;
  const std::vector<task::CookSetup> setups = half_hours(trial, 6);
  const std::vector<task::CookResult> cooks = with_pruning(trial, setups);
  CHECK(cooks[0].done);
  CHECK(pruned(cooks) == 0);
}

TEST_CASE("a cook that fails by less than the margin prunes no other", "[task][unit]") {
  CookTrial trial = weak_sun();
  trial.load_s = 0.0;
  const double peak_K = trial.cook().peak_core_K;
  const double clear_K = task::DominancePruning(trial.model).clear_K();
  for (const double short_K : {0.4 * clear_K, 1.5 * clear_K}) {
    trial.task.target_K = peak_K + short_K;
    const std::vector<task::CookResult> cooks = with_pruning(trial, {trial.setup(), trial.setup()});
    CHECK_FALSE(cooks[0].done);
    CHECK(cooks[1].pruned == (short_K > clear_K));
  }
}

TEST_CASE("a cook in a warmer oven is not behind one that failed in a cold one", "[task][unit]") {
  CookTrial trial;
  trial.task.finish_by_s = 2.0 * 3600;
  trial.load_s = 3600.0;
  std::vector<task::CookSetup> setups = {trial.setup(), trial.setup()};
  setups[0].oven = heat::uniform_state(275.0);
  setups[1].oven = heat::uniform_state(390.0);
  trial.task.hold_s = 86400.0;  // to see how far the first gets
  trial.task.target_K = cook_all(trial, setups, nullptr)[0].peak_core_K + 1.0;
  trial.task.hold_s = 0.0;
  const std::vector<task::CookResult> cooks = with_pruning(trial, setups);
  CHECK_FALSE(cooks[0].done);
  CHECK_FALSE(cooks[1].pruned);
  CHECK(cooks[1].done);
}

TEST_CASE("while the lid will be opened again nobody counts as behind", "[task][unit]") {
  CookTrial trial = weak_sun();
  trial.routine.lid_open_s = 60.0;
  trial.routine.lid_open_after_s = {2.0 * 3600};
  const std::vector<task::CookSetup> setups = half_hours(trial, 4);
  const std::vector<task::CookResult> cooks = with_pruning(trial, setups);
  CHECK(pruned(cooks) > 0);
  for (std::size_t i = 0; i < cooks.size(); ++i)
    CHECK(cooks[i].run.end_s >= setups[i].load_s + 2.0 * 3600 + 60.0);
}

TEST_CASE("pruned cooks would not have worked, nor got further", "[task][identity]") {
  int pruned_cooks = 0;
  for (std::uint64_t key = 1; key <= 60; ++key) {
    base::KeyedRandom random(key);
    CookTrial trial;
    trial.sun = made_forcing(8.0, 150.0 + 300.0 * random.uniform(), random.uniform());
    trial.model = made_network(1 + static_cast<int>(key % 2), key % 3 == 0);
    trial.model.water_kg = key % 5 == 0 ? 0.05 : 1.5;  // the first runs dry
    trial.routine.lid_open_s = 30.0;
    trial.task.target_K = kC + 60.0 + 40.0 * random.uniform();
    trial.task.hold_s = 3600.0 * 3.0 * random.uniform();
    trial.task.unbroken = key % 4 == 0;
    std::vector<task::CookSetup> setups = half_hours(trial, 12);
    for (task::CookSetup& setup : setups)
      setup.oven = heat::uniform_state(290.0 + 90.0 * random.uniform());
    const std::vector<task::CookResult> cooks = with_pruning(trial, setups);
    const std::vector<task::CookResult> followed = cook_all(trial, setups, nullptr);
    double furthest_K = 0.0;
    double longest_s = 0.0;
    for (std::size_t i = 0; i < cooks.size(); ++i) {
      INFO("case " << key << ", loaded " << setups[i].load_s);
      if (cooks[i].pruned) {
        ++pruned_cooks;
        CHECK_FALSE(followed[i].done);
        CHECK(followed[i].peak_core_K <= furthest_K + 0.02);
        CHECK(followed[i].hold_s <= longest_s + 20.0);
      } else {
        CHECK(cooks[i].done == followed[i].done);
        CHECK(cooks[i].finish_s == followed[i].finish_s);
        CHECK(cooks[i].peak_core_K == followed[i].peak_core_K);
        furthest_K = std::max(furthest_K, cooks[i].peak_core_K);
        longest_s = std::max(longest_s, cooks[i].hold_s);
      }
    }
  }
  CHECK(pruned_cooks > 150);
}
