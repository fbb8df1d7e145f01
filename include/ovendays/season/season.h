// SPDX-License-Identifier: MIT
// The season: all days x tasks x loading times of a case. Results are the same bits at any thread
// count.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "ovendays/heat/integrator.h"
#include "ovendays/optics/acceptance.h"
#include "ovendays/season/case.h"
#include "ovendays/season/kept.h"
#include "ovendays/spot/scene.h"
#include "ovendays/task/aim.h"

namespace ovendays::season {

inline constexpr int kDays = 365;

enum class Outcome : std::uint8_t { kCooked = 0, kUnsafe = 1, kShort = 2, kNoGo = 3 };
/// Why a day was not cooked. The first four are found by asking again with that one thing taken
/// away.
enum class Cause : std::uint8_t {
  kNone = 0,  ///< it was cooked
  kObstruction = 1,
  kCloud = 2,
  kAim = 3,
  kWind = 4,
  kRain = 5,
  kRoutine = 6,  ///< a day of the week on which nobody cooks
  kSeason = 7,   ///< with all four taken away it would still not be cooked
  kSeveral = 8,  ///< no single one, but all four together would have saved it
};
inline constexpr int kOutcomes = 4;
inline constexpr int kCauses = 9;
const char* outcome_name(Outcome outcome);
const char* cause_name(Cause cause);

/// What became of one task on one day.
struct DayTask {
  Outcome outcome = Outcome::kNoGo;
  Cause cause = Cause::kNone;
  float load_s = -1;  ///< of the cook told of here: the quickest that works, else the one that got
                      ///< furthest (unsafe: least long in the danger zone); < 0 none
  float finish_s = -1;    ///< [s of the day]; < 0 not done
  float margin_s = 0;     ///< finish-by minus finish; negative never (not done is told by finish_s)
  float peak_core_K = 0;  ///< up to the finish
  float shortfall_K = 0;  ///< target minus peak, >= 0
  float hold_share = 0;   ///< of the needed hold (and oven-air time) that was reached, 0..1
  float danger_s = 0;     ///< time of the core in the danger zone, of that cook
  float evaporated_kg = 0;
  float window_first_s =
      -1;  ///< first and last loading time that works (cooked and within the danger rule)
  float window_last_s = -1;
  std::uint16_t window_count = 0;  ///< number of candidate loading times that work
};

/// One hour of the empty oven and what reached it; 365 x 24.
struct HourTrace {
  float sun_zenith_rad = 0, sun_azimuth_rad = 0;  ///< at mid-hour
  float visible_share =
      0;  ///< of the beam, beam-weighted mean over the hour (at mid-hour where there is no beam)
  float beam_mouth_Wm2 =
      0;  ///< on the glazing plane after obstructions, hour mean, circumsolar light included
  float diffuse_mouth_Wm2 =
      0;  ///< sky, horizon, ground and reflecting obstructions on the glazing plane
  float open_beam_mouth_Wm2 = 0;                    ///< the same beam had nothing stood in the way
  float aim_azimuth_rad = 0, aim_tilt_rad = 0;      ///< glazing, at mid-hour
  std::array<float, oven::kSurfaces> absorbed_W{};  ///< hour mean, empty oven
  float air_K = 0, liner_K = 0, tray_K = 0, pane_K = 0;  ///< at the END of the hour, empty oven
  float ambient_K = 0, wind_ms = 0;                      ///< at mid-hour, wind at the oven
};

struct DaySummary {
  float sunrise_s = 0, sunset_s = 0;
  float beam_hours_open_s =
      0;  ///< time the sun is up with beam above 120 W/m2 (WMO's sunshine threshold)
  float beam_hours_here_s = 0;                 ///< the same, times the visible share
  float peak_air_K = 0;                        ///< empty oven
  float audit_residual_J = 0, audit_in_J = 0;  ///< empty oven, 0 h to 24 h
};

/// Sums over runs of the heat model: energy balance and steps.
struct AuditTotal {
  double worst_share = 0.0;  ///< largest |residual| / in of all runs with more than 100 kJ in
  double in_J = 0.0, out_J = 0.0, stored_J = 0.0;
  double residual_J = 0.0;  ///< sum of absolute values
  long runs = 0, steps = 0, rejected = 0;

  AuditTotal& operator+=(const AuditTotal& other);
  AuditTotal& operator+=(const heat::RunSummary& run);
};

struct SeasonOptions {
  int threads = 0;     ///< 0: as many as OpenMP gives
  bool causes = true;  ///< look for the cause of each lost day
  /// Only which days work: loading times are tried until one does, and the day tells of that one
  /// (window_* stay empty); lost days are told in full. SeasonResult's hours, day summaries,
  /// tables, memory and notes stay empty. Outcomes are those of a full season.
  bool days_only = false;
  /// With days_only: of cooked days no more than that is told, any loading time will do.
  bool outcomes_only = false;
  /// Follow every cook to its end, those too that one that failed stays ahead of (see
  /// task/forerunners.h): slower, for tests.
  bool follow_all = false;
  heat::IntegratorOptions integrator{.precision = heat::Precision::kSingle};
  optics::OpticsOptions optics;
  const Kept* kept = nullptr;  ///< of a study; nullptr: nothing is shared
  /// With `kept`: keep there the sky and the days' gains too, not only the optics. Else, and
  /// without `kept`, the sky goes with the season and a stretch's gains behind its last cook.
  bool keep_year = true;
  std::function<void(double share_done)>
      progress;  ///< called from one thread at a time; may be empty
};

struct SeasonResult {
  std::string site_name, spot_name, oven_name;
  sun::Place place;
  std::vector<std::string> task_names;
  std::vector<double> task_target_K;  ///< as used (lowered below boiling where needed)
  std::vector<DayTask> days;          ///< [task * 365 + day]
  std::vector<HourTrace> hours;       ///< 365 * 24
  std::array<DaySummary, kDays> day{};
  AuditTotal audit;
  /// What the box remembers of the day before: the empty oven at the first loading time, run from
  /// the noon before, against the same run with the night started at air temperature. Largest
  /// difference of twelve days.
  double memory_K = 0.0;
  std::vector<std::string> load_names;          ///< "empty" and the vessels
  std::vector<optics::AcceptanceTable> tables;  ///< one per load
  spot::SpotMask mask_january, mask_july;       ///< as the oven's mouth sees it
  std::vector<std::string>
      notes;  ///< to be told to the user: limits of materials passed, no rain data, ...
  double boiling_K = 373.15;

  [[nodiscard]] const DayTask& at(std::size_t task, int day_index) const {
    return days[task * kDays + static_cast<std::size_t>(day_index)];
  }
};

/// Makes ahead what does not depend on the weather, while one thread does something else, such as
/// reading it; run_season then finds it in options.kept, which must be given. Returns when both are
/// done and passes on what `meanwhile` throws.
void prepare_optics(const Case& c,
                    const SeasonOptions& options,
                    const std::function<void()>& meanwhile);

/// @throws base::RunError naming day and task when a run fails.
SeasonResult run_season(const Case& c,
                        const weather::WeatherYear& year,
                        const SeasonOptions& options);

/// Counts by task and month. Index 12 is the year.
struct TaskCounts {
  std::array<std::array<int, kOutcomes>, 13> outcomes{};
  std::array<std::array<int, kCauses>, 13> causes{};
  double usual_load_first_s = -1,
         usual_load_last_s = -1;  ///< medians over cooked days of window ends
  double usual_duration_s = -1;   ///< median of finish - load over cooked days
  int longest_wait_days = 0;      ///< longest run of days without a cook (the year taken as a ring)
};
TaskCounts count_task(const SeasonResult& result, std::size_t task);
/// Its days cooked, January to December and the year.
std::array<int, 13> cooked_by_month(const SeasonResult& result, std::size_t task);
/// The middle value (the upper of two); -1 of nothing.
double median(std::vector<double> values);
}  // namespace ovendays::season
