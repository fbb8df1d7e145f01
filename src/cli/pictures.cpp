// SPDX-License-Identifier: MIT
#include "pictures.h"

#include <filesystem>

#include "inputs.h"
#include "ovendays/base/error.h"

namespace ovendays::cli {
namespace {
namespace fs = std::filesystem;
using report::PictureName;

std::optional<SavedPicture> single_picture(const Arguments& arguments,
                                           const std::string& command,
                                           const std::vector<PictureName>& names) {
  const auto text = arguments.value("svg");
  if (!text) return std::nullopt;
  const std::size_t equals = text->find('=');
  if (equals == std::string::npos || equals + 1 == text->size()) {
    throw UsageError("--svg: '" + *text + "', allowed NAME=FILE, such as --svg " +
                     names.front().name + "=picture.svg");
  }
  const std::string name = text->substr(0, equals);
  std::vector<std::string> known;
  for (const PictureName& picture : names) {
    if (name == picture.name) return SavedPicture{picture, text->substr(equals + 1), 0};
    known.emplace_back(picture.name);
  }
  throw UsageError("--svg: there is no picture '" + name + "' here" + suggestion(name, known) +
                   " See: ovendays help " + command);
}

// The first picture that shows a single task, for use in messages.
std::string task_picture(const std::vector<PictureName>& names) {
  for (const PictureName& picture : names) {
    if (picture.of_task) return picture.name;
  }
  return names.front().name;
}

// Turns a task's name into a part of a file name: letters and digits stay, the rest becomes dashes.
std::string file_part(const std::string& name) {
  std::string part;
  for (const char c : name) {
    const bool kept = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    if (kept) {
      part += c;
    } else if (!part.empty() && part.back() != '-') {
      part += '-';
    }
  }
  while (part.ends_with("-")) part.pop_back();
  return part;
}

// Lists every picture, with one file for each task where a picture shows a single task.
std::vector<SavedPicture> all_pictures(const std::string& folder,
                                       const std::vector<PictureName>& names,
                                       const std::vector<std::string>& tasks) {
  std::vector<SavedPicture> pictures;
  for (const PictureName& name : names) {
    const std::string start = (fs::path(folder) / name.name).string();
    if (!name.of_task) {
      pictures.push_back({name, start + ".svg", 0});
      continue;
    }
    for (std::size_t task = 0; task < tasks.size(); ++task) {
      // The number distinguishes names that differ only in punctuation.
      pictures.push_back(
          {name,
           start + "-" + std::to_string(task + 1) + "-" + file_part(tasks[task]) + ".svg",
           task});
    }
  }
  return pictures;
}
}  // namespace

void check_picture(const Arguments& arguments,
                   const std::string& command,
                   const std::vector<PictureName>& names) {
  (void)single_picture(arguments, command, names);
}

std::vector<SavedPicture> chosen_pictures(const Arguments& arguments,
                                          const std::string& command,
                                          const std::vector<PictureName>& names,
                                          const std::vector<std::string>& tasks) {
  std::vector<SavedPicture> pictures;
  std::optional<SavedPicture> one = single_picture(arguments, command, names);
  if (arguments.has("task") && !(one && one->name.of_task)) {
    throw UsageError("--task goes with a picture of one task, such as --svg " +
                     task_picture(names) + "=FILE");
  }
  const std::size_t task = chosen_task(arguments, tasks);
  if (one) {
    one->task = task;
    pictures.push_back(*one);
  }
  if (const auto folder = arguments.value("pictures")) {
    if (!fs::is_directory(*folder)) {
      throw base::InputError(
          base::Fault{*folder, 0, "--pictures", "there is no such folder", "an existing folder"});
    }
    for (SavedPicture& picture : all_pictures(*folder, names, tasks)) {
      pictures.push_back(std::move(picture));
    }
  }
  return pictures;
}

std::vector<OptionSpec> picture_words(const std::vector<PictureName>& names) {
  std::vector<OptionSpec> words;
  words.reserve(names.size());
  for (const PictureName& picture : names) words.push_back({picture.name, "", picture.what});
  return words;
}

OptionSpec picture_option() {
  return {"svg", "NAME=FILE", "write one picture; the names are listed below"};
}
OptionSpec picture_task_option() {
  return {"task", "NAME", "task that the picture shows, or part of its name (default: the first)"};
}
OptionSpec pictures_option() {
  return {"pictures", "FOLDER", "write every picture, for every task, into an existing folder"};
}
}  // namespace ovendays::cli
