// SPDX-License-Identifier: MIT
// How long the starter's eight tasks take when the food goes into the cold oven on a good day,
// beside what users of box ovens report (FOOD-17). The tests of the season check it,
// tests/validation.sh prints it.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "made_case.h"

namespace ovendays::test {

struct KitchenTime {
  const char* task;          ///< part of its name
  double low_min, high_min;  ///< reported, from loading to done; 0: the source has none
  const char* source;        ///< of the reported time
  const char* remark;        ///< why ours is outside the band, or that there is none; else empty
  double ours_min = -1.0;    ///< median of the days on which it gets done
  int days = 0;              ///< on which it gets done

  [[nodiscard]] bool reported() const { return high_min > 0.0; }
  /// From half of the shortest reported time to one and a half of the longest.
  [[nodiscard]] bool within_band() const {
    return ours_min >= 0.5 * low_min && ours_min <= 1.5 * high_min;
  }
};

/// Clear and calm days from May to August at 35 deg north, the oven in the open, as built, put out
/// cold with the food at ten o'clock standard time.
inline std::vector<KitchenTime> kitchen_times() {
  constexpr double kTen_s = 10.0 * 3600.0;
  constexpr int kFirstDay = 120, kEndDay = 243;
  season::Case c = small_case({});
  c.oven.as_built = {};
  c.routine.preheat = false;
  c.routine.earliest_load_s = kTen_s;
  c.routine.latest_load_s = kTen_s;
  const season::SeasonResult r = run(c, made_weather());
  // Times for 4 to 5 servings in good sun; cooking hints of solarcooking.org, row FOOD-17 (seen).
  std::vector<KitchenTime> times = {
      {"soup", 0, 0, "", "no time reported"},
      {"eggs", 120, 120, "eggs, hard: 2 h", "done once the yolk is set"},
      {"rice", 120, 120, "grains, rice: 2 h", ""},
      {"beans", 180, 300, "dried beans: 3 to 5 h", ""},
      {"stew", 120, 300, "meat: 2 h cut, 3 to 5 h large", ""},
      {"bread", 180, 180, "loaves: 3 h", "one small loaf, four flaps"},
      {"cookies", 60, 90, "cookies: 1 to 1.5 h", ""},
      {"water", 0, 0, "", "no time reported"}};
  for (KitchenTime& each : times) {
    const auto named = [&](const std::string& name) {
      return name.find(each.task) != std::string::npos;
    };
    const auto found = std::find_if(r.task_names.begin(), r.task_names.end(), named);
    const auto task = static_cast<std::size_t>(found - r.task_names.begin());
    std::vector<double> minutes;
    for (int d = kFirstDay; d < kEndDay; ++d) {
      const season::DayTask& day = r.at(task, d);
      if (day.outcome != season::Outcome::kCooked) continue;
      minutes.push_back(static_cast<double>(day.finish_s - day.load_s) / 60.0);
    }
    each.days = static_cast<int>(minutes.size());
    each.ours_min = season::median(minutes);
  }
  return times;
}
}  // namespace ovendays::test
