// SPDX-License-Identifier: MIT
// Standard output and error, and what is known before a long run about where results will go.
#pragma once

#include <chrono>
#include <string>
#include <vector>

namespace ovendays::cli {
/// Thrown when nobody reads standard output any more: the program ends quietly.
struct ReaderGone {};

/// Prints to standard output. @throws ReaderGone; base::RunError where it cannot be written
void print(const std::string& text);
/// Columns of the terminal, 80 where it is none, 100 at most.
int terminal_width();

/// SIGINT, SIGTERM and SIGHUP remove unfinished files and end with 128 + the signal's number.
void handle_signals();

/// "43 %, about 12 s left" on standard error, where that is a terminal and only after a second;
/// with what is being done where that is told.
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

/// Files that a run will write, refused together and before it starts: a folder that is missing or
/// closed, a target that is no plain file, one that is also an input or named twice.
class Outputs {
 public:
  /// @param what the option's name, for messages
  void add(const std::string& what, const std::string& file);
  void input(const std::string& file);
  /// @throws base::InputError with every fault
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
