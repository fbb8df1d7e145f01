// SPDX-License-Identifier: MIT
// Other programs, run from a test, and files of the test's own.
#pragma once

#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <string>

namespace ovendays::test {

struct ShellRun {
  int code = -1;
  std::string said;  ///< both streams
};

inline ShellRun run_shell(const std::string& command) {
  ShellRun ran;
  std::FILE* pipe = ::popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return ran;
  char block[4096];
  for (std::size_t got = 0; (got = std::fread(block, 1, sizeof block, pipe)) > 0;) {
    ran.said.append(block, got);
  }
  const int status = ::pclose(pipe);
  ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return ran;
}

/// A name in the temporary folder that no other run has.
inline std::string own_file(const std::string& start) {
  const std::string name = start + "_" + std::to_string(::getpid()) + ".h5";
  return (std::filesystem::temp_directory_path() / name).string();
}
}  // namespace ovendays::test
