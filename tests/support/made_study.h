// SPDX-License-Identifier: MIT
// Studies made by hand: who cooks on which day is told by a function. No claim about any oven.
#pragma once

#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "ovendays/results/study_file.h"

namespace ovendays::test {

using Cooks = std::function<bool(std::size_t task, int day)>;

/// A day that was cooked has a loading and a finish; one that was not has a cause.
inline std::vector<results::StudyDay> made_days(std::size_t tasks, const Cooks& cooks) {
  std::vector<results::StudyDay> days;
  for (std::size_t t = 0; t < tasks; ++t) {
    for (int d = 0; d < season::kDays; ++d) {
      results::StudyDay day;
      if (cooks(t, d)) {
        day.outcome = season::Outcome::kCooked;
        day.load_s = 9.0F * 3600;
        day.finish_s = 12.0F * 3600;
      } else {
        day.outcome = d % 2 == 0 ? season::Outcome::kShort : season::Outcome::kUnsafe;
        day.cause = d % 3 == 0 ? season::Cause::kObstruction : season::Cause::kCloud;
        day.load_s = 10.0F * 3600;
      }
      days.push_back(day);
    }
  }
  return days;
}

/// Two tasks, "rice" and "bread"; alternatives are to be added with add_alternative().
inline results::StoredStudy made_study() {
  results::StoredStudy study;
  study.program_version = "9.9";
  study.name = "made by hand";
  study.study_file = "made.toml";
  study.study_text = "# made by hand\n";
  study.money = "EUR";
  study.tariff_per_J = 0.36 / 3.6e6;
  for (const char* name : {"rice", "bread"}) {
    results::StudyTask task;
    task.name = name;
    task.kitchen_J = 3.6e6;
    task.cooks_a_year = 73.0;
    task.kitchen_source = "made";
    study.tasks.push_back(task);
  }
  study.axes = {{{"home"}, {"garden"}, {"box"}, {"all day"}}};
  study.oven_prices = {40.0};
  return study;
}

inline void add_alternative(results::StoredStudy& study,
                            const std::string& name,
                            std::vector<int> changes,
                            const Cooks& cooks) {
  results::StudyAlternative made;
  made.name = name;
  made.sha256 = name + "-digest";
  made.changes = std::move(changes);
  if (cooks) made.days = made_days(study.tasks.size(), cooks);
  study.alternatives.push_back(std::move(made));
}
}  // namespace ovendays::test
