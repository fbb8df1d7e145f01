// SPDX-License-Identifier: MIT
#include <filesystem>

#include "commands.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/season/case.h"
#include "ovendays/study/study.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
void run_new(const Arguments& arguments) {
  const std::string& file = arguments.only_file("the name of a file to write");
  std::error_code ignored;
  if (std::filesystem::is_regular_file(file, ignored) && !arguments.has("force")) {
    throw base::InputError(
        base::Fault{file, 0, "", "already exists", "another name, or --force to overwrite it"});
  }
  Outputs outputs;
  outputs.add("", file);
  outputs.check();
  const bool study = arguments.has("study");
  base::write_file(file, study ? study::starter_study() : season::starter_case());
  std::string text = "Written: " + file + "\n";
  if (study) text += "It refers to the case my-yard.toml (ovendays new my-yard.toml writes one). ";
  print(text + "Edit it, then run: ovendays " + (study ? "compare " : "season ") + file + "\n");
}
}  // namespace

CommandSpec new_command() {
  return {
      .name = "new",
      .synopsis = {"new FILE.toml [--force]", "new --study FILE.toml [--force]"},
      .summary = "write a commented case or study to start from",
      .about =
          "Writes a case that runs as it is and explains every key: site, spot, oven, "
          "routine and tasks. With --study it writes a study, which compares variants of a case. "
          "It does not overwrite an existing file.",
      .options = {{"study", "", "write a study, the input of ovendays compare"},
                  {"force", "", "overwrite an existing file"}},
      .examples = {"ovendays new my-yard.toml", "ovendays new --study my-study.toml"},
      .run = run_new};
}
}  // namespace ovendays::cli
