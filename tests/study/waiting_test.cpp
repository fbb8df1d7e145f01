// SPDX-License-Identifier: MIT
// Chances and waits by hand on made patterns, and against counting them the slow way.
#include <algorithm>
#include <functional>
#include <vector>

#include "catch.h"
#include "ovendays/base/calendar.h"
#include "ovendays/base/random.h"
#include "ovendays/study/waiting.h"

using namespace ovendays;
using namespace ovendays::study;
using test::within_abs;

namespace {
constexpr double kRounding = 1e-12;  // a count over a count

std::vector<bool> pattern(const std::function<bool(int)>& works) {
  std::vector<bool> days(season::kDays);
  for (int d = 0; d < season::kDays; ++d) days[static_cast<std::size_t>(d)] = works(d);
  return days;
}

/// One of the k days from d on works, looked at day by day.
bool one_works(const std::vector<bool>& works, int d, std::size_t k) {
  for (std::size_t i = 0; i < k; ++i) {
    if (works[(static_cast<std::size_t>(d) + i) % season::kDays]) return true;
  }
  return false;
}
}  // namespace

TEST_CASE("every third day: a third, two thirds, all", "[study][unit]") {
  // By hand: of three days in a row one works. January's days 0, 3, .. 30 are 11 of 31; one of two
  // days works from all but those just after one that works (1, 4, .. 28), 21 of 31.
  const WaitingTimes waits = waiting_times(pattern([](int d) { return d % 3 == 0; }));
  CHECK_THAT(waits.chance[0][0], within_abs(11.0 / 31.0, kRounding));
  CHECK_THAT(waits.chance[0][1], within_abs(21.0 / 31.0, kRounding));
  CHECK(waits.chance[0][2] == 1.0);
  CHECK(waits.chance[12][6] == 1.0);
  // 365 is no multiple of 3, but the ring closes with day 363 before day 0: two days' wait at most.
  CHECK(waits.longest_days[12] == 2);
  CHECK(waits.longest_from_day == 1);
}

TEST_CASE("a wait runs on from December into January", "[study][unit]") {
  // Works from day 10 to day 354: foul from day 355 (22 December) to day 9, 20 days.
  const WaitingTimes waits = waiting_times(pattern([](int d) { return d >= 10 && d <= 354; }));
  CHECK(waits.longest_days[12] == 20);
  CHECK(waits.longest_from_day == 355);
  CHECK(waits.longest_days[11] == 20);
  CHECK(waits.longest_days[0] == 10);  // from 1 January
  CHECK(waits.longest_days[5] == 0);
  CHECK_THAT(waits.chance[0][0], within_abs(21.0 / 31.0, kRounding));
  // From day 4 (5 January) on, one of seven days works: 27 of 31.
  CHECK_THAT(waits.chance[0][6], within_abs(27.0 / 31.0, kRounding));
}

TEST_CASE("never and always", "[study][unit]") {
  const WaitingTimes never = waiting_times(pattern([](int) { return false; }));
  CHECK(never.longest_days[12] == season::kDays);
  CHECK(never.chance[12][6] == 0.0);
  const WaitingTimes always = waiting_times(pattern([](int) { return true; }));
  CHECK(always.longest_days[12] == 0);
  CHECK(always.longest_from_day == -1);
  CHECK(always.chance[3][0] == 1.0);
}

TEST_CASE("chances agree with counting day by day", "[study][identity]") {
  for (const double share : {0.05, 0.3, 0.7, 0.95}) {
    base::KeyedRandom random(static_cast<std::uint64_t>(share * 100.0));
    const std::vector<bool> works = pattern([&](int) { return random.uniform() < share; });
    const WaitingTimes waits = waiting_times(works);
    for (std::size_t k = 1; k <= kMostDaysAhead; ++k) {
      std::array<int, 13> found{};
      for (int d = 0; d < season::kDays; ++d) {
        const auto month = static_cast<std::size_t>(base::date_from_day_index_365(d).month - 1);
        if (one_works(works, d, k)) ++found[month], ++found[12];
      }
      for (std::size_t m = 0; m < 13; ++m) {
        const int of = m == 12 ? 365 : base::days_in_month(2001, static_cast<int>(m) + 1);
        CHECK_THAT(waits.chance[m][k - 1],
                   within_abs(static_cast<double>(found[m]) / of, kRounding));
      }
    }
    int longest = 0;
    for (int d = 0; d < season::kDays; ++d) {
      std::size_t k = 1;
      while (k <= season::kDays && !one_works(works, d, k)) ++k;
      longest = std::max(longest, static_cast<int>(k) - 1);
    }
    CHECK(waits.longest_days[12] == longest);
  }
}
