// SPDX-License-Identifier: MIT
// Where the report of a study goes: what compare and gather have in common.
#pragma once

#include "arguments.h"
#include "ovendays/results/study_file.h"
#include "pictures.h"
#include "terminal.h"

namespace ovendays::cli {
class StudyTargets {
 public:
  /// Looks at all that can be seen before the study is known. @throws UsageError
  StudyTargets(const Arguments& arguments, const std::string& command);
  /// Names the files for a study, to be checked with the others. @throws as chosen_pictures
  void add_to(Outputs& outputs, const results::StoredStudy& plan);
  /// Writes them. @return "Written: ..." lines
  [[nodiscard]] std::string write(const results::StoredStudy& study) const;
  static std::vector<OptionSpec> options();

 private:
  const Arguments& arguments_;
  std::string command_;
  std::vector<SavedPicture> pictures_;
};
}  // namespace ovendays::cli
