// SPDX-License-Identifier: MIT
#include "commands.h"
#include "inputs.h"
#include "ovendays/base/file.h"
#include "ovendays/results/results.h"
#include "pictures.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
using results::StoredSeason;

/// A text to write, and its file.
struct Page {
  std::string option;
  std::string file;
  std::string (*make)(const StoredSeason& season, const report::ReportOptions& options);
};

std::vector<Page> pages_of(const Arguments& arguments) {
  std::vector<Page> pages;
  if (const auto file = arguments.value("html"))
    pages.push_back({"--html", *file, report::season_page});
  if (const auto file = arguments.value("csv"))
    pages.push_back({"--csv", *file, report::season_csv});
  return pages;
}

void run_report(const Arguments& arguments) {
  const std::string& file =
      arguments.only_file("the results file of a season (written by season --out)");
  const report::ReportOptions options = report_options(arguments);
  check_picture(arguments, "report", report::picture_names());
  const std::vector<Page> pages = pages_of(arguments);
  const StoredSeason season = results::read_results(file);
  const std::vector<SavedPicture> pictures =
      chosen_pictures(arguments, "report", report::picture_names(), season.result.task_names);
  Outputs outputs;
  outputs.input(file);
  for (const Page& page : pages) outputs.add(page.option, page.file);
  for (const SavedPicture& picture : pictures) outputs.add("--svg", picture.file);
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
  for (const SavedPicture& picture : pictures) {
    base::write_file(picture.file,
                     report::season_picture(season, picture.name.name, picture.task, options));
    text += "Written: " + picture.file + "\n";
  }
  print(report::season_answer(season) + "\n\n" + text);
}

}  // namespace

CommandSpec report_command() {
  return {.name = "report",
          .synopsis = {"report RESULT.h5 [options]"},
          .summary = "make the page and pictures of a season that has been run",
          .about =
              "Makes a report from the results file of a season. Without options it prints the "
              "tables. --html writes one self-contained page (no network, no scripts; for screen, "
              "telephone and paper, light and dark). --svg and --pictures write its pictures.",
          .options = {{"html", "FILE", "write the page"},
                      {"csv", "FILE", "write a table with one row for each task and day"},
                      picture_option(),
                      picture_task_option(),
                      pictures_option(),
                      units_option()},
          .examples = {"ovendays report my-yard-season.h5 --html my-yard.html",
                       "ovendays report my-yard-season.h5 --svg calendar=bread.svg --task bread"},
          .words_heading = kPicturesHeading,
          .words = picture_words(report::picture_names()),
          .run = run_report};
}
}  // namespace ovendays::cli
