// SPDX-License-Identifier: MIT
// Which pictures a command is to save: --svg NAME=FILE with --task, --pictures FOLDER.
#pragma once

#include "arguments.h"
#include "ovendays/report/report.h"

namespace ovendays::cli {
/// A picture and the file it is to go to.
struct SavedPicture {
  report::PictureName name;
  std::string file;
  std::size_t task = 0;
};

/// The form and the name of --svg, looked at before anything is read. @throws UsageError
void check_picture(const Arguments& arguments,
                   const std::string& command,
                   const std::vector<report::PictureName>& names);
/// @throws UsageError; base::InputError where the folder is not there
std::vector<SavedPicture> chosen_pictures(const Arguments& arguments,
                                          const std::string& command,
                                          const std::vector<report::PictureName>& names,
                                          const std::vector<std::string>& tasks);
/// The names as words of a command's help, and their heading.
inline constexpr const char* kPicturesHeading = "Pictures (NAME)";
std::vector<OptionSpec> picture_words(const std::vector<report::PictureName>& names);

OptionSpec picture_option();
OptionSpec picture_task_option();
OptionSpec pictures_option();
}  // namespace ovendays::cli
