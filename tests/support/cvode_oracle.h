// SPDX-License-Identifier: MIT
// The heat network's equations integrated by an independent solver: CVODE of SUNDIALS (variable
// order BDF, Newton, dense difference-quotient Jacobian), at a tolerance far below ours. It takes
// the plain equations of heat::right_hand_side and nothing of our integrator.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "driven_equations.h"
#include "ovendays/heat/integrator.h"

namespace ovendays::test {

/// A temperature that a node may rise through.
struct Level {
  int node;
  double level_K;
};

struct OracleOptions {
  double relative = 1e-9;
  double absolute = 1e-8;  ///< [K], of kNodeWater [%]
  Joins joins = Joins::kStop;
  /// Start afresh where boiling sets in or ceases and where drying passes from one rate to another.
  bool stop_at_bends = true;
};

/// Walks once through a run, forwards. It starts afresh wherever the forcing's slope (where it
/// jumps only, if OracleOptions::joins says so) or the lid changes, where the food starts or stops
/// boiling, and where its drying passes from one rate to the other, so that no kink lies within a
/// step.
/// @throws std::runtime_error where CVODE gives up. Not thread-safe; distinct oracles are.
class CvodeOracle {
 public:
  /// @param run its state is the start; the watcher is not called. Model and forcing must outlive
  /// this.
  CvodeOracle(const heat::HeatModel& model,
              const heat::Run& run,
              std::vector<Level> levels = {},
              const OracleOptions& options = {});
  ~CvodeOracle();
  CvodeOracle(const CvodeOracle&) = delete;
  CvodeOracle& operator=(const CvodeOracle&) = delete;

  /// Goes on to a time not before the last one asked for. The reference holds until the next call.
  const heat::State& at(double time_s);
  /// When the level of that index was first risen through, up to the last time asked for.
  [[nodiscard]] std::optional<double> risen_s(std::size_t level) const;
  [[nodiscard]] long steps() const;

 private:
  struct Solver;
  std::unique_ptr<Solver> solver_;
};
}  // namespace ovendays::test
