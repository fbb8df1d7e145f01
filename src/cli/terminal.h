// SPDX-License-Identifier: MIT
// Standard output and error, and checks of output files before a long run.
#pragma once

#include <chrono>
#include <string>
#include <vector>

namespace ovendays::cli {
/// Thrown when the reader of standard output has closed the pipe; the program then ends quietly.
struct ReaderGone {};

/// Prints to standard output, with control characters replaced.
/// @throws ReaderGone; base::RunError where writing fails
void print(const std::string& text);
/// Width of the terminal in columns, at most 100; 80 if standard output is not a terminal.
int terminal_width();

/// Makes SIGINT, SIGTERM and SIGHUP remove unfinished files and exit with 128 + signal number.
void handle_signals();

/// Shows "43 %, about 12 s left: what" on standard error. It stays silent for the first second and
/// if standard error is not a terminal.
class Progress {
 public:
  Progress();
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  void show(double share_done, const std::string& doing = "");

 private:
  using Clock = std::chrono::steady_clock;
  bool terminal_;
  Clock::time_point start_ = Clock::now();
  Clock::time_point last_ = start_;
  bool shown_ = false;
};

/// The files that a run will write, checked together before it starts. Refused are missing or
/// read-only folders, targets that are not plain files, targets that are also inputs, and targets
/// named twice.
class Outputs {
 public:
  /// @param what name of the option, for messages
  void add(const std::string& what, const std::string& file);
  void input(const std::string& file);
  /// @throws base::InputError with all faults
  void check() const;

 private:
  struct Target {
    std::string what;
    std::string file;
  };
  std::vector<Target> targets_;
  std::vector<std::string> inputs_;
};
}  // namespace ovendays::cli
