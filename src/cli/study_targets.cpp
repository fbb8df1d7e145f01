// SPDX-License-Identifier: MIT
#include "study_targets.h"

#include "ovendays/base/file.h"
#include "ovendays/report/study_report.h"

namespace ovendays::cli {

StudyTargets::StudyTargets(const Arguments& arguments, const std::string& command)
    : arguments_(arguments), command_(command) {
  check_picture(arguments, command, report::all_study_picture_names());
  for (const char* option : {"csv", "html", "task", "pictures"}) (void)arguments.value(option);
}

void StudyTargets::add_to(Outputs& outputs, const results::StoredStudy& plan) {
  std::vector<std::string> tasks;
  for (const results::StudyTask& task : plan.tasks) tasks.push_back(task.name);
  pictures_ = chosen_pictures(arguments_, command_, report::study_picture_names(plan), tasks);
  for (const char* option : {"csv", "html"}) {
    if (const auto file = arguments_.value(option)) {
      outputs.add(std::string("--") + option, *file);
    }
  }
  for (const SavedPicture& picture : pictures_) outputs.add("--svg", picture.file);
}

std::string StudyTargets::write(const results::StoredStudy& study) const {
  std::string text;
  const auto put = [&text](const std::string& file, const std::string& content) {
    base::write_file(file, content);
    text += "Written: " + file + "\n";
  };
  if (const auto file = arguments_.value("csv")) put(*file, report::study_csv(study));
  if (const auto file = arguments_.value("html")) put(*file, report::study_page(study));
  for (const SavedPicture& picture : pictures_) {
    put(picture.file, report::study_picture(study, picture.name.name, picture.task));
  }
  return text;
}

std::vector<OptionSpec> StudyTargets::options() {
  std::vector<OptionSpec> all = {
      {"csv", "FILE", "also write a table with one row for each alternative and task"},
      {"html", "FILE", "also write a self-contained HTML page"}};
  all.insert(all.end(), {picture_option(), picture_task_option(), pictures_option()});
  return all;
}
}  // namespace ovendays::cli
