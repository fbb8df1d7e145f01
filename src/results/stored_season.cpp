// SPDX-License-Identifier: MIT
#include <utility>

#include "ovendays/base/check.h"
#include "ovendays/base/file.h"
#include "ovendays/results/results.h"

namespace ovendays::results {

const char* program_version() { return OVENDAYS_VERSION; }

const char* notch_limit_key(task::NotchHelp help) {
  switch (help) {
    case task::NotchHelp::kRack:
      return "fixed";
    case task::NotchHelp::kRoom:
      return "clearance";
    case task::NotchHelp::kSettings:
      return "settings";
    case task::NotchHelp::kNone:
      break;
  }
  return "";
}

namespace {
StoredTask stored_task(const oven::OvenDesign& oven, const task::Task& t, double used_target_K) {
  StoredTask stored;
  stored.notch_limit = notch_limit_key(task::notch_help(oven, t));
  static_cast<task::TaskGoal&>(stored) = t;
  stored.used_target_K = used_target_K;
  stored.food_kg = t.food.mass_kg;
  if (!t.spoils) {
    stored.rule.clear();
    return stored;
  }
  const task::DangerRule& rule = task::danger_rule_of(t);
  stored.rule_text = rule.text;
  stored.rule_limit_s = rule.limit_s;
  return stored;
}
}  // namespace

StoredSeason stored_season(const season::Case& c,
                           const weather::WeatherYear& year,
                           season::SeasonResult result) {
  OVENDAYS_CHECK(c.tasks.size() == result.task_names.size());
  OVENDAYS_CHECK(result.task_target_K.size() == result.task_names.size());
  OVENDAYS_CHECK(result.load_names.size() >= result.tables.size());
  StoredSeason stored{.program_version = program_version(),
                      .case_file = c.file,
                      .case_text = c.text,
                      .case_sha256 = base::sha256_hex(c.text),
                      .weather = year,
                      .tasks = {},
                      .result = std::move(result),
                      .tables = {}};
  for (std::size_t i = 0; i < c.tasks.size(); ++i) {
    stored.tasks.push_back(stored_task(c.oven, c.tasks[i], stored.result.task_target_K[i]));
  }
  for (std::size_t i = 0; i < stored.result.tables.size(); ++i) {
    const optics::AcceptanceTable& table = stored.result.tables[i];
    stored.tables.push_back({.load = stored.result.load_names[i],
                             .grid = table.grid(),
                             .error = table.error(),
                             .nodes = {table.nodes().begin(), table.nodes().end()}});
  }
  stored.result.tables.clear();
  return stored;
}

void add_ranges(const std::vector<season::TaskRange>& ranges, StoredSeason& stored) {
  OVENDAYS_CHECK(ranges.size() == stored.tasks.size());
  for (std::size_t i = 0; i < ranges.size(); ++i)
    static_cast<season::TaskRange&>(stored.tasks[i]) = ranges[i];
}
}  // namespace ovendays::results
