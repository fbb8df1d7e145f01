// SPDX-License-Identifier: MIT
#include "ovendays/study/study.h"

#include <algorithm>
#include <cstdio>

#include "ovendays/base/constants.h"
#include "ovendays/base/file.h"
#include "ovendays/results/results.h"
#include "ovendays/study/saving.h"
#include "study_reading.h"

namespace ovendays::study {
namespace {
using base::CaseNode;
using base::Dimension;
using results::Axis;
using results::StudyAlternative;

constexpr double kJoulePerKWh = 3.6e6;
constexpr double kMostMoney = 1e9;
constexpr std::size_t kMostAlternatives = 100'000;
constexpr std::array<Axis, results::kAxes> kAllAxes = {
    results::kSite, results::kSpot, results::kOven, results::kRoutine};

// Names of the entries of an array, each given once.
std::vector<std::string> entry_names(const std::vector<CaseNode>& entries) {
  std::vector<std::string> names;
  for (const CaseNode& entry : entries) {
    std::string name = entry.required_text("name");
    if (!name.empty() && std::find(names.begin(), names.end(), name) != names.end()) {
      entry.fault("name", "'" + name + "' is there already", "a name of its own");
    }
    names.push_back(std::move(name));
  }
  return names;
}

// Paths of the case that an entry touches; what it adds to a list stands apart, since two entries
// may add to one list.
struct Touched {
  std::vector<std::string> replaced, added;
};

Touched touched_by(const CaseNode& entry) {
  Touched touched;
  touched.replaced = entry.left_keys("set");
  for (std::string& path : entry.texts("drop")) touched.replaced.push_back(std::move(path));
  touched.added = entry.left_keys("add");
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

std::string joined(const std::vector<std::string>& parts, const char* between) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : between) + part;
  return text;
}
}  // namespace

Study::Study(const std::string& file, Causes causes) : file_(file), text_(base::read_file(file)) {
  plan_.program_version = results::program_version();
  plan_.study_file = file;
  plan_.study_text = text_;
  plan_.causes = causes == Causes::kLookedFor;
  Reading reading(text_, file);
  reading.root.leave("case");
  read_axes(reading);
  read_changes(reading);
  combine();
  check_cases(reading);
  read_head(reading);
  read_kitchen(reading, reading.tasks);
  reading.finish();
  check_pairs();
}

void Study::read_axes(Reading& reading) {
  for (const Axis axis : kAllAxes) {
    const std::vector<CaseNode> entries = reading.root.tables(results::axis_name(axis));
    plan_.axes[axis] = entry_names(entries);
    listed_[axis] = !entries.empty();
    for (const CaseNode& entry : entries) {
      entry.leave("use");
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

void Study::combine() {
  std::size_t count = plan_.changes.size();
  std::size_t product = 1;
  for (const Axis axis : kAllAxes) product *= std::max<std::size_t>(1, plan_.axes[axis].size());
  count += product;
  if (count > kMostAlternatives) {
    throw base::InputError(base::Fault{
        file_, 0, "", std::to_string(count) + " alternatives", "at most 100000 in one study"});
  }
  for (std::size_t i = 0; i < product; ++i) {
    StudyAlternative made;
    std::vector<std::string> names;
    std::size_t rest = i;
    for (std::size_t a = results::kAxes; a-- > 0;) {  // the first axis turns slowest
      const std::size_t length = std::max<std::size_t>(1, plan_.axes[a].size());
      made.at[a] = static_cast<int>(rest % length);
      rest /= length;
      if (length > 1)
        names.insert(names.begin(), plan_.axes[a][static_cast<std::size_t>(made.at[a])]);
    }
    made.name = names.empty() ? "as it is" : joined(names, " | ");
    plan_.alternatives.push_back(std::move(made));
  }
  for (int i = 0; i < static_cast<int>(plan_.changes.size()); ++i) {
    plan_.alternatives.push_back(with_changes({i}));
  }
}

StudyAlternative Study::with_changes(const std::vector<int>& changes) const {
  StudyAlternative made;
  std::vector<std::string> names;
  for (const int change : changes) {
    names.push_back(plan_.changes[static_cast<std::size_t>(change)].name);
  }
  made.name = joined(names, " + ");
  made.changes = changes;
  return made;
}

season::Case Study::case_of(const StudyAlternative& alternative) const {
  std::vector<base::CaseEdit> edits;
  for (const Axis axis : kAllAxes) {
    if (listed_[axis]) {
      edits.push_back({results::axis_name(axis), static_cast<std::size_t>(alternative.at[axis])});
    }
  }
  for (const int change : alternative.changes) {
    edits.push_back({"change", static_cast<std::size_t>(change)});
  }
  base::CaseFile file = base::CaseFile::edited(text_, file_, edits);
  return season::read_case(file, file_);
}

std::string Study::digest_of(const season::Case& c, const weather::WeatherYear& year) const {
  std::string all = "ovendays " + plan_.program_version + "\n";
  all += plan_.causes ? "causes\n" : "no causes\n";
  all += c.text;
  all += "\nweather " + year.sha256 + "\n";
  // The horizon may come from a file of its own, whose text is no part of the case's.
  char number[40];
  for (const std::vector<double>* list :
       {&c.spot.horizon.azimuth_rad, &c.spot.horizon.elevation_rad}) {
    for (const double value : *list) {
      std::snprintf(number, sizeof number, "%.17g ", value);
      all += number;
    }
    all += '\n';
  }
  return base::sha256_hex(all);
}

void Study::check_cases(Reading& reading) {
  WeatherShelf shelf;
  for (StudyAlternative& each : plan_.alternatives) {
    std::optional<season::Case> c;
    try {
      c = case_of(each);
    } catch (const base::InputError& error) {
      reading.add(error);
      continue;
    }
    if (&each == &plan_.alternatives.front()) reading.take_tasks(*c);
    reading.compare_tasks(*c, each.name);
    for (const Axis axis : kAllAxes) {  // an axis without a list has the case's own name
      if (plan_.axes[axis].empty()) plan_.axes[axis].push_back(own_name(*c, axis));
    }
    try {
      each.sha256 = digest_of(*c, shelf.year_of(*c));
    } catch (const base::InputError& error) {
      reading.add(error);
    }
  }
}

// Two changes that are sound alone but not together, such as one pane too many, exclude each other.
void Study::check_pairs() {
  for (int i = 0; together_ && i < static_cast<int>(plan_.changes.size()); ++i) {
    std::vector<int>& known = plan_.changes[static_cast<std::size_t>(i)].excludes;
    for (int j = 0; j < i; ++j) {
      if (std::find(known.begin(), known.end(), j) != known.end()) continue;
      try {
        (void)case_of(with_changes({j, i}));
      } catch (const base::InputError&) {
        known.push_back(j);
        plan_.changes[static_cast<std::size_t>(j)].excludes.push_back(i);
      }
    }
  }
  for (results::StudyChange& change : plan_.changes) {
    std::sort(change.excludes.begin(), change.excludes.end());
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
      kitchen.quantity("tariff", Dimension::kNumber, {0.0, kMostMoney}, 0.0) / kJoulePerKWh;
  plan_.oven_price = kitchen.quantity("oven_price", Dimension::kNumber, {0.0, kMostMoney}, 0.0);
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
      found->kitchen_source = "told by the study";
    }
    if (a_week) found->cooks_a_year = *a_week * season::kDays / 7.0;
  }
}

const weather::WeatherYear& WeatherShelf::year_of(const season::Case& c) {
  if (!year_ || c.weather_file != file_ || c.site != site_) {
    year_.reset();  // never two at a time
    year_ = season::load_weather(c);
    file_ = c.weather_file;
    site_ = c.site;
  }
  return *year_;
}
}  // namespace ovendays::study
