// SPDX-License-Identifier: MIT
// ovendays_doc VERSION DATE SHARE FOLDER: writes the manual pages and the shells' completions into
// a folder. Run by the build; not installed.
#include <cstdio>
#include <exception>
#include <string>

#include "completion.h"
#include "man_page.h"
#include "ovendays/base/file.h"

namespace ovendays::cli {
namespace {
void write_all(const ManContext& context, const std::string& folder) {
  base::write_file(folder + "/man1/ovendays.1", program_man_page(context));
  for (const CommandSpec& command : commands())
    base::write_file(folder + "/man1/" + man_name(command) + ".1",
                     command_man_page(command, context));
  base::write_file(folder + "/ovendays.bash", bash_completion());
  base::write_file(folder + "/_ovendays", zsh_completion());
  base::write_file(folder + "/ovendays.fish", fish_completion());
}
}  // namespace
}  // namespace ovendays::cli

int main(int count, char** words) {
  if (count != 5) {
    std::fputs("use: ovendays_doc VERSION DATE SHARE FOLDER\n", stderr);
    return 2;
  }
  try {
    ovendays::cli::write_all({words[1], words[2], words[3]}, words[4]);
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "ovendays_doc: %s\n", error.what());
    return 1;
  }
}
