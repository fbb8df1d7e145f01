// SPDX-License-Identifier: MIT
#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/task/task.h"

namespace ovendays::task {

const std::vector<DangerRule>& danger_rules() {
  static const std::vector<DangerRule> rules = {
      {"four-hour",
       "at most 4 h between 5 and 60 C on the way up (time as a control, in the manner of FDA Food "
       "Code 3-501.19)",
       base::kZeroCelsius_K + 5.0,
       base::kZeroCelsius_K + 60.0,
       4.0 * base::kSecondsPerHour},
      {"two-hour",
       "at most 2 h between 40 and 140 F, 4.4 and 60 C (USDA FSIS two-hour rule)",
       base::kZeroCelsius_K + 4.4,
       base::kZeroCelsius_K + 60.0,
       2.0 * base::kSecondsPerHour},
  };
  return rules;
}

const DangerRule& danger_rule_of(const Task& task) {
  for (const DangerRule& rule : danger_rules()) {
    if (rule.key == task.rule) return rule;
  }
  OVENDAYS_CHECK(false && "a task names a rule that read_tasks would have refused");
  return danger_rules().front();
}
}  // namespace ovendays::task
