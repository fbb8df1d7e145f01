// SPDX-License-Identifier: MIT
// Reads the tables of a study file.
#include <algorithm>
#include <map>
#include <set>

#include "ovendays/base/constants.h"
#include "ovendays/study/kitchen_saving.h"
#include "study_reading.h"

namespace ovendays::study {
namespace {
using base::CaseNode;
using base::Dimension;
using results::Axis;

constexpr double kMostMoney = 1e9;

// Reads the names of the entries of a list; a name must be unique.
std::vector<std::string> entry_names(const std::vector<CaseNode>& entries) {
  std::vector<std::string> names;
  std::set<std::string> known;
  for (const CaseNode& entry : entries) {
    std::string name = entry.required_text("name");
    if (!name.empty() && !known.insert(name).second) {
      entry.fault("name", "'" + name + "' is used twice", "a unique name");
    }
    names.push_back(std::move(name));
  }
  return names;
}

// The paths of the case that an entry changes. Additions to lists are kept apart, because two
// entries may add to the same list without conflict.
struct Touched {
  std::vector<std::string> replaced, added;
};

Touched touched_by(const CaseNode& entry) {
  Touched touched;
  touched.replaced = entry.skip_and_list_keys("set");
  for (std::string& path : entry.texts("drop")) touched.replaced.push_back(std::move(path));
  touched.added = entry.skip_and_list_keys("add");
  return touched;
}

// Finds, for one change after the other, the earlier ones that it excludes: those of which one
// replaces a path at, above or below one that the other replaces, or at or above a list that the
// other adds to (an addition is appended, so the list's present members stay as they are). Only
// the paths concerned are looked at, not all pairs.
class Conflicts {
 public:
  /// Indices of the changes in conflict with this one, ascending; the change is then remembered.
  std::vector<int> add(int change, const Touched& touched) {
    std::vector<int> found;
    for (const std::string& path : touched.replaced) {
      meet_at_or_above(path, Use::kReplaced, found);
      meet_below(path, Use::kReplaced, found);
      meet(path, Use::kAdded, found);
      meet_below(path, Use::kAdded, found);
    }
    for (const std::string& path : touched.added) meet_at_or_above(path, Use::kReplaced, found);
    for (const std::string& path : touched.replaced) of(Use::kReplaced)[path].push_back(change);
    for (const std::string& path : touched.added) of(Use::kAdded)[path].push_back(change);
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
  }

 private:
  enum class Use { kReplaced, kAdded };
  using Paths = std::map<std::string, std::vector<int>>;
  Paths& of(Use use) { return use == Use::kReplaced ? replaced_ : added_; }

  static void take(const std::vector<int>& changes, std::vector<int>& found) {
    found.insert(found.end(), changes.begin(), changes.end());
  }

  void meet(const std::string& path, Use use, std::vector<int>& found) {
    const auto same = of(use).find(path);
    if (same != of(use).end()) take(same->second, found);
  }

  void meet_at_or_above(const std::string& path, Use use, std::vector<int>& found) {
    for (std::size_t dot = path.find('.'); dot != std::string::npos;
         dot = path.find('.', dot + 1)) {
      meet(path.substr(0, dot), use, found);
    }
    meet(path, use, found);
  }

  void meet_below(const std::string& path, Use use, std::vector<int>& found) {
    const std::string start = path + ".";
    const Paths& paths = of(use);
    for (auto below = paths.lower_bound(start);
         below != paths.end() && below->first.starts_with(start);
         ++below) {
      take(below->second, found);
    }
  }

  Paths replaced_, added_;
};
}  // namespace

void Study::read_axes(Reading& reading) {
  for (const Axis axis : results::kAllAxes) {
    const std::vector<CaseNode> entries = reading.root.tables(results::axis_name(axis));
    plan_.axes[axis] = entry_names(entries);
    listed_[axis] = !entries.empty();
    for (const CaseNode& entry : entries) {
      entry.skip("use");
      touched_by(entry);
    }
  }
}

void Study::read_changes(Reading& reading) {
  const std::vector<CaseNode> entries = reading.root.tables("change");
  const std::vector<std::string> names = entry_names(entries);
  Conflicts conflicts;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const CaseNode& entry = entries[i];
    results::StudyChange change{.name = names[i], .price = 0.0, .excludes = {}};
    change.price = entry.quantity("price", Dimension::kNumber, {0.0, kMostMoney}, 0.0);
    const Touched touched = touched_by(entry);
    if (touched.replaced.empty() && touched.added.empty()) {
      entry.fault("", "changes nothing", "set, add or drop");
    }
    change.excludes = conflicts.add(static_cast<int>(i), touched);
    for (const int other : change.excludes) {
      plan_.changes[static_cast<std::size_t>(other)].excludes.push_back(static_cast<int>(i));
    }
    plan_.changes.push_back(std::move(change));
  }
}

void Study::read_head(Reading& reading) {
  const CaseNode head = reading.root.table("study");
  plan_.name = head.text("name", "study");
  plan_.money = head.text("money", "");
  together_ = head.flag("together", true);
  const std::vector<std::string> counted = head.texts("count");
  for (const task::Task& task : reading.tasks) {
    const bool counts =
        counted.empty() || std::find(counted.begin(), counted.end(), task.name) != counted.end();
    results::StudyTask stored;
    stored.name = task.name;
    stored.counts = counts;
    plan_.tasks.push_back(std::move(stored));
  }
  for (const std::string& name : counted) (void)reading.require_task(head, "count", name);
}

void Study::read_kitchen(Reading& reading, const std::vector<task::Task>& tasks) {
  const CaseNode kitchen = reading.root.table("kitchen");
  plan_.tariff_per_J =
      kitchen.quantity("tariff", Dimension::kNumber, {0.0, kMostMoney}, 0.0) / base::kJoulesPerKWh;
  // The price given in [kitchen] applies to every oven that has no price of its own.
  const double oven_price =
      kitchen.quantity("oven_price", Dimension::kNumber, {0.0, kMostMoney}, 0.0);
  plan_.oven_prices.resize(plan_.axes[results::kOven].size(), oven_price);
  const std::vector<CaseNode> ovens = reading.root.tables("oven");
  for (std::size_t i = 0; i < ovens.size() && i < plan_.oven_prices.size(); ++i) {
    plan_.oven_prices[i] =
        ovens[i].quantity("price", Dimension::kNumber, {0.0, kMostMoney}, oven_price);
  }
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    const KitchenEnergy usual = kitchen_energy(tasks[i]);
    plan_.tasks[i].kitchen_J = usual.energy_J;
    plan_.tasks[i].kitchen_source = usual.source;
    plan_.tasks[i].cooks_a_year =
        static_cast<double>(season::kDays) / static_cast<double>(tasks.size());
  }
  for (const CaseNode& entry : kitchen.tables("task")) {
    const std::string name = entry.required_text("name");
    const auto energy_J = entry.optional_quantity("energy", Dimension::kEnergy, {0.0, 1e9});
    const auto a_week = entry.optional_quantity("cooks_a_week", Dimension::kNumber, {0.0, 7.0});
    if (!reading.require_task(entry, "name", name)) continue;
    const auto found = std::find_if(
        plan_.tasks.begin(), plan_.tasks.end(), [&name](const auto& t) { return t.name == name; });
    if (found == plan_.tasks.end()) continue;
    if (energy_J) {
      found->kitchen_J = *energy_J;
      found->kitchen_source = "given in the study";
    }
    if (a_week) found->cooks_a_year = *a_week * season::kDays / 7.0;
  }
}
}  // namespace ovendays::study
