// SPDX-License-Identifier: MIT
// The options that choose which pictures a command saves: --svg NAME=FILE, --task, --pictures
// FOLDER.
#pragma once

#include "arguments.h"
#include "ovendays/report/report.h"

namespace ovendays::cli {
/// One picture to save, and its file.
struct SavedPicture {
  report::PictureName name;
  std::string file;
  std::size_t task = 0;
};

/// Checks the form and the picture name of --svg before any file is read. @throws UsageError
void check_picture(const Arguments& arguments,
                   const std::string& command,
                   const std::vector<report::PictureName>& names);
/// All pictures that the options ask for. @param names pictures on offer; @param tasks their tasks
/// @throws UsageError; base::InputError where the folder does not exist
std::vector<SavedPicture> chosen_pictures(const Arguments& arguments,
                                          const std::string& command,
                                          const std::vector<report::PictureName>& names,
                                          const std::vector<std::string>& tasks);
/// Lists the picture names for the help of a command, under this heading.
inline constexpr const char* kPicturesHeading = "Pictures (NAME)";
std::vector<OptionSpec> picture_words(const std::vector<report::PictureName>& names);

OptionSpec picture_option();
OptionSpec picture_task_option();
OptionSpec pictures_option();
}  // namespace ovendays::cli
