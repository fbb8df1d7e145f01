// SPDX-License-Identifier: MIT
#include "cause_search.h"

#include <algorithm>
#include <array>

namespace ovendays::season {
namespace {

constexpr Without kNoTilt{.tilt = true};
constexpr Without kNoObstruction{.obstruction = true};
constexpr Without kNoCloud{.cloud = true};
constexpr Without kNoAim{.aim = true};
constexpr Without kNoWind{.wind = true};
constexpr Without kNoneOfThem{true, true, true, true, true};

/// Number of runs that fill a pack of SIMD lanes in single precision.
constexpr std::size_t kPackOfRuns = 16;
/// Days of a batch: enough to fill packs in the later rounds too, when most days have been found to
/// work.
constexpr std::size_t kDaysOfBatch = 4 * kPackOfRuns;

/// The rounds of rounds_of(), except that the earliest loading time joins the late ones, one round
/// before the rest of the early morning. If it fails, it prunes most of that rest.
std::array<std::vector<std::size_t>, 4> times_in_rounds(std::size_t times) {
  constexpr std::size_t kRoundOfLateTimes = 2;
  std::array<std::vector<std::size_t>, 4> rounds;
  const auto ranges = rounds_of(times, true);
  for (std::size_t r = 0; r < ranges.size(); ++r) {
    for (std::size_t time = ranges[r][0]; time < ranges[r][1]; ++time)
      rounds[time == 0 ? std::min(r, kRoundOfLateTimes) : r].push_back(time);
  }
  return rounds;
}
}  // namespace

CauseSearch::CauseSearch(const Setup& setup,
                         const SeasonOptions& options,
                         int first_day,
                         std::span<const Midnight> midnights,
                         std::span<DayTask> results,
                         std::span<AuditTotal> audits)
    : setup_(setup),
      options_(options),
      first_day_(first_day),
      days_(audits.size()),
      midnights_(midnights),
      results_(results),
      audits_(audits),
      lost_(setup.c->tasks.size()) {
  for (std::size_t t = 0; t < lost_.size(); ++t) {
    for (std::size_t day = 0; day < days_; ++day) {
      const Outcome outcome = results[t * days_ + day].outcome;
      if (outcome == Outcome::kShort || outcome == Outcome::kUnsafe) lost_[t].push_back(day);
    }
  }
}

void CauseSearch::run() {
  // The order decides which cause is named where several would do.
  assign_tilt();
  if (!setup_.scene.open()) assign_cause(kNoObstruction, Cause::kObstruction);
  assign_cause(kNoCloud, Cause::kCloud);
  // A day that stays lost with everything removed is lost to the season. Finding these days now
  // saves the search for the last two causes, which apply to few.
  std::vector<std::vector<std::size_t>> hopeful = days_that_work(kNoneOfThem);
  for (std::size_t t = 0; t < lost_.size(); ++t) {
    for (const std::size_t day : lost_[t]) results_[t * days_ + day].cause = Cause::kSeason;
    lost_[t] = std::move(hopeful[t]);
  }
  assign_cause(kNoAim, Cause::kAim);
  assign_cause(kNoWind, Cause::kWind);
  for (std::size_t t = 0; t < lost_.size(); ++t) {
    for (const std::size_t day : lost_[t]) results_[t * days_ + day].cause = Cause::kSeveral;
  }
}

// Of tasks that can use every notch no day is lost to tilt, so they are left out.
void CauseSearch::assign_tilt() {
  std::vector<std::vector<std::size_t>> others(lost_.size());
  for (std::size_t t = 0; t < lost_.size(); ++t) {
    if (!setup_.limited(t)) std::swap(others[t], lost_[t]);
  }
  assign_cause(kNoTilt, Cause::kTilt);
  for (std::size_t t = 0; t < lost_.size(); ++t) {
    if (!setup_.limited(t)) std::swap(others[t], lost_[t]);
  }
}

void CauseSearch::assign_cause(const Without& without, Cause cause) {
  const std::vector<std::vector<std::size_t>> found = days_that_work(without);
  for (std::size_t t = 0; t < lost_.size(); ++t) {
    for (const std::size_t day : found[t]) results_[t * days_ + day].cause = cause;
    remove_days(lost_[t], found[t]);
  }
}

std::vector<std::vector<std::size_t>> CauseSearch::days_that_work(const Without& without) {
  make_variants(without);
  std::vector<Batch> all = make_batches();
  parallel(static_cast<int>(all.size()), setup_.threads, [&](int i) {
    search(all[static_cast<std::size_t>(i)]);
  });
  std::vector<std::vector<std::size_t>> found(lost_.size());
  for (const Batch& batch : all) {
    found[batch.task].insert(found[batch.task].end(), batch.found.begin(), batch.found.end());
    for (std::size_t i = 0; i < batch.days.size(); ++i) audits_[batch.days[i]] += batch.audits[i];
  }
  // Days were found in the order of the rounds.
  for (std::vector<std::size_t>& days : found) std::sort(days.begin(), days.end());
  return found;
}

// Makes forcing and empty oven of the days that are still lost for some task. The night before is
// left as it was: the oven forgets it by the time of loading (SeasonResult::memory_K).
void CauseSearch::make_variants(const Without& without) {
  variants_.clear();
  variants_.resize(days_);
  std::vector<std::size_t> wanted;
  for (std::size_t day = 0; day < days_; ++day) {
    const bool lost = std::any_of(lost_.begin(), lost_.end(), [day](const auto& days) {
      return std::binary_search(days.begin(), days.end(), day);
    });
    if (lost) wanted.push_back(day);
  }
  parallel(static_cast<int>(wanted.size()), setup_.threads, [&](int i) {
    const std::size_t day = wanted[static_cast<std::size_t>(i)];
    variants_[day] = std::make_unique<Variant>();
    make_forcing(day, without, variants_[day]->forcing);
  });
  const std::size_t packs = (wanted.size() + kPackOfRuns - 1) / kPackOfRuns;
  parallel(static_cast<int>(packs), setup_.threads, [&](int pack) {
    const std::size_t from = static_cast<std::size_t>(pack) * kPackOfRuns;
    const std::size_t count = std::min(kPackOfRuns, wanted.size() - from);
    std::vector<EmptyJob> jobs;
    for (const std::size_t day : std::span(wanted).subspan(from, count))
      jobs.push_back({day_index(day), midnights_[day], &variants_[day]->forcing.front()});
    std::vector<EmptyDay> empty =
        run_empty_days(setup_, jobs, Until::kLastLoading, options_.integrator);
    for (std::size_t i = 0; i < count; ++i)
      variants_[wanted[from + i]]->empty = std::move(empty[i]);
  });
}

void CauseSearch::make_forcing(std::size_t day,
                               const Without& without,
                               std::vector<DayForcing>& forcing) const {
  const sky::SkyDay& sky = setup_.sky_day(day_index(day));
  if (without.tilt) {
    AimGroup any{{}, std::vector<bool>(setup_.loads.size(), false)};
    any.loads.front() = true;
    for (std::size_t t = 0; t < lost_.size(); ++t) {
      if (std::binary_search(lost_[t].begin(), lost_[t].end(), day))
        any.loads[setup_.load_of_task[t]] = true;
    }
    forcing.push_back(make_day_forcing(setup_.forcing, sky, without, any));
    return;
  }
  forcing.resize(setup_.groups.size());
  for (std::size_t g = 0; g < forcing.size(); ++g) {
    if (g == 0 || is_lost(day, g))
      forcing[g] = make_day_forcing(setup_.forcing, sky, without, setup_.groups[g]);
  }
}

bool CauseSearch::is_lost(std::size_t day, std::size_t group) const {
  for (std::size_t t = 0; t < lost_.size(); ++t) {
    if (setup_.group_of_task[t] != group) continue;
    if (std::binary_search(lost_[t].begin(), lost_[t].end(), day)) return true;
  }
  return false;
}

std::vector<CauseSearch::Batch> CauseSearch::make_batches() const {
  std::vector<Batch> all;
  for (std::size_t t = 0; t < lost_.size(); ++t) {
    const std::vector<std::size_t>& days = lost_[t];
    for (std::size_t from = 0; from < days.size(); from += kDaysOfBatch) {
      const std::size_t to = std::min(from + kDaysOfBatch, days.size());
      Batch batch{t, {}, {}, std::vector<AuditTotal>(to - from)};
      batch.days.assign(days.begin() + static_cast<long>(from),
                        days.begin() + static_cast<long>(to));
      all.push_back(std::move(batch));
    }
  }
  return all;
}

void CauseSearch::search(Batch& batch) const {
  std::vector<std::size_t> left = batch.days;
  task::DominancePruning pruning(setup_.models[batch.task]);
  const auto rounds = times_in_rounds(usable_times(setup_, batch.task));
  std::vector<std::size_t> times;
  for (std::size_t r = 0; r < rounds.size() && !left.empty(); ++r) {
    times.insert(times.end(), rounds[r].begin(), rounds[r].end());
    // Too few cooks to fill a pack: the next round costs nothing beside them.
    if (left.size() * times.size() < kPackOfRuns && r + 1 < rounds.size()) continue;
    const std::vector<std::size_t> now = try_times(batch, left, times, pruning);
    remove_days(left, now);
    batch.found.insert(batch.found.end(), now.begin(), now.end());
    times.clear();
  }
}

std::vector<std::size_t> CauseSearch::try_times(Batch& batch,
                                                const std::vector<std::size_t>& days,
                                                const std::vector<std::size_t>& times,
                                                task::DominancePruning& pruning) const {
  std::vector<PlannedCook> cooks;
  std::vector<std::size_t> day_of;
  for (const std::size_t day : days) {
    const Variant& variant = *variants_[day];
    const DayForcing& forcing = variant.of_group(setup_.group_of_task[batch.task]);
    for (const std::size_t time : times) {
      cooks.push_back({day_index(day), &forcing, &variant.empty, time});
      day_of.push_back(day);
    }
  }
  const std::vector<task::CookResult> results =
      run_planned_cooks(setup_, batch.task, cooks, options_, pruning);
  std::vector<std::size_t> work;
  for (std::size_t i = 0; i < cooks.size(); ++i) {
    const auto at = std::lower_bound(batch.days.begin(), batch.days.end(), day_of[i]);
    batch.audits[static_cast<std::size_t>(at - batch.days.begin())] += results[i].run;
    if (works(results[i]) && (work.empty() || work.back() != day_of[i])) work.push_back(day_of[i]);
  }
  return work;
}
}  // namespace ovendays::season
