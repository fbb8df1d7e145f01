// SPDX-License-Identifier: MIT
#include "ovendays/study/study.h"

#include <algorithm>
#include <cstdio>

#include "ovendays/base/file.h"
#include "ovendays/results/results.h"
#include "ovendays/season/physics_version.h"
#include "study_reading.h"

namespace ovendays::study {
namespace {
using results::Axis;
using results::StudyAlternative;

// A larger study is almost certainly a mistake, and its file would not fit in memory.
constexpr std::size_t kMostAlternatives = 100'000;

std::string joined(const std::vector<std::string>& parts, const char* between) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : between) + part;
  return text;
}
}  // namespace

// The axes and changes are read first, because the cases are needed to know the tasks that the rest
// of the file refers to.
Study::Study(const std::string& file, Causes causes) : file_(file), text_(base::read_file(file)) {
  plan_.program_version = results::program_version();
  plan_.study_file = file;
  plan_.study_text = text_;
  plan_.causes = causes == Causes::kLookedFor;
  Reading reading(text_, file);
  reading.root.skip("case");
  read_axes(reading);
  read_changes(reading);
  combine();
  check_cases(reading);
  read_head(reading);
  read_kitchen(reading, reading.tasks);
  reading.finish();
  check_pairs();
}

void Study::combine() {
  std::size_t count = plan_.changes.size();
  std::size_t product = 1;
  for (const Axis axis : results::kAllAxes)
    product *= std::max<std::size_t>(1, plan_.axes[axis].size());
  count += product;
  if (count > kMostAlternatives) {
    throw base::InputError(base::Fault{
        file_, 0, "", std::to_string(count) + " alternatives", "at most 100000 in one study"});
  }
  for (std::size_t i = 0; i < product; ++i) {
    StudyAlternative made;
    std::vector<std::string> names;
    // Decode the number of the combination into one index for each axis.
    std::size_t rest = i;
    for (std::size_t a = results::kAxes; a-- > 0;) {  // the first axis varies slowest
      const std::size_t length = std::max<std::size_t>(1, plan_.axes[a].size());
      made.at[a] = static_cast<int>(rest % length);
      rest /= length;
      if (length > 1)
        names.insert(names.begin(), plan_.axes[a][static_cast<std::size_t>(made.at[a])]);
    }
    made.name = names.empty() ? "as it is" : joined(names, " / ");
    plan_.alternatives.push_back(std::move(made));
  }
  for (int i = 0; i < static_cast<int>(plan_.changes.size()); ++i) {
    plan_.alternatives.push_back(with_changes({i}));
  }
}

StudyAlternative Study::with_changes(const std::vector<int>& changes) const {
  StudyAlternative made;
  std::vector<std::string> names;
  names.reserve(changes.size());
  for (const int change : changes) {
    names.push_back(plan_.changes[static_cast<std::size_t>(change)].name);
  }
  made.name = joined(names, " + ");
  made.changes = changes;
  return made;
}

season::Case Study::case_of(const StudyAlternative& alternative) const {
  std::vector<base::CaseEdit> edits;
  for (const Axis axis : results::kAllAxes) {
    if (listed_[axis]) {
      edits.push_back({results::axis_name(axis), static_cast<std::size_t>(alternative.at[axis])});
    }
  }
  for (const int change : alternative.changes) {
    edits.push_back({"change", static_cast<std::size_t>(change)});
  }
  base::CaseFile file = base::CaseFile::edited(text_, file_, edits, files_);
  return season::read_case(file, file_);
}

// The digest covers everything that can change a result and nothing else, so a new price or another
// name of a change does not cause a new run.
std::string Study::digest_of(const season::Case& c, const weather::WeatherYear& year) const {
  std::string all = "ovendays " + plan_.program_version + "\n";
  all += "physics " + std::to_string(season::kPhysicsVersion) + "\n";
  all += plan_.causes ? "causes\n" : "no causes\n";
  all += c.text;
  all += "\nweather " + year.sha256 + "\n";
  // The horizon may come from a separate file, which the text of the case does not contain.
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
  WeatherCache weather(files_);
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
    for (const Axis axis :
         results::kAllAxes) {  // an axis without a list takes its name from the case
      if (plan_.axes[axis].empty()) plan_.axes[axis].push_back(own_name(*c, axis));
    }
    try {
      each.sha256 = digest_of(*c, weather.year_of(*c));
    } catch (const base::InputError& error) {
      reading.add(error);
    }
  }
}

// Two changes that are valid alone but not together, such as one pane too many, exclude each other.
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

const weather::WeatherYear& WeatherCache::year_of(const season::Case& c) {
  if (!year_ || c.weather_file != file_ || c.site != site_) {
    year_.reset();  // first, so that never two years are in memory
    year_ = season::load_weather(c, *files_);
    file_ = c.weather_file;
    site_ = c.site;
  }
  return *year_;
}
}  // namespace ovendays::study
