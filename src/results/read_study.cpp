// SPDX-License-Identifier: MIT
#include <charconv>
#include <cmath>
#include <cstdlib>

#include "h5.h"
#include "ovendays/results/study_file.h"
#include "read_sealed.h"
#include "study_layout.h"

namespace ovendays::results {
namespace {
using h5::Reader;

void read_study_head(const Reader& in, StoredStudy& study) {
  const double format = in.number_attribute("/", "ovendays_study_format");
  if (format != kStudyFormat) {
    throw h5::Failure("layout " + std::to_string(static_cast<long>(format)) +
                      ", this program reads layout " + std::to_string(kStudyFormat));
  }
  study.program_version = in.text_attribute("/", "ovendays_version");
  study.name = in.text_attribute("/", "study_name");
  study.study_file = in.text_attribute("/", "study_file");
  study.money = in.text_attribute("/", "money");
  study.tariff_per_J = in.number_attribute("/", "tariff_per_J");
  study.causes = in.number_attribute("/", "causes_looked_for") != 0;
  constexpr double kMostDraws = 10'000;
  const double draws = in.number_attribute("/", "draws");
  if (!(draws >= 0.0 && draws <= kMostDraws)) throw h5::Failure("draws: out of range");
  study.draws = static_cast<int>(draws);
  const std::string seed = in.text_attribute("/", "seed_of_draws");
  const char* end = seed.data() + seed.size();
  if (std::from_chars(seed.data(), end, study.seed).ptr != end) {
    throw h5::Failure("seed_of_draws: no number");
  }
  study.study_text = in.text("inputs/study_text");
}

void read_study_tasks(const Reader& in, StoredStudy& study) {
  const std::vector<std::string> names = in.texts("task");
  const auto counts = in.values<std::uint8_t>("task_counts", names.size());
  const auto kitchen_J = in.values<double>("task_kitchen_J", names.size());
  const auto cooks = in.values<double>("task_cooks_a_year", names.size());
  const auto sources = in.texts("task_kitchen_source");
  if (sources.size() != names.size()) throw h5::Failure("task_kitchen_source: wrong length");
  for (std::size_t i = 0; i < names.size(); ++i) {
    study.tasks.push_back({.name = names[i],
                           .counts = counts[i] != 0,
                           .kitchen_J = kitchen_J[i],
                           .cooks_a_year = cooks[i],
                           .kitchen_source = sources[i]});
  }
}

// Indices of the ones in a row of a flag matrix.
std::vector<int> marked(const std::vector<std::uint8_t>& flags,
                        std::size_t row,
                        std::size_t width) {
  std::vector<int> places;
  for (std::size_t i = 0; i < width; ++i) {
    if (flags[row * width + i] != 0) places.push_back(static_cast<int>(i));
  }
  return places;
}

void read_changes(const Reader& in, StoredStudy& study) {
  if (!in.has("change")) return;
  const std::vector<std::string> names = in.texts("change");
  const std::size_t count = names.size();
  const auto prices = in.values<double>("change_price", count);
  const auto excludes = in.values<std::uint8_t>("change_excludes", count * count);
  for (std::size_t i = 0; i < count; ++i) {
    study.changes.push_back(
        {.name = names[i], .price = prices[i], .excludes = marked(excludes, i, count)});
  }
  const std::size_t alternatives = study.alternatives.size();
  const auto made = in.values<std::uint8_t>("change_made", alternatives * count);
  for (std::size_t a = 0; a < alternatives; ++a) {
    study.alternatives[a].changes = marked(made, a, count);
  }
}

void read_alternatives(const Reader& in, StoredStudy& study) {
  const std::vector<std::string> names = in.texts("alternative");
  const std::vector<std::string> digests = in.texts("sha256");
  if (digests.size() != names.size()) throw h5::Failure("sha256: wrong length");
  const std::vector<std::string> failures = in.texts("failure");
  if (failures.size() != names.size()) throw h5::Failure("failure: wrong length");
  study.alternatives.resize(names.size());
  for (std::size_t a = 0; a < names.size(); ++a) {
    study.alternatives[a].name = names[a];
    study.alternatives[a].sha256 = digests[a];
    study.alternatives[a].failure = failures[a];
  }
  for (const Axis axis : kAllAxes) {
    study.axes[axis] = in.texts(axis_name(axis));
    const std::string name = std::string(axis_name(axis)) + "_index";
    const auto places = in.values<std::int32_t>(name, names.size());
    for (std::size_t a = 0; a < names.size(); ++a) {
      if (places[a] < 0 || static_cast<std::size_t>(places[a]) >= study.axes[axis].size()) {
        throw h5::Failure(name + ": out of range");
      }
      study.alternatives[a].at[axis] = places[a];
    }
  }
  study.oven_prices = in.values<double>("oven_price", study.axes[kOven].size());
}

struct DayColumns {
  std::vector<std::uint8_t> outcome, cause;
  std::vector<float> load_s, finish_s;
};

StudyDay day_of(const DayColumns& columns, std::size_t at) {
  if (columns.outcome[at] >= season::kOutcomes) throw h5::Failure("outcome: unknown value");
  if (columns.cause[at] >= season::kCauses) throw h5::Failure("cause: unknown value");
  const auto time = [at](const std::vector<float>& times) {
    return std::isnan(times[at]) ? -1.0F : times[at];
  };
  return {.outcome = static_cast<season::Outcome>(columns.outcome[at]),
          .cause = static_cast<season::Cause>(columns.cause[at]),
          .load_s = time(columns.load_s),
          .finish_s = time(columns.finish_s)};
}

void read_days(const Reader& in, StoredStudy& study) {
  const std::size_t block = study.tasks.size() * season::kDays;
  const std::size_t total = block * study.alternatives.size();
  const DayColumns columns{in.values<std::uint8_t>("outcome", total),
                           in.values<std::uint8_t>("cause", total),
                           in.values<float>("load_s", total),
                           in.values<float>("finish_s", total)};
  for (std::size_t a = 0; a < study.alternatives.size(); ++a) {
    const std::size_t first = a * block;
    if (block == 0 || columns.outcome[first] == kNotRun) continue;
    if (study.alternatives[a].failed()) throw h5::Failure("failure: of an alternative with days");
    for (std::size_t i = 0; i < block; ++i)
      study.alternatives[a].days.push_back(day_of(columns, first + i));
  }
}

void read_draws(const Reader& in, StoredStudy& study) {
  if (study.draws < 1) return;
  const std::size_t block = study.tasks.size() * static_cast<std::size_t>(study.draws);
  const auto gains = in.values<std::int32_t>("draw_gain", block * study.alternatives.size());
  for (std::size_t a = 0; a < study.alternatives.size(); ++a) {
    if (!study.alternatives[a].done()) continue;
    for (std::size_t i = 0; i < block; ++i) {
      const std::int32_t gain = gains[a * block + i];
      if (std::abs(gain) > season::kDays) throw h5::Failure("draw_gain: out of range");
      study.alternatives[a].draw_gains.push_back(static_cast<std::int16_t>(gain));
    }
  }
}

StoredStudy read_study_parts(const Reader& in) {
  StoredStudy study;
  read_study_head(in, study);
  read_study_tasks(in, study);
  read_alternatives(in, study);
  read_changes(in, study);
  read_days(in, study);
  read_draws(in, study);
  if (study.tasks.empty() || study.alternatives.empty()) throw h5::Failure("nothing in it");
  return study;
}
}  // namespace

StoredStudy read_study_file(const std::string& file) {
  return read_sealed(file, kStudySeal, read_study_parts);
}
}  // namespace ovendays::results
