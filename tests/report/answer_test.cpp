// SPDX-License-Identifier: MIT
// The answer's sentence, worked out by hand from days set by hand.
#include "answer.h"

#include "catch.h"
#include "made_season.h"

using namespace ovendays;
using report::Bet;

namespace {
/// Counts with so many cooked days in each month.
season::TaskCounts counts_of(const std::array<int, 12>& days) {
  season::TaskCounts counts;
  for (std::size_t month = 0; month < 12; ++month) {
    counts.outcomes[month][0] = days[month];
    counts.outcomes[12][0] += days[month];
  }
  return counts;
}

// 22 of 31 or 30 days are 5 in 7.
constexpr std::array<int, 12> kSummerHalf = {0, 0, 9, 22, 22, 22, 22, 22, 22, 9, 0, 0};
constexpr std::array<int, 12> kSummer = {0, 0, 0, 0, 10, 28, 30, 29, 3, 0, 0, 0};
constexpr std::array<int, 12> kWinterHalf = {30, 27, 30, 2, 0, 0, 0, 0, 2, 20, 29, 30};
constexpr std::array<int, 12> kAlways = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
constexpr std::array<int, 12> kNever = {};
constexpr std::array<int, 12> kLuck = {1, 0, 2, 14, 0, 0, 0, 0, 0, 0, 0, 0};

struct Named {
  const char* name;
  std::array<int, 12> days;
};

std::string answer_of(const std::vector<Named>& tasks, double latitude_deg = 40.0) {
  results::StoredSeason season;
  season.result.place.latitude_rad = latitude_deg * base::kRadPerDeg;
  std::vector<season::TaskCounts> counts;
  for (const Named& task : tasks) {
    season.result.task_names.emplace_back(task.name);
    season.tasks.emplace_back();
    counts.push_back(counts_of(task.days));
  }
  return report::answer(season, counts);
}
}  // namespace

TEST_CASE("a bet holds over the longest run of months with half their days", "[report][unit]") {
  const Bet half = report::bet_of(counts_of(kSummerHalf));
  CHECK(half.kind == Bet::Kind::kMonths);
  CHECK(half.first_month == 4);
  CHECK(half.months == 6);
  CHECK(half.in_seven == 5);                                  // 7 x 132 / 183 = 5.05
  const Bet winter = report::bet_of(counts_of(kWinterHalf));  // runs over the year's end
  CHECK(winter.first_month == 10);
  CHECK(winter.months == 6);
  CHECK(winter.in_seven == 6);  // 7 x 166 / 182 = 6.38
  CHECK(report::bet_of(counts_of(kAlways)).kind == Bet::Kind::kAllYear);
  CHECK(report::bet_of(counts_of(kNever)).kind == Bet::Kind::kNever);
  CHECK(report::bet_of(counts_of(kLuck)).kind == Bet::Kind::kLuck);  // 14 of 30 is not half
}

TEST_CASE("the answer is said as a cook would say it", "[report][unit]") {
  CHECK(answer_of({{"dry beans, soaked", kSummerHalf}, {"bread", kSummer}}) ==
        "At this spot dry beans are a good bet on 5 days in 7 from April to September; bread is a "
        "summer thing, nearly every day from June to August.");
  CHECK(answer_of({{"rice", kNever}}) == "At this spot rice is out of reach on every day.");
  CHECK(answer_of({{"eggs", kAlways}, {"soup", kAlways}, {"cake", kLuck}}) ==
        "At this spot eggs and soup are a good bet nearly every day all year; cake is a matter of "
        "luck, 17 days of the year.");
}

TEST_CASE("seasons are those of the place", "[report][unit]") {
  const std::vector<Named> tasks = {{"rice", kAlways}, {"bread", kSummer}};
  CHECK(test::contains(answer_of(tasks, 40.0), "bread is a summer thing"));
  CHECK(test::contains(answer_of(tasks, -35.0), "bread is a winter thing"));
  CHECK(test::contains(answer_of(tasks, 10.0), "bread is a good bet nearly every day from June"));
  CHECK(test::contains(answer_of({{"rice", kAlways}, {"bread", kWinterHalf}}),
                       "bread is a winter thing, on 6 days in 7 from October to March"));
}

TEST_CASE("one month and two are named as such", "[report][unit]") {
  CHECK(report::bet_text(report::bet_of(counts_of({0, 0, 0, 0, 0, 0, 20}))) ==
        "a good bet on 5 days in 7 in July");  // 7 x 20 / 31 = 4.5
  CHECK(report::bet_text(report::bet_of(counts_of({0, 0, 0, 0, 0, 0, 16, 17}))) ==
        "a good bet on 4 days in 7 in July and August");  // 7 x 33 / 62 = 3.7
}

TEST_CASE("names are shortened only where they stay apart", "[report][unit]") {
  const std::vector<std::string> names = {"beans, soaked", "beans, dry", "rice, white"};
  CHECK(report::short_name(names, 0) == "beans, soaked");
  CHECK(report::short_name(names, 2) == "rice");
}

TEST_CASE("many tasks with the same bet share a clause", "[report][unit]") {
  CHECK(answer_of({{"a", kAlways}, {"b", kAlways}, {"c", kAlways}, {"d", kAlways}}) ==
        "At this spot a, b and 2 more are a good bet nearly every day all year.");
}

namespace {
/// The answer for four tasks that lose days to the tilt, each with what keeps it out of notches.
std::string answer_with_tilt(const std::array<const char*, 4>& limits, bool few_days = false) {
  results::StoredSeason season;
  season.result.place.latitude_rad = 40.0 * base::kRadPerDeg;
  std::vector<season::TaskCounts> counts;
  constexpr auto kTilt = static_cast<std::size_t>(season::Cause::kTilt);
  for (const auto& [name, days] :
       {std::pair{"rice", 94}, {"eggs, hard", 4}, {"bread, white", 153}, {"soup", 5}}) {
    season.result.task_names.emplace_back(name);
    season.tasks.emplace_back();
    season.tasks.back().notch_limit = limits.at(season.tasks.size() - 1);
    counts.push_back(counts_of(kSummerHalf));
    counts.back().causes[12][kTilt] = few_days ? 4 : days;
  }
  return report::answer(season, counts);
}
}  // namespace

TEST_CASE("the answer says what a level rack would gain where it is more than a few days",
          "[report][unit]") {
  CHECK(test::contains(answer_with_tilt({"fixed", "fixed", "fixed", "fixed"}),
                       "September. A rack that keeps the pot level, where it has room below the "
                       "glass, would gain up to 153 days of bread, 94 of rice and 5 of soup."));
  CHECK_FALSE(test::contains(answer_with_tilt({"fixed", "fixed", "fixed", "fixed"}, true), "rack"));
}

TEST_CASE("an oven with a level rack is told what limits it there", "[report][unit]") {
  const std::string text = answer_with_tilt({"settings", "clearance", "clearance", "settings"});
  CHECK(test::contains(text,
                       "September. More room for the pot on its level rack (a lower or narrower "
                       "pot, or a deeper box) would gain up to 153 days of bread. Finer settings "
                       "of the level rack would gain up to 94 days of rice and 5 of soup."));
  CHECK_FALSE(test::contains(text, "A rack that keeps"));
}
