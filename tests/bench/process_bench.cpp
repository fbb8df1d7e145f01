// SPDX-License-Identifier: MIT
// Whole processes from start to end: wall time, user time and peak memory as the system counts
// them. A program of its own that stays small, since a child's peak counts what its parent held.
#include <benchmark/benchmark.h>
#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace {
namespace fs = std::filesystem;

struct Usage {
  double wall_s = 0.0, user_s = 0.0, peak_MiB = 0.0;
  bool failed = true;
};

[[noreturn]] void become(const std::vector<std::string>& command) {
  std::vector<char*> arguments;
  arguments.reserve(command.size() + 1);
  for (const std::string& word : command) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  const int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
  if (nowhere >= 0) dup2(nowhere, STDOUT_FILENO);
  execv(arguments.front(), arguments.data());
  _exit(127);
}

Usage run(const std::vector<std::string>& command) {
  const auto start = std::chrono::steady_clock::now();
  const pid_t child = fork();
  if (child < 0) return {};
  if (child == 0) become(command);
  int status = 0;
  rusage used{};
  if (wait4(child, &status, 0, &used) != child) return {};
  const std::chrono::duration<double> wall = std::chrono::steady_clock::now() - start;
  return {
      wall.count(),
      static_cast<double>(used.ru_utime.tv_sec) + 1e-6 * static_cast<double>(used.ru_utime.tv_usec),
      static_cast<double>(used.ru_maxrss) / 1024.0,
      status != 0};
}

/// Means over the iterations; the peak is the largest.
class Tally {
 public:
  void add(benchmark::State& state, const Usage& usage) {
    state.SetIterationTime(usage.wall_s);
    user_s_ += usage.user_s;
    peak_MiB_ = std::max(peak_MiB_, usage.peak_MiB);
    if (usage.failed) state.SkipWithError("the process failed");
  }
  void tell(benchmark::State& state) const {
    state.counters["user_s"] = benchmark::Counter(user_s_, benchmark::Counter::kAvgIterations);
    state.counters["peak_MiB"] = peak_MiB_;
  }

 private:
  double user_s_ = 0.0, peak_MiB_ = 0.0;
};

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

/// The demo season to its closed file. At any number of threads the file has the same bytes: each
/// is held against that of one thread.
void demo_process(benchmark::State& state) {
  const fs::path folder =
      fs::temp_directory_path() / ("ovendays-bench-" + std::to_string(getpid()));
  fs::create_directories(folder);
  const std::string program = std::string(OVENDAYS_BINARY_DIR) + "/ovendays";
  const auto command = [&](const char* file, long threads) -> std::vector<std::string> {
    return {program,
            "season",
            "--demo",
            "--quiet",
            "--threads",
            std::to_string(threads),
            "--out",
            (folder / file).string()};
  };
  if (run(command("one.h5", 1)).failed) state.SkipWithError("the process failed");
  Tally tally;
  while (state.KeepRunning()) tally.add(state, run(command("timed.h5", state.range(0))));
  tally.tell(state);
  const std::string one = bytes_of(folder / "one.h5");
  if (one.empty() || bytes_of(folder / "timed.h5") != one)
    state.SkipWithError("the file is not that of one thread");
  fs::remove_all(folder);
}
BENCHMARK(demo_process)
    ->ArgName("threads")
    ->Arg(1)
    ->Arg(2)
    ->Unit(benchmark::kMillisecond)
    ->UseManualTime();

/// A hundred ovens one after the other; bench_study checks its answer itself, by its exit code.
/// Memory must not grow with the number of seasons: a hundred may take an eighth more than ten
/// (both fill the shelves of what is kept).
void study_process(benchmark::State& state, const char* varied) {
  const std::string program = std::string(OVENDAYS_BINARY_DIR) + "/bench_study";
  Tally tally;
  double peak_MiB = 0.0;
  while (state.KeepRunning()) {
    const Usage usage = run({program, std::to_string(state.range(0)), varied});
    peak_MiB = std::max(peak_MiB, usage.peak_MiB);
    tally.add(state, usage);
  }
  tally.tell(state);
  if (state.range(0) <= 10) return;
  const Usage ten = run({program, "10", varied});
  if (ten.failed || peak_MiB > 1.125 * ten.peak_MiB)
    state.SkipWithError("memory grows with the number of seasons");
}
BENCHMARK_CAPTURE(study_process, insulation, "insulation")
    ->Arg(1)
    ->Arg(10)
    ->Arg(100)
    ->Unit(benchmark::kMillisecond)
    ->UseManualTime()
    ->Iterations(1);
BENCHMARK_CAPTURE(study_process, panes, "panes")
    ->Arg(1)
    ->Arg(10)
    ->Arg(100)
    ->Unit(benchmark::kMillisecond)
    ->UseManualTime()
    ->Iterations(1);
}  // namespace
