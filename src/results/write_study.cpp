// SPDX-License-Identifier: MIT
#include <algorithm>
#include <limits>
#include <numeric>

#include "h5.h"
#include "ovendays/base/check.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/results/study_file.h"
#include "seal.h"
#include "study_layout.h"

namespace ovendays::results {
namespace {
using h5::Writer;
using Dims = std::vector<std::string>;

const Dims kAlternative = {"alternative"};
const Dims kOutcomeDims = {"alternative", "task", "day"};

template <class Row, class Value>
std::vector<Value> column(const std::vector<Row>& rows, Value Row::*member) {
  std::vector<Value> values;
  values.reserve(rows.size());
  for (const Row& row : rows) values.push_back(row.*member);
  return values;
}

void write_study_head(Writer& out, const StoredStudy& study) {
  out.attribute("/", "Conventions", std::string("CF-1.8"));
  out.attribute("/", "title", "Box solar ovens compared: " + study.name);
  out.attribute("/", "source", "simulated by ovendays " + study.program_version);
  out.attribute("/", "ovendays_version", study.program_version);
  out.attribute("/", "ovendays_study_format", std::int32_t{kStudyFormat});
  out.attribute("/",
                "comment",
                std::string("Typical years of 365 days, laid on the calendar of 2001. All times "
                            "are local standard time."));
  out.attribute("/", "study_name", study.name);
  out.attribute("/", "study_file", study.study_file);
  out.attribute("/", "money", study.money);
  out.attribute("/", "tariff_per_J", study.tariff_per_J);
  out.attribute("/", "causes_looked_for", std::int32_t{study.causes ? 1 : 0});
  out.attribute("/", "draws", std::int32_t{study.draws});
  out.attribute("/", "seed_of_draws", std::to_string(study.seed));
}

void write_study_dimensions(Writer& out, const StoredStudy& study) {
  out.dimension("alternative",
                column(study.alternatives, &StudyAlternative::name),
                {"alternative; the first is what the others are held against", ""});
  out.dimension("task", column(study.tasks, &StudyTask::name), {"task", ""});
  std::vector<std::int32_t> days(season::kDays);
  std::iota(days.begin(), days.end(), 0);
  out.dimension<std::int32_t>("day", days, {"day of the year", "days since 2001-01-01"});
  for (const Axis axis : kAllAxes) {
    out.dimension(axis_name(axis), study.axes[axis], {axis_name(axis), ""});
  }
  out.values<double>("oven_price",
                     study.oven_prices,
                     {"oven"},
                     {"what the oven has cost, in the file's money", "1"});
  if (study.draws > 0) {
    std::vector<std::int32_t> draws(static_cast<std::size_t>(study.draws));
    std::iota(draws.begin(), draws.end(), 0);
    out.dimension<std::int32_t>("draw", draws, {"draw of the uncertain inputs", "1"});
  }
  if (!study.changes.empty()) {
    out.dimension("change",
                  column(study.changes, &StudyChange::name),
                  {"change to the first combination", ""});
  }
}

void write_study_tasks(Writer& out, const StoredStudy& study) {
  std::vector<std::uint8_t> counts;
  for (const StudyTask& task : study.tasks) counts.push_back(task.counts ? 1 : 0);
  out.flags("task_counts", counts, {"task"}, {"counts in totals and ranks", ""}, {"no", "yes"});
  out.values<double>("task_kitchen_J",
                     column(study.tasks, &StudyTask::kitchen_J),
                     {"task"},
                     {"energy of one cook in the kitchen", "J"});
  out.values<double>("task_cooks_a_year",
                     column(study.tasks, &StudyTask::cooks_a_year),
                     {"task"},
                     {"cooks wanted in a year", "1"});
  out.texts("task_kitchen_source",
            column(study.tasks, &StudyTask::kitchen_source),
            "task",
            {"source of the kitchen's energy", ""});
}

void write_changes(Writer& out, const StoredStudy& study) {
  if (study.changes.empty()) return;
  out.values<double>("change_price",
                     column(study.changes, &StudyChange::price),
                     {"change"},
                     {"price, in the file's money", "1"});
  const std::size_t count = study.changes.size();
  std::vector<std::uint8_t> excludes(count * count, 0);
  for (std::size_t i = 0; i < count; ++i) {
    for (const int other : study.changes[i].excludes)
      excludes[i * count + static_cast<std::size_t>(other)] = 1;
  }
  // Some readers do not accept one dimension twice in an array, so the second one has its own name.
  out.dimension("other_change", column(study.changes, &StudyChange::name), {"change", ""});
  out.flags("change_excludes",
            excludes,
            {"change", "other_change"},
            {"cannot be made together", ""},
            {"no", "yes"});
  std::vector<std::uint8_t> made(study.alternatives.size() * count, 0);
  for (std::size_t a = 0; a < study.alternatives.size(); ++a) {
    for (const int change : study.alternatives[a].changes)
      made[a * count + static_cast<std::size_t>(change)] = 1;
  }
  out.flags("change_made",
            made,
            {"alternative", "change"},
            {"the change is made in this alternative", ""},
            {"no", "yes"});
}

void write_alternatives(Writer& out, const StoredStudy& study) {
  out.texts("sha256",
            column(study.alternatives, &StudyAlternative::sha256),
            "alternative",
            {"SHA-256 of all that went in, the program's version included", ""});
  out.texts("failure",
            column(study.alternatives, &StudyAlternative::failure),
            "alternative",
            {"why it could not be run; empty where it was run or not tried", ""});
  for (const Axis axis : kAllAxes) {
    std::vector<std::int32_t> places;
    for (const StudyAlternative& each : study.alternatives) places.push_back(each.at[axis]);
    out.values<std::int32_t>(std::string(axis_name(axis)) + "_index",
                             places,
                             kAlternative,
                             {std::string("place in ") + axis_name(axis) + ", from 0", "1"});
  }
}

void write_days(Writer& out, const StoredStudy& study) {
  const float none = std::numeric_limits<float>::quiet_NaN();
  const std::size_t block = study.tasks.size() * season::kDays;
  const std::size_t total = block * study.alternatives.size();
  std::vector<std::uint8_t> outcomes(total, kNotRun);
  std::vector<std::uint8_t> causes(total, 0);
  std::vector<float> load_s(total, none);
  std::vector<float> finish_s(total, none);
  for (std::size_t a = 0; a < study.alternatives.size(); ++a) {
    const std::vector<StudyDay>& days = study.alternatives[a].days;
    for (std::size_t i = 0; i < days.size(); ++i) {
      outcomes[a * block + i] = static_cast<std::uint8_t>(days[i].outcome);
      causes[a * block + i] = static_cast<std::uint8_t>(days[i].cause);
      if (days[i].load_s >= 0) load_s[a * block + i] = days[i].load_s;
      if (days[i].finish_s >= 0) finish_s[a * block + i] = days[i].finish_s;
    }
  }
  h5::Flags words = outcome_words();
  words.emplace_back("not_run");
  out.flags("outcome", outcomes, kOutcomeDims, {"what became of the task", ""}, words);
  out.flags("cause", causes, kOutcomeDims, {"why it was not cooked", ""}, cause_words());
  out.values_or_none("load_s", load_s, kOutcomeDims, {"time of loading of the cook told of", "s"});
  out.values_or_none("finish_s", finish_s, kOutcomeDims, {"time at which it is done", "s"});
}

// The same draws, on the same days, for every alternative. Alternatives that have not been run have
// zeros, as their outcomes tell.
void write_draws(Writer& out, const StoredStudy& study) {
  if (study.draws < 1) return;
  const std::size_t block = study.tasks.size() * static_cast<std::size_t>(study.draws);
  std::vector<std::int32_t> gains(block * study.alternatives.size(), 0);
  for (std::size_t a = 0; a < study.alternatives.size(); ++a) {
    const std::vector<std::int16_t>& mine = study.alternatives[a].draw_gains;
    std::copy(mine.begin(), mine.end(), gains.begin() + static_cast<std::ptrdiff_t>(a * block));
  }
  out.values<std::int32_t>(
      "draw_gain",
      gains,
      {"alternative", "task", "draw"},
      {"days gained by the draw on every fourth day, from day draw mod 4", "1"});
}

void write_study_parts(Writer& out, const StoredStudy& study) {
  write_study_head(out, study);
  write_study_dimensions(out, study);
  write_study_tasks(out, study);
  write_changes(out, study);
  write_alternatives(out, study);
  write_days(out, study);
  write_draws(out, study);
  out.group("inputs", "what the study was run with");
  out.text("inputs/study_text", study.study_text, {"the study as read", ""});
}
}  // namespace

void write_study(const std::string& file, const StoredStudy& study) {
  OVENDAYS_CHECK(!study.alternatives.empty() && !study.tasks.empty());
  OVENDAYS_CHECK(study.oven_prices.size() == study.axes[kOven].size());
  for (const StudyAlternative& each : study.alternatives) {
    OVENDAYS_CHECK(!each.done() || !each.failed());
    OVENDAYS_CHECK(!each.done() || each.days.size() == study.tasks.size() * season::kDays);
    OVENDAYS_CHECK(each.draw_gains.size() ==
                   (each.done() ? study.tasks.size() * static_cast<std::size_t>(study.draws) : 0));
  }
  const h5::QuietErrors quiet;
  std::string bytes;
  try {
    Writer out;
    write_study_parts(out, study);
    bytes = out.finish();
  } catch (const h5::Failure& failure) {
    throw base::RunError(file + ": cannot be made: " + failure.what());
  }
  base::write_file(file, bytes + seal_of(bytes, kStudySeal));
}
}  // namespace ovendays::results
