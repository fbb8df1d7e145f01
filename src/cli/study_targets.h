// SPDX-License-Identifier: MIT
// The files that compare and gather write from a study: CSV, HTML and pictures.
#pragma once

#include "arguments.h"
#include "ovendays/results/study_file.h"
#include "pictures.h"
#include "terminal.h"

namespace ovendays::cli {
class StudyTargets {
 public:
  /// Checks everything that can be checked before the study is read. @throws UsageError
  StudyTargets(const Arguments& arguments, const std::string& command);
  /// Registers the files with `outputs`. @throws as chosen_pictures
  void add_to(Outputs& outputs, const results::StoredStudy& plan);
  /// Writes the files. @return the "Written: ..." lines to print
  [[nodiscard]] std::string write(const results::StoredStudy& study) const;
  static std::vector<OptionSpec> options();

 private:
  const Arguments& arguments_;
  std::string command_;
  std::vector<SavedPicture> pictures_;
};
}  // namespace ovendays::cli
