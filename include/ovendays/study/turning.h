// SPDX-License-Identifier: MIT
// How often to turn the oven after the sun: the days of a season against the time from one turn to
// the next, everything else as in the case. Thread-safe: yes.
#pragma once

#include <array>
#include <functional>
#include <vector>

#include "ovendays/season/season.h"

namespace ovendays::study {

/// One way to keep the oven pointed.
struct Turning {
  enum class Kind {
    kEvery,  ///< every `every_s`, from the time it is set out
    kOnce,   ///< set once a day on where the sun stands at noon
    kNever,  ///< faces Routine::facing_rad for good; only the notch is chosen, at noon
  } kind = Kind::kEvery;
  double every_s = 1800.0;  ///< kEvery [s], 60 or more
};

/// Every 10, 15, 20, 30, 45, 60, 90, 120, 180 and 240 minutes, once a day, never.
std::vector<Turning> usual_turnings();

/// The case with that turning. @param noon_s clock time of the sun's highest stand [s]
season::Case turned(const season::Case& c, const Turning& turning, double noon_s);

/// Clock time [s, local standard] of mean solar noon: 12 h less the site's longitude beyond its
/// zone's meridian, without the equation of time (a quarter of an hour at most).
double mean_noon_s(const sun::Place& place);

/// True where turning cannot change anything: the oven does not turn and has one notch.
bool turning_is_idle(const oven::OvenDesign& oven);

struct TaskTurning {
  std::array<int, 13> days{};  ///< days cooked by month; index 12 the year
  /// Turns of the oven between loading and finish, mean over the days cooked; 0 but for kEvery.
  double turns_a_cook = 0.0;
};
struct TurningDays {
  Turning turning;
  std::vector<TaskTurning> tasks;  ///< in the order of the case
};

/// One season each. @param progress share done, from one thread at a time; may be empty
/// @throws base::RunError as run_season does
std::vector<TurningDays> days_by_turning(const season::Case& c,
                                         const weather::WeatherYear& year,
                                         const std::vector<Turning>& turnings,
                                         const season::SeasonOptions& options);
}  // namespace ovendays::study
