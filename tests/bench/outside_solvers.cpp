// SPDX-License-Identifier: MIT
#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "cvode_oracle.h"
#include "scene_file.h"
#include "work_precision.h"

namespace ovendays::bench {
namespace {
/// Relative tolerances; the absolute one is the same number in kelvin.
constexpr double kTolerances[] = {3e-3, 1e-3, 3e-4, 1e-4, 3e-5, 1e-5, 3e-6, 1e-6, 1e-7};
constexpr const char* kPythonTolerances = "3e-3 1e-3 3e-4 1e-4 3e-5 1e-5 1e-6";

const char* joins_text(test::Joins joins) {
  return joins == test::Joins::kStop ? "restarted at all bends" : "restarted at jumps";
}

Minutes minutes_of(test::CvodeOracle& oracle, const heat::Run& run, std::size_t minutes) {
  Minutes states;
  for (std::size_t m = 0; m <= minutes; ++m)
    states.push_back(oracle.at(run.start_s + 60.0 * static_cast<double>(m)));
  return states;
}

/// A folder of its own, gone with the object.
class Scratch {
 public:
  Scratch()
      : folder_(std::filesystem::temp_directory_path() /
                ("ovendays-cook-" + std::to_string(getpid()))) {
    std::filesystem::create_directories(folder_);
  }
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  [[nodiscard]] std::string file(const char* name) const { return (folder_ / name).string(); }

 private:
  std::filesystem::path folder_;
};

std::string output_of(const std::string& command) {
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("no process for: " + command);
  std::string text;
  std::array<char, 256> part{};
  while (fgets(part.data(), part.size(), pipe) != nullptr) text += part.data();
  if (pclose(pipe) != 0) throw std::runtime_error("failed: " + command);
  return text;
}

std::string quoted(const std::string& word) { return "'" + word + "' "; }
}  // namespace

Minutes reference(const CookScene& scene, std::size_t minutes) {
  const heat::Run run = scene.run();
  test::CvodeOracle oracle(scene.model, run, {}, {1e-11, 1e-10});
  return minutes_of(oracle, run, minutes);
}

void add_cvode(const Problem& problem,
               test::Joins joins,
               int repetitions,
               std::vector<Point>& points) {
  const heat::Run run = problem.scene.run();
  for (const double tolerance : kTolerances) {
    const test::OracleOptions options{tolerance, tolerance, joins, joins == test::Joins::kStop};
    test::CvodeOracle observed(problem.scene.model, run, {}, options);
    Point point{problem.scene.name, std::string("CVODE BDF, ") + joins_text(joins), tolerance};
    point.errors = problem.errors(minutes_of(observed, run, problem.minutes()));
    point.steps = observed.steps();
    // Its making is timed along: some microseconds.
    point.cook_s = cpu_s(repetitions, [&] {
      test::CvodeOracle oracle(problem.scene.model, run, {}, options);
      oracle.at(run.end_s);
    });
    points.push_back(point);
  }
}

void add_scipy(const Problem& problem,
               test::Joins joins,
               int repetitions,
               std::vector<Point>& points) {
  const Scratch scratch;
  const CookScene& scene = problem.scene;
  const heat::Run run = scene.run();
  write_scene(scratch.file("scene"),
              {scene.model,
               scene.day.air,
               scene.day.gains,
               scene.lid,
               scene.start,
               run.start_s,
               run.end_s});
  const std::string script = std::string(OVENDAYS_SOURCE_DIR) + "/tests/bench/scipy_cook.py";
  // Debian's own Python has Debian's SciPy.
  std::istringstream lines(output_of(
      "OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1 /usr/bin/python3 " + quoted(script) +
      quoted(OVENDAYS_EQUATIONS) + quoted(scratch.file("scene")) + quoted(scratch.file("states")) +
      (joins == test::Joins::kStop ? "stop " : "through ") + std::to_string(repetitions) + " " +
      kPythonTolerances));
  std::ifstream states(scratch.file("states"), std::ios::binary);
  const test::DrivenEquations equations(scene.model, run, joins);
  std::vector<double> y(equations.nodes().size());
  Point point{scene.name, std::string("SciPy BDF, ") + joins_text(joins)};
  long calls = 0;
  while (lines >> point.tolerance >> point.cook_s >> point.steps >> calls) {
    Minutes tried(problem.minutes() + 1, scene.start);
    for (heat::State& state : tried) {
      read_bytes(states, y.data(), y.size());
      equations.unpack(y.data(), state);
    }
    if (!states) throw std::runtime_error("SciPy's temperatures are cut short");
    point.errors = problem.errors(tried);
    points.push_back(point);
  }
}
}  // namespace ovendays::bench
