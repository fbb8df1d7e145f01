// SPDX-License-Identifier: MIT
// How often to turn the oven: simulates the season of a case with several intervals between turns.
// Thread-safe: yes.
#pragma once

#include <array>
#include <functional>
#include <vector>

#include "ovendays/season/season.h"

namespace ovendays::study {

/// One way to keep the oven pointed at the sun.
struct Turning {
  enum class Kind {
    kEvery,  ///< every `every_s`, counted from the time it is set out
    kOnce,   ///< once a day, towards the noon sun
    kNever,  ///< always faces Routine::facing_rad; the notch is that of noon
  } kind = Kind::kEvery;
  double every_s = 1800.0;  ///< interval of kEvery [s], at least 60
};

/// Every 10, 15, 20, 30, 45, 60, 90, 120, 180 and 240 minutes, once a day, never.
std::vector<Turning> usual_turnings();

/// The case with another turning. @param noon_s clock time of solar noon [s]
season::Case turned(const season::Case& c, const Turning& turning, double noon_s);

/// Clock time of mean solar noon [s, local standard time]: 12 h minus the time by which the site
/// lies east of its zone's meridian. The equation of time (at most a quarter of an hour) is
/// ignored.
double mean_noon_s(const sun::Place& place);

/// Whether turning cannot change anything, because the oven does not turn and has one notch.
bool turning_is_idle(const oven::OvenDesign& oven);

struct TaskTurning {
  std::array<int, 13> days{};  ///< days cooked by month; index 12 is the year
  /// Mean number of turns between loading and finish, over the days cooked; 0 except for kEvery.
  double turns_a_cook = 0.0;
};
struct TurningDays {
  Turning turning;
  std::vector<TaskTurning> tasks;  ///< in the order of the case's tasks
};

/// Simulates one season for each turning. The progress of `options` refers to all of them.
/// @throws base::RunError as run_season does
std::vector<TurningDays> days_by_turning(const season::Case& c,
                                         const weather::WeatherYear& year,
                                         const std::vector<Turning>& turnings,
                                         const season::SeasonOptions& options);
}  // namespace ovendays::study
