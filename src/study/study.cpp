// SPDX-License-Identifier: MIT
#include "ovendays/study/study.h"

#include <algorithm>
#include <cstdio>
#include <map>
#include <mutex>

#include "ovendays/base/file.h"
#include "ovendays/results/results.h"
#include "ovendays/season/parallel.h"
#include "ovendays/season/physics_version.h"
#include "study_reading.h"

namespace ovendays::study {
namespace {
using results::Axis;
using results::StudyAlternative;

// A larger study is almost certainly a mistake, and its file would not fit in memory.
constexpr std::size_t kMostAlternatives = 100'000;
// The file has tables of changes by changes, of one byte each (judgement).
constexpr std::size_t kMostChanges = 5'000;
// Alternatives that are checked before their faults are merged, so that memory stays small where
// every alternative has the same long list of faults.
constexpr int kBatch = 256;

std::string joined(const std::vector<std::string>& parts, const char* between) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : between) + part;
  return text;
}

// Digests of weather files, each found once however many alternatives share the file.
class WeatherDigests {
 public:
  explicit WeatherDigests(base::FileTexts& files) : files_(files) {}
  /// @throws base::InputError as season::load_weather
  std::string of(const season::Case& c) {
    const std::lock_guard<std::mutex> lock(guard_);
    std::vector<Entry>& entries = known_[c.weather_file];
    for (const Entry& entry : entries) {
      if (entry.site != c.site) continue;
      if (entry.error) throw base::InputError(*entry.error);
      return entry.sha256;
    }
    Entry entry{c.site, "", std::nullopt};
    try {
      entry.sha256 = season::load_weather(c, files_).sha256;
    } catch (const base::InputError& error) {
      entry.error = error;
    }
    entries.push_back(std::move(entry));
    if (entries.back().error) throw base::InputError(*entries.back().error);
    return entries.back().sha256;
  }

 private:
  struct Entry {
    weather::SiteOverrides site;
    std::string sha256;
    std::optional<base::InputError> error;
  };
  base::FileTexts& files_;
  std::mutex guard_;
  std::map<std::string, std::vector<Entry>> known_;
};

// What a check of one alternative came to.
struct Checked {
  std::string sha256;
  std::vector<base::InputError> errors;
};
}  // namespace

// The axes and changes are read first, because the cases are needed to know the tasks that the rest
// of the file refers to.
Study::Study(const std::string& file, Causes causes, const StartOptions& options)
    : file_(file), text_(base::read_file(file)) {
  plan_.program_version = results::program_version();
  plan_.study_file = file;
  plan_.study_text = text_;
  plan_.draws = options.draws;
  plan_.seed = options.seed;
  plan_.causes = causes == Causes::kLookedFor;
  Reading reading(text_, file);
  reading.root.skip("case");
  read_axes(reading);
  read_changes(reading);
  combine();
  check_cases(reading, options);
  read_head(reading);
  read_kitchen(reading, reading.tasks);
  reading.finish();
}

void Study::combine() {
  std::size_t count = plan_.changes.size();
  std::size_t product = 1;
  for (const Axis axis : results::kAllAxes)
    product *= std::max<std::size_t>(1, plan_.axes[axis].size());
  if (count > kMostChanges) {
    throw base::InputError(
        base::Fault{file_, 0, "", std::to_string(count) + " changes", "at most 5000 in one study"});
  }
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
  base::CaseFile file = edits_->apply(edits);
  return season::read_case(file, file_);
}

// The digest covers everything that can change a result and nothing else, so a new price or another
// name of a change does not cause a new run.
std::string Study::digest_of(const season::Case& c, const weather::WeatherYear& year) const {
  return digest_of(c, year.sha256);
}

std::string Study::digest_of(const season::Case& c, const std::string& weather_sha256) const {
  std::string all = "ovendays " + plan_.program_version + "\n";
  all += "physics " + std::to_string(season::kPhysicsVersion) + "\n";
  all += plan_.causes ? "causes\n" : "no causes\n";
  if (plan_.draws > 0) {
    all += "draws " + std::to_string(plan_.draws) + ", seed " + std::to_string(plan_.seed) + "\n";
  }
  all += "case " + c.sha256 + "\n";
  all += "weather " + weather_sha256 + "\n";
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

// The first alternative is checked before the others, because it tells the tasks that all must
// have and the names of axes that the file does not list.
void Study::check_cases(Reading& reading, const StartOptions& options) {
  try {
    edits_.emplace(text_, file_, files_);
  } catch (const base::InputError& error) {
    return reading.add(error);
  }
  WeatherDigests weather(*files_);
  const auto check = [&](const StudyAlternative& each, bool first) {
    Checked checked;
    std::optional<season::Case> c;
    try {
      c = case_of(each);
    } catch (const base::InputError& error) {
      checked.errors.push_back(error);
      return checked;
    }
    if (first) {
      reading.take_tasks(*c);
      for (const Axis axis : results::kAllAxes) {
        if (plan_.axes[axis].empty()) plan_.axes[axis].push_back(own_name(*c, axis));
      }
    }
    if (const auto fault = reading.other_tasks(*c, each.name)) checked.errors.emplace_back(*fault);
    try {
      checked.sha256 = digest_of(*c, weather.of(*c));
    } catch (const base::InputError& error) {
      checked.errors.push_back(error);
    }
    return checked;
  };
  std::vector<StudyAlternative>& all = plan_.alternatives;
  season::Progress progress(static_cast<int>(all.size()), options.progress);
  const auto check_batch = [&](std::size_t from, std::size_t to, int threads) {
    std::vector<Checked> batch(to - from);
    season::parallel(static_cast<int>(to - from), threads, [&](int i) {
      const auto at = static_cast<std::size_t>(i);
      batch[at] = check(all[from + at], from == 0);
      progress.add();
    });
    for (std::size_t i = 0; i < batch.size(); ++i) {
      all[from + i].sha256 = std::move(batch[i].sha256);
      for (const base::InputError& error : batch[i].errors) reading.add(error);
    }
  };
  check_batch(0, 1, 1);
  for (std::size_t from = 1; from < all.size(); from += kBatch) {
    check_batch(from, std::min(all.size(), from + kBatch), options.threads);
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
