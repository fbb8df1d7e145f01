// SPDX-License-Identifier: MIT
// The order of changes against brute force over all orders and all subsets.
#include "ovendays/study/change_order.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "catch.h"
#include "made_study.h"
#include "ovendays/base/random.h"

using namespace ovendays;
using Changes = std::vector<int>;

namespace {
std::vector<results::StudyChange> priced(const std::vector<double>& prices) {
  std::vector<results::StudyChange> changes;
  changes.reserve(prices.size());
  for (const double price : prices) changes.push_back({"change", price, {}});
  return changes;
}

// The area under days gained over money spent, up to all of it: larger where more is had earlier.
double area(const Changes& order,
            const std::vector<double>& prices,
            const std::vector<int>& gains) {
  double sum = 0.0;
  double gained = 0.0;
  for (const int change : order) {
    sum += gained * prices[static_cast<std::size_t>(change)];
    gained += gains[static_cast<std::size_t>(change)];
  }
  return sum;
}
}  // namespace

TEST_CASE("with additive gains, no other order has more days earlier for its money",
          "[study][identity]") {
  base::KeyedRandom random(7, 0);
  for (int round = 0; round < 40; ++round) {
    std::vector<double> prices;
    std::vector<int> gains;
    for (int i = 0; i < 6; ++i) {
      prices.push_back(1.0 + std::floor(20.0 * random.uniform()));
      gains.push_back(1 + static_cast<int>(30.0 * random.uniform()));
    }
    const study::BestOrder found =
        study::best_order(priced(prices), [&](const Changes& made) -> std::optional<int> {
          int days = 100;
          for (const int i : made) days += gains[static_cast<std::size_t>(i)];
          return days;
        });
    REQUIRE(found.changes.size() == 6);
    Changes order(6);
    std::iota(order.begin(), order.end(), 0);
    double best = 0.0;
    do {
      best = std::max(best, area(order, prices, gains));
    } while (std::next_permutation(order.begin(), order.end()));
    // Sums of whole numbers: exact.
    CHECK(area(found.changes, prices, gains) == best);
  }
}

TEST_CASE("each step is the best available one, however the changes interact",
          "[study][identity]") {
  // Days by subset drawn at random, so that changes help and hinder; every step is checked against
  // all that could have been taken.
  base::KeyedRandom random(11, 0);
  for (int round = 0; round < 40; ++round) {
    std::vector<double> prices(5);
    for (double& price : prices) price = 1.0 + std::floor(9.0 * random.uniform());
    std::vector<int> days(32);
    for (int& each : days) each = static_cast<int>(300.0 * random.uniform());
    const auto bits = [](const Changes& made) {
      std::size_t set = 0;
      for (const int i : made) set |= std::size_t{1} << i;
      return set;
    };
    const study::BestOrder found =
        study::best_order(priced(prices), [&](const Changes& made) -> std::optional<int> {
          REQUIRE(std::is_sorted(made.begin(), made.end()));
          return days[bits(made)];
        });
    std::size_t set = 0;
    for (std::size_t step = 0; step <= found.changes.size(); ++step) {
      double best = 0.0;
      for (std::size_t i = 0; i < 5; ++i) {
        const std::size_t next = set | (std::size_t{1} << i);
        if (next != set) best = std::max(best, (days[next] - days[set]) / prices[i]);
      }
      if (step == found.changes.size()) {
        CHECK(best <= 0.0);
        continue;
      }
      const auto taken = static_cast<std::size_t>(found.changes[step]);
      CHECK_THAT(found.gain[step] / prices[taken], test::within_rel(best, 1e-12));  // one rounding
      set |= std::size_t{1} << taken;
      CHECK(found.days[step] == days[set]);
    }
  }
}

TEST_CASE("free changes come first, the largest gain first among them, then gain per price",
          "[study][unit]") {
  // By hand: free +5, free +9, then 30 for 10 (3 a unit), then 20 for 8 (2.5 a unit).
  const std::vector<int> gains = {20, 5, 30, 9};
  const study::BestOrder found = study::best_order(priced({8.0, 0.0, 10.0, 0.0}),
                                                   [&](const Changes& made) -> std::optional<int> {
                                                     int days = 0;
                                                     for (const int i : made)
                                                       days += gains[static_cast<std::size_t>(i)];
                                                     return days;
                                                   });
  CHECK(found.changes == Changes{3, 1, 2, 0});
  CHECK(found.days == Changes{9, 14, 44, 64});
}

TEST_CASE(
    "changes that add no day are left out, and changes in conflict with chosen ones are listed",
    "[study][unit]") {
  std::vector<results::StudyChange> changes = priced({1.0, 1.0, 1.0});
  changes[0].excludes = {1};
  changes[1].excludes = {0};
  const std::vector<int> gains = {7, 6, -2};
  const study::BestOrder found =
      study::best_order(changes, [&](const Changes& made) -> std::optional<int> {
        REQUIRE_FALSE(made == Changes{0, 1});
        int days = 0;
        for (const int i : made) days += gains[static_cast<std::size_t>(i)];
        return days;
      });
  CHECK(found.changes == Changes{0});
  CHECK(found.excluded == Changes{1});
  CHECK(found.complete);
}

TEST_CASE("a change that fails is left out from then on, and the order goes on without it",
          "[study][unit]") {
  // 0 fails alone; 2 fails once 1, the best, is made; 3 remains.
  const std::vector<int> gains = {90, 30, 20, 10};
  std::vector<Changes> asked;
  const study::BestOrder found =
      study::best_order(priced({1.0, 1.0, 1.0, 1.0}), [&](const Changes& made) {
        asked.push_back(made);
        int days = 0;
        for (const int i : made) days += gains[static_cast<std::size_t>(i)];
        const bool fails = made == Changes{0} || made == Changes{1, 2};
        return fails ? study::DayCount::failure() : study::DayCount(days);
      });
  CHECK(found.complete);
  CHECK(found.changes == Changes{1, 3});
  CHECK(found.days == Changes{30, 40});
  CHECK(found.failed == Changes{0, 2});
  CHECK(found.excluded.empty());
  // Neither is asked for again.
  CHECK(asked == std::vector<Changes>{{}, {0}, {1}, {2}, {3}, {1, 2}, {1, 3}});
  const study::BestOrder none =
      study::best_order(priced({1.0}), [](const Changes&) { return study::DayCount::failure(); });
  CHECK_FALSE(none.complete);
  CHECK(none.changes.empty());
}

TEST_CASE("an order is incomplete if a count that it needs is missing", "[study][unit]") {
  results::StoredStudy study = test::made_study();
  study.changes = priced({1.0, 1.0});
  const auto days = [](int count) {
    return [count](std::size_t t, int d) { return t == 0 && d < count; };
  };
  test::add_alternative(study, "first", {}, days(100));
  test::add_alternative(study, "one", {0}, days(120));
  test::add_alternative(study, "two", {1}, days(110));
  CHECK_FALSE(study::best_order(study).complete);
  test::add_alternative(study, "both", {0, 1}, days(125));
  const study::BestOrder both = study::best_order(study);
  CHECK(both.complete);
  CHECK(both.changes == Changes{0, 1});
  CHECK(both.gain == Changes{20, 5});
}
