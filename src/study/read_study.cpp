// SPDX-License-Identifier: MIT
// Reads the tables of a study file.
#include <algorithm>

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
  for (const CaseNode& entry : entries) {
    std::string name = entry.required_text("name");
    if (!name.empty() && std::find(names.begin(), names.end(), name) != names.end()) {
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

bool within(const std::string& inner, const std::string& outer) {
  return inner == outer || inner.starts_with(outer + ".");
}

bool any_meets(const std::vector<std::string>& one, const std::vector<std::string>& other) {
  return std::any_of(one.begin(), one.end(), [&other](const std::string& a) {
    return std::any_of(other.begin(), other.end(), [&a](const std::string& b) {
      return within(a, b) || within(b, a);
    });
  });
}

bool exclude_each_other(const Touched& a, const Touched& b) {
  return any_meets(a.replaced, b.replaced) || any_meets(a.replaced, b.added) ||
         any_meets(a.added, b.replaced);
}

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
  std::vector<Touched> touched;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const CaseNode& entry = entries[i];
    results::StudyChange change{.name = names[i], .price = 0.0, .excludes = {}};
    change.price = entry.quantity("price", Dimension::kNumber, {0.0, kMostMoney}, 0.0);
    touched.push_back(touched_by(entry));
    if (touched.back().replaced.empty() && touched.back().added.empty()) {
      entry.fault("", "changes nothing", "set, add or drop");
    }
    for (std::size_t j = 0; j < i; ++j) {
      if (!exclude_each_other(touched[i], touched[j])) continue;
      change.excludes.push_back(static_cast<int>(j));
      plan_.changes[j].excludes.push_back(static_cast<int>(i));
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
