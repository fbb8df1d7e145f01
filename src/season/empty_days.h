// SPDX-License-Identifier: MIT
// The empty oven through a day, from the noon before: one trajectory a day, shared by all tasks.
// Private to season.
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

/// A night to be run: the day that it leads to, and what drives the oven on the day before.
struct NightJob {
  int day_index;
  const DayForcing* before;
};

/// Runs the empty oven from noon, when it is as warm as the air, to midnight; several side by side.
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

/// A day to be run: its place in the year, how it begins and what drives it (perhaps with something
/// taken away).
struct EmptyJob {
  int day_index;
  Midnight begins;
  const DayForcing* today;
  heat::StepWatcher* also = nullptr;  ///< sees every step of the day too
};

/// How long the empty oven is followed.
enum class Until { kMidnight, kLastLoading };

/// Runs the empty oven on several days side by side.
/// @param until with kLastLoading what comes later is not told
/// @throws base::RunError naming the day
std::vector<EmptyDay> run_empty_days(const Setup& setup,
                                     std::span<const EmptyJob> jobs,
                                     Until until,
                                     const heat::IntegratorOptions& options);

heat::Forcing forcing_of(const DayForcing& day, std::size_t load);
/// The piece of a day's air in which a time falls.
const heat::AirSegment& air_at(const DayForcing& day, double time_s);

/// "WHAT on Jan 3: the integration failed at 10:30".
[[noreturn]] void fail_run(const std::string& what,
                           const base::Date& date,
                           const heat::RunSummary& run);
}  // namespace ovendays::season
