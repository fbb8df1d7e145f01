// SPDX-License-Identifier: MIT
#include "ovendays/study/waiting.h"

#include <algorithm>

#include "ovendays/base/calendar.h"
#include "ovendays/base/check.h"

namespace ovendays::study {
namespace {

/// Days from each day to the next one that works; 0 for a day that works itself.
std::vector<int> days_to_wait(const std::vector<bool>& works) {
  const auto days = static_cast<int>(works.size());
  std::vector<int> wait(works.size(), days);
  int next = days;
  // Walks backwards through the year twice, because a wait may continue into January.
  for (int d = 2 * days - 1; d >= 0; --d) {
    const auto day = static_cast<std::size_t>(d % days);
    next = works[day] ? 0 : std::min(next + 1, days);
    wait[day] = next;
  }
  return wait;
}
}  // namespace

WaitingTimes waiting_times(const std::vector<bool>& works) {
  OVENDAYS_CHECK(works.size() == season::kDays);
  const std::vector<int> wait = days_to_wait(works);
  WaitingTimes waits;
  std::array<int, 13> days_of{};
  for (int d = 0; d < season::kDays; ++d) {
    const int wait_days = wait[static_cast<std::size_t>(d)];
    const auto month = static_cast<std::size_t>(base::date_from_day_index_365(d).month - 1);
    // Strictly greater, so that the first of several equally long waits is reported.
    if (wait_days > waits.longest_days[12]) waits.longest_from_day = d;
    for (const std::size_t m : {month, std::size_t{12}}) {
      ++days_of[m];
      waits.longest_days[m] = std::max(waits.longest_days[m], wait_days);
      for (std::size_t k = 0; k < kMostDaysAhead; ++k) {
        if (wait_days <= static_cast<int>(k)) waits.chance[m][k] += 1.0;
      }
    }
  }
  for (std::size_t m = 0; m < days_of.size(); ++m) {
    for (double& chance : waits.chance[m]) chance /= days_of[m];
  }
  return waits;
}

std::vector<bool> days_cooked(const season::SeasonResult& result, std::size_t task) {
  std::vector<bool> works(season::kDays);
  for (int d = 0; d < season::kDays; ++d) {
    works[static_cast<std::size_t>(d)] = result.at(task, d).outcome == season::Outcome::kCooked;
  }
  return works;
}
}  // namespace ovendays::study
