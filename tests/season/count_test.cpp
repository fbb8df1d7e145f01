// SPDX-License-Identifier: MIT
// Counting a season that is made by hand.
#include "catch.h"
#include "ovendays/season/season.h"

using namespace ovendays;
using season::Cause;
using season::Outcome;
using test::within_abs;

namespace {
season::SeasonResult made(bool (*cooked)(int day)) {
  season::SeasonResult r;
  r.task_names = {"x"};
  r.days.resize(season::kDays);
  for (int d = 0; d < season::kDays; ++d) {
    season::DayTask& day = r.days[static_cast<std::size_t>(d)];
    day.outcome = cooked(d) ? Outcome::kCooked : Outcome::kShort;
    day.cause = cooked(d) ? Cause::kNone : Cause::kCloud;
    if (!cooked(d)) continue;
    day.window_first_s = 36000.0F;
    day.window_last_s = d % 2 == 0 ? 43200.0F : 46800.0F;
    day.load_s = 39600.0F;
    day.finish_s = 39600.0F + static_cast<float>(d);
  }
  return r;
}
}  // namespace

TEST_CASE("counts go by month and sum up to the year", "[season][unit]") {
  // The 1st to the 10th of each month in days of a 365-day year: by calendar arithmetic.
  const season::TaskCounts counts =
      season::count_task(made([](int d) { return base::date_from_day_index_365(d).day <= 10; }), 0);
  const std::array<int, 12> lengths = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  for (std::size_t m = 0; m < 12; ++m) {
    CHECK(counts.outcomes[m][0] == 10);
    CHECK(counts.outcomes[m][2] == lengths[m] - 10);
    CHECK(counts.causes[m][0] == 10);
    CHECK(counts.causes[m][2] == lengths[m] - 10);
  }
  CHECK(counts.outcomes[12][0] == 120);
  CHECK(counts.causes[12][2] == 245);
  CHECK(counts.longest_wait_days == 21);  // the 11th to the 31st
  CHECK_THAT(counts.usual_load_first_s, within_abs(36000.0, 0.0));
}

TEST_CASE("the longest wait runs over the turn of the year", "[season][unit]") {
  CHECK(season::count_task(made([](int d) { return d >= 10 && d < 350; }), 0).longest_wait_days ==
        25);
  CHECK(season::count_task(made([](int) { return false; }), 0).longest_wait_days == 365);
  CHECK(season::count_task(made([](int) { return true; }), 0).longest_wait_days == 0);
}

TEST_CASE("usual times are medians over cooked days", "[season][unit]") {
  // Days 0..10: durations 0..10 s, median 5; windows end at 43200 six times and 46800 five times.
  const season::TaskCounts counts = season::count_task(made([](int d) { return d <= 10; }), 0);
  CHECK_THAT(counts.usual_duration_s, within_abs(5.0, 1e-2));  // single precision at 39600
  CHECK_THAT(counts.usual_load_last_s, within_abs(43200.0, 0.0));
  CHECK(season::count_task(made([](int) { return false; }), 0).usual_load_first_s < 0.0);
}

TEST_CASE("every outcome and cause has a word of its own", "[season][unit]") {
  std::vector<std::string> words;
  words.reserve(season::kOutcomes + season::kCauses);
  for (int i = 0; i < season::kOutcomes; ++i)
    words.emplace_back(season::outcome_name(static_cast<Outcome>(i)));
  CHECK(words == std::vector<std::string>{"cooked", "unsafe", "short", "no-go"});
  for (int i = 0; i < season::kCauses; ++i) {
    const std::string word = season::cause_name(static_cast<Cause>(i));
    CHECK_FALSE(word.empty());
    CHECK(std::find(words.begin(), words.end(), word) == words.end());
    words.push_back(word);
  }
}
