// SPDX-License-Identifier: MIT
// A season: every day of a year, every task of a case, every loading time; the outcome of each day
// and the cause of each lost one. Results are the same bits at any number of threads.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "ovendays/heat/integrator.h"
#include "ovendays/optics/acceptance.h"
#include "ovendays/season/case.h"
#include "ovendays/season/season_cache.h"
#include "ovendays/spot/scene.h"
#include "ovendays/task/aim.h"

namespace ovendays::season {

inline constexpr int kDays = 365;

enum class Outcome : std::uint8_t { kCooked = 0, kUnsafe = 1, kShort = 2, kNoGo = 3 };
/// Why a day was not cooked. The first four and the last are found by cooking the day again with
/// that one adversity removed.
enum class Cause : std::uint8_t {
  kNone = 0,  ///< it was cooked
  kObstruction = 1,
  kCloud = 2,
  kAim = 3,
  kWind = 4,
  kRain = 5,
  kRoutine = 6,  ///< a day of the week on which nobody cooks
  kSeason = 7,   ///< with all five taken away it would still not be cooked
  kSeveral = 8,  ///< no single one, but all five together would have saved it
  /// In the notches that the pot cannot use, lest it spill, slide or touch the glass, it would have
  /// been cooked. Looked for first; the most a level rack could win, as it loses notches too.
  kTilt = 9,
};
inline constexpr int kOutcomes = 4;
inline constexpr int kCauses = 10;
const char* outcome_name(Outcome outcome);
const char* cause_name(Cause cause);

/// What became of one task on one day. The figures are those of one cook: the quickest that works,
/// or on a lost day the one that got furthest (on an unsafe day the one with the least time in the
/// danger zone). Times are seconds of the day.
struct DayTask {
  Outcome outcome = Outcome::kNoGo;
  Cause cause = Cause::kNone;
  float load_s = -1;      ///< < 0: there was no cook
  float finish_s = -1;    ///< < 0: not done
  float margin_s = 0;     ///< finish-by less finish; 0 where not done
  float peak_core_K = 0;  ///< up to the finish
  float shortfall_K = 0;  ///< target less peak, >= 0
  float hold_share = 0;   ///< of the needed hold (and oven-air time) that was reached, 0..1
  float air_short_s = 0;  ///< by which the time with hot enough oven air fell short; not stored
  float danger_s = 0;     ///< time of the core in the danger zone
  float evaporated_kg = 0;
  float window_first_s =
      -1;  ///< first and last loading time that works; < 0: none, or not searched
  float window_last_s = -1;
  std::uint16_t window_count = 0;  ///< number of candidate loading times that work
};

/// How sure the figures of one task's year are, over seasons with other values of the uncertain
/// inputs (study/spread.h). Whole days and whole seconds. Negative values: none.
struct TaskRange {
  double draws = 0;  ///< number of those seasons; 0: no range was made
  double low_days =
      -1;  ///< days of the year on which it is cooked; one draw in ten has fewer (P10)
  double median_days = -1;     ///< P50
  double high_days = -1;       ///< P90
  double typical_load_s = -1;  ///< time of the day at which the cooks below are loaded
  double done_in_s = -1;       ///< from loading to done, median over draws and days
  double slow_s = -1;          ///< the same, P80: one cook in five takes longer
};

/// One hour of the empty oven and of the light that reached it; 365 x 24. Irradiances are means
/// over the hour on the glazing plane.
struct HourTrace {
  float sun_zenith_rad = 0, sun_azimuth_rad = 0;  ///< at mid-hour
  float visible_share = 0;   ///< of the beam; its beam-weighted mean (at mid-hour without a beam)
  float beam_mouth_Wm2 = 0;  ///< past obstructions, circumsolar light included
  float diffuse_mouth_Wm2 = 0;    ///< from sky, horizon, ground and reflecting obstructions
  float open_beam_mouth_Wm2 = 0;  ///< the beam as it would be without obstructions
  float aim_azimuth_rad = 0, aim_tilt_rad = 0;           ///< glazing, at mid-hour
  std::array<float, oven::kSurfaces> absorbed_W{};       ///< hour mean, empty oven
  float air_K = 0, liner_K = 0, tray_K = 0, pane_K = 0;  ///< at the END of the hour, empty oven
  float ambient_K = 0, wind_ms = 0;                      ///< at mid-hour, wind at the oven
};

struct DaySummary {
  float sunrise_s = 0, sunset_s = 0;
  float beam_hours_open_s = 0;  ///< time with a beam above 120 W/m2, WMO's sunshine threshold
  float beam_hours_here_s = 0;  ///< the same time, weighted by the visible share
  float peak_air_K = 0;         ///< empty oven
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
  /// Find out only which days work. Loading times are tried until one works, so the windows stay
  /// empty and a cooked day's figures are those of that first one; lost days are reported in full.
  /// Hours, day summaries, tables, memory and notes of the SeasonResult stay empty. Outcomes and
  /// causes are those of a full season.
  bool days_only = false;
  /// With days_only: of cooked days only the outcome is needed. One loading time is then tried
  /// before the others.
  bool outcomes_only = false;
  /// With days_only and without causes: the days to be simulated, 365 values; empty: all. The
  /// others come out as no-go without a cause.
  std::vector<bool> only_days;
  /// Follow every cook to its end instead of pruning (see task/dominance.h). Slower; for tests.
  bool follow_all = false;
  heat::IntegratorOptions integrator{.precision = heat::Precision::kSingle};
  optics::OpticsOptions optics;
  const SeasonCache* cache = nullptr;  ///< shared by the seasons of a study; nullptr: none
  /// With a cache: keep the sky and the forcing of the days in it as well as the optics. Otherwise
  /// the sky is freed with the season and the forcing of a block of days after its last cook.
  bool cache_year = true;
  /// Called with the share done, by one thread at a time; may be empty.
  std::function<void(double share_done)> progress;
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
  /// How much one day affects the next: largest difference of any node of the empty oven at the
  /// first loading time between the day as it is run and the same day started at midnight at air
  /// temperature. Largest of twelve days, one a month.
  double memory_K = 0.0;
  std::vector<std::string> load_names;          ///< "empty" and the vessels
  std::vector<optics::AcceptanceTable> tables;  ///< one per load
  spot::SpotMask mask_january, mask_july;       ///< as the oven's mouth sees it
  /// Remarks for the user, such as a material above its service limit or weather without rain data.
  std::vector<std::string> notes;
  double boiling_K = 373.15;

  [[nodiscard]] const DayTask& at(std::size_t task, int day_index) const {
    return days[task * kDays + static_cast<std::size_t>(day_index)];
  }
};

/// Makes the oven's optics, which do not depend on the weather, while one thread runs `meanwhile`,
/// such as reading the weather. run_season then finds the optics in options.cache, which must be
/// given. Returns when both are done; exceptions of `meanwhile` pass through.
void prepare_optics(const Case& c,
                    const SeasonOptions& options,
                    const std::function<void()>& meanwhile);

/// Runs a season. @throws base::RunError naming day and task where an integration fails
SeasonResult run_season(const Case& c,
                        const weather::WeatherYear& year,
                        const SeasonOptions& options);

/// The loading time that a season of days only tries first, a quarter into the candidates of a
/// task: mid-morning with the default routine. @returns -1 where there is none in time
double typical_load_s(const Case& c, std::size_t task);

/// Counts of one task by month. Index 12 is the year.
struct TaskCounts {
  std::array<std::array<int, kOutcomes>, 13> outcomes{};
  std::array<std::array<int, kCauses>, 13> causes{};
  double usual_load_first_s = -1;  ///< median over cooked days of the first loading time that works
  double usual_load_last_s = -1;   ///< the same of the last
  double usual_duration_s = -1;    ///< median over cooked days of finish less load
  int longest_wait_days = 0;  ///< longest run of days without a cook (the year taken as a ring)
};
TaskCounts count_task(const SeasonResult& result, std::size_t task);
/// Days on which a task is cooked, January to December and the year.
std::array<int, 13> cooked_by_month(const SeasonResult& result, std::size_t task);
/// The middle value (the upper one of two); -1 where there are no values.
double median(std::vector<double> values);
}  // namespace ovendays::season
