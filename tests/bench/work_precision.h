// SPDX-License-Identifier: MIT
// Error against time for one cook: what the integrators under comparison share.
#pragma once

#include <algorithm>
#include <cmath>
#include <ctime>
#include <string>
#include <vector>

#include "cook_scene.h"
#include "driven_equations.h"

namespace ovendays::bench {

/// Temperatures at every whole minute of the cook, the start included.
using Minutes = std::vector<heat::State>;

/// Errors against the reference at those minutes.
struct Errors {
  double core_K = 0.0;  ///< largest of the food's core
  double all_K = 0.0;   ///< largest of all nodes, from two minutes after each jump on
};

struct Point {
  std::string sky, method;
  double tolerance = 0.0;
  Errors errors{};
  double cook_s = 0.0;  ///< CPU time of one cook, median [s]
  long steps = 0;
};

struct Problem {
  CookScene scene;
  Minutes exact;
  std::vector<double> jumps_s;

  [[nodiscard]] std::size_t minutes() const {
    const heat::Run run = scene.run();
    return static_cast<std::size_t>(std::lround((run.end_s - run.start_s) / 60.0));
  }
  [[nodiscard]] double time_s(std::size_t minute) const {
    return scene.run().start_s + 60.0 * static_cast<double>(minute);
  }
  [[nodiscard]] Errors errors(const Minutes& tried) const;
};

/// CPU seconds of one call: median over repetitions, each long enough for the clock.
template <class Call>
double cpu_s(int repetitions, const Call& call) {
  constexpr double kLeast_s = 0.02;
  const auto now_s = [] {
    timespec now{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
  };
  std::vector<double> each_s;
  for (int r = 0; r < repetitions; ++r) {
    const double start_s = now_s();
    int calls = 0;
    do {
      call();
      ++calls;
    } while (now_s() - start_s < kLeast_s);
    each_s.push_back((now_s() - start_s) / calls);
  }
  std::nth_element(each_s.begin(), each_s.begin() + repetitions / 2, each_s.end());
  return each_s[static_cast<std::size_t>(repetitions / 2)];
}

/// SUNDIALS CVODE: BDF, dense matrix, difference-quotient Jacobian, the equations of
/// heat::right_hand_side. Stopping at every join it starts afresh where the food begins to boil
/// too, as the tests' oracle does; running through it leaves that to its step control.
void add_cvode(const Problem& problem,
               test::Joins joins,
               int repetitions,
               std::vector<Point>& points);

/// SciPy's solve_ivp(method = "BDF") in a process of its own; see scipy_cook.py.
/// @throws std::runtime_error where Python or SciPy fails
void add_scipy(const Problem& problem,
               test::Joins joins,
               int repetitions,
               std::vector<Point>& points);

/// By CVODE at 1e-11.
Minutes reference(const CookScene& scene, std::size_t minutes);
}  // namespace ovendays::bench
