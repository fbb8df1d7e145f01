// SPDX-License-Identifier: MIT
#include "spread_part.h"

#include <cmath>

#include "inputs.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/report/question_report.h"
#include "ovendays/study/study_arrays.h"

namespace ovendays::cli {
namespace {
constexpr long kLeastDraws = 5, kMostDraws = 5000, kMostSeed = 1'000'000'000;
constexpr const char* kOut = "spread-out";
constexpr const char* kSvg = "spread-svg";

/// Whether two files are of the same place. Files round coordinates differently, so half a degree
/// is close enough.
bool same_place(const sun::Place& a, const sun::Place& b) {
  constexpr double kApart_rad = 0.5 * base::kRadPerDeg;
  return std::abs(a.latitude_rad - b.latitude_rad) < kApart_rad &&
         std::abs(a.longitude_rad - b.longitude_rad) < kApart_rad;
}
}  // namespace

SpreadPart::SpreadPart(const Arguments& arguments) : arguments_(arguments) {
  draws_ = arguments.integer("spread", 0, kMostDraws);
  if (whole_seasons() && *draws_ < kLeastDraws) {
    throw UsageError("--spread: '" + std::to_string(*draws_) + "', allowed 0 or " +
                     std::to_string(kLeastDraws) + " to " + std::to_string(kMostDraws));
  }
  (void)arguments.integer("seed", 0, kMostSeed);
  files_ = arguments.values("weather");
  // The first file is the season's own weather; only further ones belong to the spread.
  if (!files_.empty()) files_.erase(files_.begin());
  if (whole_seasons()) return;
  if (!files_.empty()) throw UsageError("--weather is given twice; several years need --spread");
  for (const char* option : {kOut, kSvg}) {
    if (arguments.has(option)) throw UsageError(std::string("--") + option + " needs --spread");
  }
  if (draws_ && arguments.has("seed")) throw UsageError("--seed has no use with --spread 0");
}

void SpreadPart::add_to(Outputs& outputs) const {
  for (const std::string& file : files_) outputs.input(file);
  for (const char* option : {kOut, kSvg}) {
    if (const auto file = arguments_.value(option)) {
      outputs.add(std::string("--") + option, *file);
    }
  }
}

void SpreadPart::read_years(const season::Case& c, const weather::WeatherYear& first) {
  if (!whole_seasons()) return;
  years_ = {first};
  for (const std::string& file : files_) {
    season::Case other = c;
    other.weather_file = file;
    years_.push_back(season::load_weather(other));
    if (!same_place(years_.back().place, first.place)) {
      throw base::InputError(
          base::Fault{file, 0, "--weather", "another place", "years of one place, " + first.file});
    }
  }
}

std::string SpreadPart::run(const season::Case& c,
                            const weather::WeatherYear& year,
                            results::StoredSeason& stored,
                            int width) const {
  if (draws_ && *draws_ == 0) return "";
  Progress progress;
  study::SpreadOptions options;
  options.draws = static_cast<int>(draws_.value_or(study::kLikelyDraws));
  options.seed = static_cast<std::uint64_t>(arguments_.integer("seed", 0, kMostSeed).value_or(1));
  options.season.threads = chosen_threads(arguments_);
  if (!arguments_.has("quiet")) {
    options.season.progress = [&progress](double share) { progress.show(share, "ranges"); };
  }
  if (!whole_seasons()) {
    results::add_ranges(study::likely_ranges(c, year, stored.result, options), stored);
    return "";
  }
  const study::Spread spread = study::run_spread(c, years_, options);
  results::add_ranges(study::task_ranges(c, spread), stored);
  if (const auto file = arguments_.value(kOut)) {
    results::write_arrays(*file, study::spread_file(spread), c, years_[0]);
  }
  if (const auto file = arguments_.value(kSvg)) {
    base::write_file(*file, report::spread_svg(spread));
  }
  return "\n" + report::spread_table(spread, width);
}

std::string SpreadPart::written() const {
  std::string text;
  for (const char* option : {kOut, kSvg}) {
    if (const auto file = arguments_.value(option)) text += "Written: " + *file + "\n";
  }
  return text;
}

std::vector<OptionSpec> SpreadPart::options() {
  return {{"spread",
           "N",
           "ranges from N more whole seasons (5 or more; 50 is enough), printed in detail; 0: no "
           "ranges (default: a quick range from 12 draws on a quarter of the days)"},
          {"seed", "N", "seed of the draws (default: 1)"},
          {kOut, "FILE.h5", "also write the inputs and days of every draw"},
          {kSvg, "FILE", "also write a picture of the ranges"}};
}
}  // namespace ovendays::cli
