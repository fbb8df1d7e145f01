// SPDX-License-Identifier: MIT
#include "commands.h"
#include "ovendays/report/study_report.h"
#include "study_targets.h"

namespace ovendays::cli {
namespace {
void run_gather(const Arguments& arguments) {
  (void)arguments.only_file("the files of the parts of a study");
  const auto target = arguments.value("out");
  StudyTargets targets(arguments, "gather");
  std::vector<results::StoredStudy> parts;
  for (const std::string& file : arguments.files()) {
    parts.push_back(results::read_study_file(file));
  }
  const results::StoredStudy study = results::gathered(parts, arguments.files());
  Outputs outputs;
  for (const std::string& file : arguments.files()) outputs.input(file);
  if (target) outputs.add("--out", *target);
  targets.add_to(outputs, study);
  outputs.check();

  std::string text = report::study_table(study, terminal_width()) + "\n";
  if (target) {
    results::write_study(*target, study);
    text += "Written: " + *target + "\n";
  }
  print(text + targets.write(study));
}
}  // namespace

CommandSpec gather_command() {
  CommandSpec command = {
      .name = "gather",
      .synopsis = {"gather FILE.h5 [FILE.h5 ...] [options]"},
      .summary = "join the parts of a study, or show a study that has been run",
      .about =
          "Joins the files that compare --part wrote into the file that an undivided run would "
          "write, and prints its tables. Combinations of changes are run only by compare, which "
          "continues from the joined file. Given one file, gather makes tables and pictures of it "
          "without running anything.",
      .options = {{"out", "FILE.h5", "write the joined study to this file"}},
      .examples = {"ovendays gather my-study-part-*.h5 --out my-study-compared.h5",
                   "ovendays gather my-study-compared.h5 --html my-study.html"},
      .words_heading = kPicturesHeading,
      .words = picture_words(report::all_study_picture_names()),
      .most_files = 10'000,
      .run = run_gather};
  for (OptionSpec& option : StudyTargets::options()) command.options.push_back(std::move(option));
  return command;
}
}  // namespace ovendays::cli
