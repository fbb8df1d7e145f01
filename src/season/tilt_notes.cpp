// SPDX-License-Identifier: MIT
#include "tilt_notes.h"

#include <algorithm>

#include "ovendays/base/units.h"
#include "ovendays/task/notches.h"

namespace ovendays::season {
namespace {

/// "a, b and c", or with other words between them.
std::string joined(const std::vector<std::string>& parts,
                   const std::string& between,
                   const std::string& before_last) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) text += i + 1 == parts.size() ? before_last : between;
    text += parts[i];
  }
  return text;
}

/// "notches 40 deg and 50 deg are", of those that a group of tasks does not use.
std::string left_out(const std::vector<double>& tilts_rad, const task::NotchSet& usable) {
  std::vector<std::string> tilts;
  for (std::size_t i = 0; i < tilts_rad.size(); ++i) {
    if (!usable[i]) tilts.push_back(base::quantity_text(tilts_rad[i], base::Dimension::kAngle));
  }
  return (tilts.size() == 1 ? "notch " : "notches ") + joined(tilts, ", ", " and ") +
         (tilts.size() == 1 ? " is" : " are");
}

int days_lost_to_tilt(const SeasonResult& result, std::size_t task) {
  int days = 0;
  for (int d = 0; d < kDays; ++d) days += result.at(task, d).cause == Cause::kTilt ? 1 : 0;
  return days;
}

const char* help_text(task::NotchHelp help) {
  switch (help) {
    case task::NotchHelp::kRack:
      return "a rack that keeps the vessel level (level = true in [oven.shelf]), where it has room "
             "under the glass";
    case task::NotchHelp::kRoom:
      return "a lower or narrower vessel or a deeper box";
    case task::NotchHelp::kSettings:
      return "finer settings of the rack (step in [oven.shelf])";
    case task::NotchHelp::kNone:
      break;
  }
  return "";
}

/// What the lost notches cost the tasks, and what would gain it.
std::string cost_text(const std::vector<std::size_t>& tasks,
                      const SeasonResult& result,
                      const Case& c) {
  std::vector<std::string> costs;
  std::vector<std::string> helps;
  for (const std::size_t t : tasks) {
    const int days = days_lost_to_tilt(result, t);
    if (days == 0) continue;
    costs.push_back(result.task_names[t] + " " + std::to_string(days));
    const std::string help = help_text(task::notch_help(c.oven, c.tasks[t]));
    if (std::find(helps.begin(), helps.end(), help) == helps.end()) helps.push_back(help);
  }
  if (costs.empty()) return " No day is lost to that.";
  return " Days lost to that in the year: " + joined(costs, "; ", "; ") +
         ". Up to as many would be " + "gained by " + joined(helps, ", ", " or ") + ".";
}
}  // namespace

std::vector<std::string> tilt_notes(const Setup& setup,
                                    const SeasonResult& result,
                                    bool causes_known) {
  const Case& c = *setup.c;
  const bool level_rack = c.oven.shelf.level;
  std::vector<std::string> notes;
  for (std::size_t g = 1; g < setup.groups.size(); ++g) {
    std::vector<std::size_t> tasks;
    std::vector<std::string> names;
    std::vector<task::NotchLimit> limits;
    for (std::size_t t = 0; t < c.tasks.size(); ++t) {
      if (setup.group_of_task[t] != g) continue;
      tasks.push_back(t);
      names.push_back(c.tasks[t].name);
      limits.push_back(*task::notch_limit(c.oven, c.tasks[t]));
    }
    notes.push_back(joined(names, "; ", "; ") + ": " +
                    left_out(c.oven.aim.notch_tilt_rad, setup.groups[g].notches) +
                    " not used, because the vessel, " +
                    (level_rack ? "on its level rack, " : "which tilts with the box, ") +
                    task::limit_text(limits) + "." +
                    (causes_known ? cost_text(tasks, result, c) : ""));
  }
  return notes;
}
}  // namespace ovendays::season
