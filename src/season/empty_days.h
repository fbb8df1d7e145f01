// SPDX-License-Identifier: MIT
// Runs the empty oven through a day. Each day starts from a run of the night before it, which
// begins at noon, so days are independent of one another and all tasks of a day share one
// trajectory. Private to season.
#pragma once

#include <array>
#include <span>
#include <string>
#include <vector>

#include "setup.h"

namespace ovendays::season {

/// The empty oven at 0 h.
struct Midnight {
  heat::State state{};
  double next_step_s = 0.0;  ///< as in heat::RunSummary
};

/// The night before a day.
struct NightJob {
  int day_index;  ///< of the day after the night
  const DayForcing* before;
};

/// Runs the empty oven from noon, starting at air temperature, to midnight; all jobs side by side.
/// @throws base::RunError naming the day
std::vector<Midnight> run_nights(const Setup& setup,
                                 std::span<const NightJob> jobs,
                                 const heat::IntegratorOptions& options);

/// The empty oven on one day.
struct EmptyDay {
  std::vector<heat::State> at_load;  ///< at each candidate loading time
  std::array<heat::State, 24> hour_end{};
  double peak_air_K = 0.0;
  std::vector<double> peak_face_K;  ///< of each of Setup::layer_faces, at the ends of steps
  heat::RunSummary run;             ///< from 0 h on
};

/// A day to be run.
struct EmptyJob {
  int day_index;
  Midnight begins;
  const DayForcing* today;            ///< perhaps with an adversity removed
  heat::StepWatcher* also = nullptr;  ///< sees every step of the day too
};

/// How long the empty oven is followed.
enum class Until { kMidnight, kLastLoading };

/// Runs the empty oven on several days side by side.
/// @param until with kLastLoading, hour ends and peaks after that time are missing
/// @throws base::RunError naming the day
std::vector<EmptyDay> run_empty_days(const Setup& setup,
                                     std::span<const EmptyJob> jobs,
                                     Until until,
                                     const heat::IntegratorOptions& options);

heat::Forcing forcing_of(const DayForcing& day, std::size_t load);
/// The merged segment of the air in which a time falls.
const heat::AirSegment& air_at(const DayForcing& day, double time_s);

/// Throws "WHAT on Jan 3: the integration failed at 10:30".
[[noreturn]] void fail_run(const std::string& what,
                           const base::Date& date,
                           const heat::RunSummary& run);
}  // namespace ovendays::season
