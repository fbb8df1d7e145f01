// SPDX-License-Identifier: MIT
#include <charconv>
#include <filesystem>

#include "commands.h"
#include "inputs.h"
#include "ovendays/base/error.h"
#include "ovendays/report/study_report.h"
#include "ovendays/season/parallel.h"
#include "ovendays/study/run_study.h"
#include "ovendays/study/spread.h"
#include "study_targets.h"

namespace ovendays::cli {
namespace {
namespace fs = std::filesystem;
using results::StoredStudy;

// Reads --part I/N.
study::Share chosen_share(const Arguments& arguments) {
  const auto text = arguments.value("part");
  if (!text) return {};
  study::Share share;
  const char* end = text->data() + text->size();
  const auto [slash, error] = std::from_chars(text->data(), end, share.index);
  const bool first = error == std::errc{} && slash != end && *slash == '/';
  const auto rest = std::from_chars(first ? slash + 1 : end, end, share.count);
  if (!first || rest.ec != std::errc{} || rest.ptr != end || share.index < 1 ||
      share.index > share.count) {
    throw UsageError("--part: '" + *text + "', allowed I/N with I from 1 to N, such as 2/4");
  }
  return share;
}

// Reads --spread N.
int chosen_draws(const Arguments& arguments) {
  constexpr long kLeast = 5, kMost = 1000;
  const auto draws = arguments.integer("spread", 0, kMost);
  if (draws && *draws != 0 && *draws < kLeast) {
    throw UsageError("--spread: '" + std::to_string(*draws) + "', allowed 0 or 5 to 1000");
  }
  return static_cast<int>(draws.value_or(study::kLikelyDraws));
}

std::string default_target(const std::string& study_file, const study::Share& share) {
  fs::path file = study_file;
  std::string name = file.stem().string();
  if (share.whole()) {
    name += "-compared";
  } else {
    name += "-part-" + std::to_string(share.index) + "-of-" + std::to_string(share.count);
  }
  return file.replace_filename(name + ".h5").string();
}

// Reads the results of an earlier run, so that only missing alternatives are run. Any other file in
// its place is refused rather than overwritten, unless --anew is given.
std::vector<StoredStudy> read_earlier_run(const std::string& file, bool anew) {
  std::error_code ignored;
  if (anew || !fs::exists(file, ignored)) return {};
  try {
    return {results::read_study_file(file)};
  } catch (const base::InputError& error) {
    base::Fault fault = error.faults().front();
    fault.allowed = "another --out, or --anew to overwrite it";
    throw base::InputError(fault);
  }
}

// Ends the command where an alternative failed, after everything else has been written.
void report_failures(const study::RunSummary& summary, const std::string& target) {
  if (summary.failed == 0) return;
  std::string first;
  for (const results::StudyAlternative& each : summary.study.alternatives) {
    if (first.empty() && each.failed()) first = "'" + each.name + "': " + each.failure;
  }
  throw base::RunError(std::to_string(summary.failed) +
                       (summary.failed == 1 ? " alternative" : " alternatives") +
                       " could not be run; the others are in " + target + ". " + first);
}

std::string counts_text(const study::RunSummary& summary, const study::Share& share) {
  std::string text;
  if (!share.whole()) {
    text = "Part " + std::to_string(share.index) + " of " + std::to_string(share.count) + ": ";
  }
  text +=
      std::to_string(summary.run) + (summary.run == 1 ? " alternative" : " alternatives") + " run";
  if (summary.kept > 0)
    text += ", " + std::to_string(summary.kept) + " taken from the earlier run (same inputs)";
  if (summary.failed > 0) text += ", " + std::to_string(summary.failed) + " failed";
  return text + ".\n";
}

// Reads the study and checks all its cases, which takes a while where there are thousands.
study::Study read_study(const std::string& file,
                        study::Causes causes,
                        study::StartOptions options,
                        bool quiet) {
  Progress progress;
  if (!quiet) {
    options.progress = [&progress](double share) { progress.show(share, "checking the cases"); };
  }
  return {file, causes, options};
}

void run_compare(const Arguments& arguments) {
  const std::string& file =
      arguments.only_file("a study file; ovendays new --study FILE writes one");
  const study::Share share = chosen_share(arguments);
  const std::string target = arguments.value("out").value_or(default_target(file, share));
  StudyTargets targets(arguments, "compare");
  const int draws = chosen_draws(arguments);
  season::SeasonOptions season;
  season.threads = chosen_threads(arguments);
  season.causes = !arguments.has("no-causes");
  season.days_only = true;
  const season::SeasonCache cache;
  season.cache = &cache;

  const study::Study study =
      read_study(file,
                 season.causes ? study::Causes::kLookedFor : study::Causes::kLeftOut,
                 {.threads = season::thread_count(season.threads), .draws = draws, .progress = {}},
                 arguments.has("quiet"));
  Outputs outputs;
  outputs.input(file);
  outputs.add("--out", target);
  targets.add_to(outputs, study.plan());
  outputs.check();
  const std::vector<StoredStudy> before = read_earlier_run(target, arguments.has("anew"));

  study::RunSummary summary;
  {
    Progress progress;
    study::RunOptions options;
    options.share = share;
    options.simulate = study::season_simulator(season, study.plan().draws, study.plan().seed);
    options.save = [&target](const StoredStudy& so_far) { results::write_study(target, so_far); };
    if (!arguments.has("quiet")) {
      options.progress = [&progress](double share_done, const std::string& name) {
        progress.show(share_done, name);
      };
    }
    summary = study::run_study(study, before, options);
  }
  const std::string written = "Written: " + target + "\n" + targets.write(summary.study);
  if (arguments.has("quiet")) return report_failures(summary, target);
  const std::string table =
      share.whole() ? report::study_table(summary.study, terminal_width()) + "\n" : "";
  print(table + counts_text(summary, share) + written);
  report_failures(summary, target);
}
}  // namespace

CommandSpec compare_command() {
  CommandSpec command = {
      .name = "compare",
      .synopsis = {"compare STUDY.toml [options]", "compare STUDY.toml --part I/N [options]"},
      .summary = "compare many variants of a case: sites, spots, ovens, routines, priced changes",
      .about =
          "Runs every alternative of a study, compares each with the first one day by day, ranks "
          "them, finds the order in which changes gain most for their price, and computes what the "
          "oven saves in the kitchen. A difference that is smaller than what is not known about "
          "ovens, cooks and years is marked with a question mark. All results go into one HDF5 "
          "file. A second run simulates "
          "only alternatives that are missing or have changed. An alternative that fails is named "
          "and left out; the others are run, the exit code is 1, and the next run tries it again.",
      .options = {{"out", "FILE.h5", "results file (default: STUDY-compared.h5 beside the study)"},
                  {"part",
                   "I/N",
                   "run only every N-th alternative, beginning with the I-th, and write a file of "
                   "its own; ovendays gather joins the files"}},
      .examples = {"ovendays new --study my-study.toml",
                   "ovendays compare my-study.toml --html my-study.html",
                   "ovendays compare my-study.toml --svg months=bread.svg --task bread"},
      .words_heading = kPicturesHeading,
      .words = picture_words(report::all_study_picture_names()),
      .run = run_compare};
  for (OptionSpec& option : StudyTargets::options()) command.options.push_back(std::move(option));
  command.options.push_back(threads_option());
  command.options.push_back(
      {"anew", "", "run every alternative again and overwrite the results file"});
  command.options.push_back(
      {"spread",
       "N",
       "draws of the uncertain inputs, the same for every alternative, which "
       "tell how far to trust a difference (5 or more; default: 12); 0: none, "
       "which is about three times as fast"});
  command.options.push_back(
      {"no-causes", "", "skip the search for the causes of lost days (faster)"});
  command.options.push_back({"quiet", "", "print errors only"});
  return command;
}
}  // namespace ovendays::cli
