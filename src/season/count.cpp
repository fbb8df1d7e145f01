// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>

#include "ovendays/base/calendar.h"
#include "ovendays/season/season.h"

namespace ovendays::season {
namespace {

/// Longest run of days without a cook. The year is taken as a ring, so a run may cross New Year.
int longest_wait(const SeasonResult& result, std::size_t task) {
  int longest = 0;
  int run = 0;
  for (int d = 0; d < 2 * kDays; ++d) {
    run = result.at(task, d % kDays).outcome == Outcome::kCooked ? 0 : run + 1;
    longest = std::max(longest, run);
  }
  return std::min(longest, kDays);
}
}  // namespace

const char* outcome_name(Outcome outcome) {
  constexpr std::array<const char*, kOutcomes> kNames = {"cooked", "unsafe", "short", "no-go"};
  return kNames[static_cast<std::size_t>(outcome)];
}

const char* cause_name(Cause cause) {
  constexpr std::array<const char*, kCauses> kNames = {"none",
                                                       "obstruction",
                                                       "cloud",
                                                       "aim",
                                                       "wind",
                                                       "rain",
                                                       "routine",
                                                       "season",
                                                       "several",
                                                       "tilt"};
  return kNames[static_cast<std::size_t>(cause)];
}

double median(std::vector<double> values) {
  if (values.empty()) return -1.0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

TaskCounts count_task(const SeasonResult& result, std::size_t task) {
  TaskCounts counts;
  std::vector<double> first;
  std::vector<double> last;
  std::vector<double> duration;
  for (int d = 0; d < kDays; ++d) {
    const DayTask& day = result.at(task, d);
    const auto month = static_cast<std::size_t>(base::date_from_day_index_365(d).month - 1);
    for (const std::size_t m : {month, std::size_t{12}}) {
      ++counts.outcomes[m][static_cast<std::size_t>(day.outcome)];
      ++counts.causes[m][static_cast<std::size_t>(day.cause)];
    }
    if (day.outcome != Outcome::kCooked) continue;
    first.push_back(day.window_first_s);
    last.push_back(day.window_last_s);
    duration.push_back(day.finish_s - day.load_s);
  }
  counts.usual_load_first_s = median(first);
  counts.usual_load_last_s = median(last);
  counts.usual_duration_s = median(duration);
  counts.longest_wait_days = longest_wait(result, task);
  return counts;
}

std::array<int, 13> cooked_by_month(const SeasonResult& result, std::size_t task) {
  const TaskCounts counts = count_task(result, task);
  std::array<int, 13> cooked{};
  for (std::size_t m = 0; m < cooked.size(); ++m)
    cooked[m] = counts.outcomes[m][static_cast<std::size_t>(Outcome::kCooked)];
  return cooked;
}
}  // namespace ovendays::season
