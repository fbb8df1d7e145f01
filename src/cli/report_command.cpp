// SPDX-License-Identifier: MIT
#include <filesystem>

#include "commands.h"
#include "inputs.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/results/results.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
namespace fs = std::filesystem;
using results::StoredSeason;

/// A text and the file it is to go to.
struct Page {
  std::string option;
  std::string file;
  std::string (*make)(const StoredSeason& season, const report::ReportOptions& options);
};

/// A picture and the file it is to go to.
struct Picture {
  report::PictureName name;
  std::string file;
  std::size_t task = 0;
};

std::vector<Page> pages_of(const Arguments& arguments) {
  std::vector<Page> pages;
  if (const auto file = arguments.value("html"))
    pages.push_back({"--html", *file, report::season_page});
  if (const auto file = arguments.value("csv"))
    pages.push_back({"--csv", *file, report::season_csv});
  return pages;
}

std::vector<std::string> names_of_pictures() {
  std::vector<std::string> names;
  for (const report::PictureName& picture : report::picture_names())
    names.emplace_back(picture.name);
  return names;
}

// --svg NAME=FILE.
std::optional<Picture> single_picture(const Arguments& arguments) {
  const auto text = arguments.value("svg");
  if (!text) return std::nullopt;
  const std::size_t equals = text->find('=');
  if (equals == std::string::npos || equals + 1 == text->size()) {
    throw UsageError("--svg: '" + *text + "', allowed NAME=FILE, such as --svg calendar=year.svg");
  }
  const std::string name = text->substr(0, equals);
  for (const report::PictureName& picture : report::picture_names()) {
    if (name == picture.name) return Picture{picture, text->substr(equals + 1), 0};
  }
  throw UsageError("--svg: there is no picture '" + name + "'" +
                   suggestion(name, names_of_pictures()) + " See: ovendays help report");
}

// A task's name as part of a file's: letters and digits, all else a dash.
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

// Every picture, one for each task where it is of a task.
std::vector<Picture> all_pictures(const std::string& folder,
                                  const std::vector<std::string>& tasks) {
  std::vector<Picture> pictures;
  for (const report::PictureName& name : report::picture_names()) {
    const std::string start = (fs::path(folder) / name.name).string();
    if (!name.of_task) {
      pictures.push_back({name, start + ".svg", 0});
      continue;
    }
    for (std::size_t task = 0; task < tasks.size(); ++task) {
      // The number keeps apart names that differ in their marks only.
      pictures.push_back(
          {name,
           start + "-" + std::to_string(task + 1) + "-" + file_part(tasks[task]) + ".svg",
           task});
    }
  }
  return pictures;
}

std::vector<Picture> pictures_of(const Arguments& arguments,
                                 const std::vector<std::string>& tasks) {
  std::vector<Picture> pictures;
  std::optional<Picture> one = single_picture(arguments);
  if (arguments.has("task") && !(one && one->name.of_task))
    throw UsageError("--task goes with a picture of one task, such as --svg calendar=FILE");
  const std::size_t task = chosen_task(arguments, tasks);
  if (one) {
    one->task = task;
    pictures.push_back(*one);
  }
  if (const auto folder = arguments.value("pictures")) {
    if (!fs::is_directory(*folder)) {
      throw base::InputError(
          base::Fault{*folder, 0, "--pictures", "there is no such folder", "one that is there"});
    }
    for (Picture& picture : all_pictures(*folder, tasks)) pictures.push_back(std::move(picture));
  }
  return pictures;
}

void run(const Arguments& arguments) {
  const std::string& file = arguments.only_file("a season's file (what season wrote with --out)");
  const report::ReportOptions options = report_options(arguments);
  (void)single_picture(arguments);
  const std::vector<Page> pages = pages_of(arguments);
  const StoredSeason season = results::read_results(file);
  const std::vector<Picture> pictures = pictures_of(arguments, season.result.task_names);
  Outputs outputs;
  outputs.input(file);
  for (const Page& page : pages) outputs.add(page.option, page.file);
  for (const Picture& picture : pictures) outputs.add("--svg", picture.file);
  outputs.check();

  if (pages.empty() && pictures.empty()) {
    return print(report::season_table(season, options) + "\nWith pictures: ovendays report " +
                 file + " --html FILE\n");
  }
  std::string text;
  for (const Page& page : pages) {
    base::write_file(page.file, page.make(season, options));
    text += "Written: " + page.file + "\n";
  }
  for (const Picture& picture : pictures) {
    base::write_file(picture.file,
                     report::season_picture(season, picture.name.name, picture.task, options));
    text += "Written: " + picture.file + "\n";
  }
  print(report::season_answer(season) + "\n\n" + text);
}

std::vector<OptionSpec> picture_words() {
  std::vector<OptionSpec> words;
  for (const report::PictureName& picture : report::picture_names())
    words.push_back({picture.name, "", picture.what});
  return words;
}
}  // namespace

CommandSpec report_command() {
  return {.name = "report",
          .synopsis = {"report RESULT.h5 [options]"},
          .summary = "make the page and the pictures of a season that was run",
          .about =
              "Makes a report from the file of a season: by itself the tables, with --html one "
              "page that stands alone (no network, no script; light, dark, paper, telephone), "
              "with --svg or --pictures its pictures.",
          .options = {{"html", "FILE", "the page"},
                      {"csv", "FILE", "a table with a row a task and day"},
                      {"svg", "NAME=FILE", "one picture"},
                      {"task", "NAME", "the task of that picture (the first); a part will do"},
                      {"pictures", "FOLDER", "every picture, for every task, into a folder"},
                      units_option()},
          .examples = {"ovendays report my-yard-season.h5 --html my-yard.html",
                       "ovendays report my-yard-season.h5 --svg calendar=bread.svg --task bread"},
          .words_heading = "Pictures (NAME)",
          .words = picture_words(),
          .run = run};
}
}  // namespace ovendays::cli
