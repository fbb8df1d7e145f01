// SPDX-License-Identifier: MIT
#include "ovendays/study/turning.h"

#include <algorithm>
#include <cmath>

#include "ovendays/base/constants.h"
#include "ovendays/season/season_cache.h"

namespace ovendays::study {
namespace {

/// Counts the turns at set-out + i every_s that fall between loading and finish.
double turns_between(const task::Routine& routine, double load_s, double finish_s) {
  const double from_s = std::max(routine.set_out_s, routine.home_from_s);
  const double until_s = std::min(finish_s, routine.home_until_s);
  const double first = std::floor((load_s - from_s) / routine.re_aim_every_s) + 1.0;
  const double last = std::ceil((until_s - from_s) / routine.re_aim_every_s) - 1.0;
  return std::max(0.0, last - std::max(first, 0.0) + 1.0);
}

TaskTurning task_turning(const season::Case& c,
                         const season::SeasonResult& result,
                         std::size_t task) {
  TaskTurning row;
  row.days = season::cooked_by_month(result, task);
  if (c.routine.re_aim != task::ReAim::kEvery || row.days[12] == 0) return row;
  double turns = 0.0;
  for (int d = 0; d < season::kDays; ++d) {
    const season::DayTask& day = result.at(task, d);
    if (day.outcome != season::Outcome::kCooked) continue;
    turns += turns_between(
        c.routine, static_cast<double>(day.load_s), static_cast<double>(day.finish_s));
  }
  row.turns_a_cook = turns / row.days[12];
  return row;
}
}  // namespace

// The intervals of the default table: fine where turning pays, coarse where it hardly matters.
std::vector<Turning> usual_turnings() {
  std::vector<Turning> all;
  for (const double minutes : {10.0, 15.0, 20.0, 30.0, 45.0, 60.0, 90.0, 120.0, 180.0, 240.0}) {
    all.push_back({Turning::Kind::kEvery, minutes * base::kSecondsPerMinute});
  }
  all.push_back({Turning::Kind::kOnce, 0.0});
  all.push_back({Turning::Kind::kNever, 0.0});
  return all;
}

season::Case turned(const season::Case& c, const Turning& turning, double noon_s) {
  season::Case changed = c;
  switch (turning.kind) {
    case Turning::Kind::kEvery:
      changed.routine.re_aim = task::ReAim::kEvery;
      changed.routine.re_aim_every_s = turning.every_s;
      break;
    case Turning::Kind::kOnce:
      changed.routine.re_aim = task::ReAim::kOnce;
      changed.routine.re_aim_s = {noon_s};
      break;
    case Turning::Kind::kNever:
      changed.routine.re_aim = task::ReAim::kNever;
      break;
  }
  return changed;
}

double mean_noon_s(const sun::Place& place) {
  // The site's solar time minus the zone's clock, as a delay of noon.
  const double behind_s = place.utc_offset_s - place.longitude_rad / base::kTwoPi * 86400.0;
  return std::clamp(43200.0 + behind_s, 0.0, base::kSecondsPerDay);
}

bool turning_is_idle(const oven::OvenDesign& oven) {
  return !oven.aim.turns && oven.aim.notch_tilt_rad.size() < 2;
}

std::vector<TurningDays> days_by_turning(const season::Case& c,
                                         const weather::WeatherYear& year,
                                         const std::vector<Turning>& turnings,
                                         const season::SeasonOptions& options) {
  std::vector<TurningDays> rows;
  const double noon_s = mean_noon_s(year.place);
  // Sky and optics are the same for all turnings, so they are made once.
  const season::SeasonCache cache;
  for (std::size_t i = 0; i < turnings.size(); ++i) {
    season::SeasonOptions one = options;
    one.causes = false;
    one.cache = &cache;
    if (options.progress) {
      one.progress = [&options, i, &turnings](double share_done) {
        options.progress((static_cast<double>(i) + share_done) /
                         static_cast<double>(turnings.size()));
      };
    }
    const season::Case changed = turned(c, turnings[i], noon_s);
    const season::SeasonResult result = season::run_season(changed, year, one);
    TurningDays row{turnings[i], {}};
    for (std::size_t t = 0; t < c.tasks.size(); ++t)
      row.tasks.push_back(task_turning(changed, result, t));
    rows.push_back(std::move(row));
  }
  return rows;
}
}  // namespace ovendays::study
