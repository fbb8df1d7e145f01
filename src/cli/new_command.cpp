// SPDX-License-Identifier: MIT
#include <filesystem>

#include "commands.h"
#include "ovendays/base/error.h"
#include "ovendays/base/file.h"
#include "ovendays/season/case.h"
#include "terminal.h"

namespace ovendays::cli {
namespace {
void run(const Arguments& arguments) {
  const std::string& file = arguments.only_file("the name of a file to write");
  std::error_code ignored;
  if (std::filesystem::is_regular_file(file, ignored) && !arguments.has("force")) {
    throw base::InputError(
        base::Fault{file, 0, "", "is there already", "a new name, or --force to replace it"});
  }
  Outputs outputs;
  outputs.add("", file);
  outputs.check();
  base::write_file(file, season::starter_case());
  print("Written: " + file + "\nChange what is yours, then: ovendays season " + file + "\n");
}
}  // namespace

CommandSpec new_command() {
  return {.name = "new",
          .synopsis = {"new FILE.toml [--force]"},
          .summary = "write a commented case file to start from",
          .about =
              "Writes a case that runs as it is and explains every key: site, spot, oven, "
              "routine and tasks. A file that is there is left alone.",
          .options = {{"force", "", "replace a file that is there"}},
          .examples = {"ovendays new my-yard.toml"},
          .run = run};
}
}  // namespace ovendays::cli
