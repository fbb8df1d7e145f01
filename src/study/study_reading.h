// SPDX-License-Identifier: MIT
// A study while it is read: its file, the faults of the cases made from it, the tasks of the first.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "ovendays/study/study.h"

namespace ovendays::study {

struct Study::Reading {
  Reading(const std::string& text, const std::string& name) : file(text, name), root(file.root()) {}

  /// Faults of a case; those that many cases share are kept once.
  void add(const base::InputError& error);
  void take_tasks(const season::Case& c) { tasks = c.tasks; }
  /// Counts are compared task by task, so all cases have the first one's tasks.
  void compare_tasks(const season::Case& c, const std::string& alternative);
  /// True where there is such a task or the tasks are not known; a fault at the key otherwise.
  [[nodiscard]] bool require_task(const base::CaseNode& node,
                                  const std::string& key,
                                  const std::string& name) const;
  /// @throws base::InputError with the faults of the study and then those of its cases
  void finish();

  base::CaseFile file;
  base::CaseNode root;
  std::vector<task::Task> tasks;

 private:
  std::vector<base::Fault> faults_;
  std::set<std::string> messages_;
};

/// The name of a case's own site, spot, oven or routine, for an axis without a list.
std::string own_name(const season::Case& c, results::Axis axis);
}  // namespace ovendays::study
