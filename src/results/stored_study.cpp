// SPDX-License-Identifier: MIT
#include <algorithm>

#include "ovendays/base/check.h"
#include "ovendays/base/error.h"
#include "ovendays/results/study_file.h"
#include "study_layout.h"

namespace ovendays::results {
namespace {
// Why two files do not belong to one study; empty if they do.
std::string difference(const StoredStudy& a, const StoredStudy& b) {
  if (a.program_version != b.program_version) return "it was run by another version";
  if (a.alternatives.size() != b.alternatives.size())
    return "it has another number of alternatives";
  for (std::size_t i = 0; i < a.alternatives.size(); ++i) {
    const StudyAlternative& one = a.alternatives[i];
    const StudyAlternative& other = b.alternatives[i];
    if (one.name != other.name) return "it has '" + other.name + "' for '" + one.name + "'";
    if (one.sha256 != other.sha256) return "it ran '" + one.name + "' with other inputs";
  }
  if (a.study_text != b.study_text) return "its study file reads otherwise";
  return "";
}
}  // namespace

const char* axis_name(Axis axis) {
  static constexpr std::array<const char*, kAxes> kNames = {"site", "spot", "oven", "routine"};
  return kNames[axis];
}

h5::Flags outcome_words() { return {"cooked", "unsafe", "short", "no_go"}; }

h5::Flags cause_words() {
  return {"none", "obstruction", "cloud", "aim", "wind", "rain", "routine", "season", "several"};
}

std::size_t StoredStudy::combinations() const {
  return static_cast<std::size_t>(
      std::count_if(alternatives.begin(), alternatives.end(), [](const StudyAlternative& each) {
        return each.changes.empty();
      }));
}

std::size_t StoredStudy::planned() const { return combinations() + changes.size(); }

StoredStudy gathered(const std::vector<StoredStudy>& parts, const std::vector<std::string>& names) {
  OVENDAYS_CHECK(!parts.empty() && parts.size() == names.size());
  StoredStudy all = parts.front();
  std::vector<base::Fault> faults;
  for (std::size_t p = 1; p < parts.size(); ++p) {
    const std::string why = difference(all, parts[p]);
    if (!why.empty()) {
      faults.push_back(
          {names[p], 0, "", "is not of the same study as " + names[0] + ": " + why, ""});
      continue;
    }
    for (std::size_t a = 0; a < all.alternatives.size(); ++a) {
      StudyAlternative& mine = all.alternatives[a];
      if (mine.done()) continue;
      mine.days = parts[p].alternatives[a].days;
      mine.draw_gains = parts[p].alternatives[a].draw_gains;
      if (mine.done()) {
        mine.failure.clear();
      } else if (!mine.failed()) {
        mine.failure = parts[p].alternatives[a].failure;
      }
    }
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
  return all;
}
}  // namespace ovendays::results
