// SPDX-License-Identifier: MIT
// State while a study is being read: its file, the faults found in its cases, and the tasks of the
// first case.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "ovendays/study/study.h"

namespace ovendays::study {

struct Study::Reading {
  Reading(const std::string& text, const std::string& name) : file(text, name), root(file.root()) {}

  /// Adds the faults of a case; a fault that many cases share is kept once.
  void add(const base::InputError& error);
  void take_tasks(const season::Case& c) { tasks = c.tasks; }
  /// A fault where a case's tasks differ from those of the first, because results are compared by
  /// task.
  [[nodiscard]] std::optional<base::Fault> other_tasks(const season::Case& c,
                                                       const std::string& alternative) const;
  /// Whether a task exists; adds a fault at the key if not. True while the tasks are unknown.
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

/// Name of the case's own site, spot, oven or routine, for an axis that the study does not list.
std::string own_name(const season::Case& c, results::Axis axis);
}  // namespace ovendays::study
