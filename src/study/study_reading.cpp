// SPDX-License-Identifier: MIT
#include "study_reading.h"

#include <algorithm>
#include <filesystem>

namespace ovendays::study {

void Study::Reading::add(const base::InputError& error) {
  for (const base::Fault& fault : error.faults()) {
    if (messages_.insert(fault.message()).second) faults_.push_back(fault);
  }
}

std::optional<base::Fault> Study::Reading::other_tasks(const season::Case& c,
                                                       const std::string& alternative) const {
  if (tasks.empty()) return std::nullopt;  // the first case has errors, which are reported instead
  const bool same =
      std::equal(tasks.begin(),
                 tasks.end(),
                 c.tasks.begin(),
                 c.tasks.end(),
                 [](const task::Task& a, const task::Task& b) { return a.name == b.name; });
  if (same) return std::nullopt;
  return base::Fault{
      c.file, 0, "", "'" + alternative + "' has other tasks than the first alternative", ""};
}

bool Study::Reading::require_task(const base::CaseNode& node,
                                  const std::string& key,
                                  const std::string& name) const {
  if (tasks.empty() || name.empty()) return true;
  std::string known;
  for (const task::Task& task : tasks) {
    if (task.name == name) return true;
    known += (known.empty() ? "'" : ", '") + task.name + "'";
  }
  node.fault(key, "'" + name + "'", "one of " + known);
  return false;
}

void Study::Reading::finish() {
  try {
    file.finish();
  } catch (const base::InputError& error) {
    std::vector<base::Fault> all = error.faults();
    all.insert(all.end(), faults_.begin(), faults_.end());
    throw base::InputError(std::move(all));
  }
  if (!faults_.empty()) throw base::InputError(std::move(faults_));
}

std::string own_name(const season::Case& c, results::Axis axis) {
  switch (axis) {
    case results::kSite:
      return c.site.name.value_or(std::filesystem::path(c.weather_file).stem().string());
    case results::kSpot:
      return c.spot.name;
    case results::kOven:
      return c.oven.name;
    case results::kRoutine:
      break;
  }
  return "the case's own";
}
}  // namespace ovendays::study
