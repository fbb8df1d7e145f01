// SPDX-License-Identifier: MIT
// Overwrites the approved files with the current output. Usage: approve_outputs FOLDER
#include <cstdio>
#include <exception>
#include <filesystem>

#include "approved_outputs.h"
#include "ovendays/base/file.h"

int main(int count, char** words) {
  if (count != 2) {
    std::fputs("usage: approve_outputs FOLDER\n", stderr);
    return 2;
  }
  try {
    const std::filesystem::path folder = words[1];
    for (const auto& [name, text] : ovendays::test::outputs_to_approve()) {
      const std::string file = (folder / name).string();
      ovendays::base::write_file(file, text);
      std::puts(file.c_str());
    }
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  return 0;
}
