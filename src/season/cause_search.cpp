// SPDX-License-Identifier: MIT
#include "cause_search.h"

#include <algorithm>
#include <array>

namespace ovendays::season {
namespace {

constexpr Without kNoObstruction{true, false, false, false};
constexpr Without kNoCloud{false, true, false, false};
constexpr Without kNoAim{false, false, true, false};
constexpr Without kNoWind{false, false, false, true};
constexpr Without kNoneOfThem{true, true, true, true};

/// As many runs as go side by side in single precision.
constexpr std::size_t kPackOfRuns = 16;
/// Of one task, asked together: few of them are left for the later rounds.
constexpr std::size_t kDaysOfShare = 4 * kPackOfRuns;

/// Loading times in rounds: as rounds_of() has them, but that the earliest of all goes along with
/// the late ones, a round before the others of the early morning. Where it fails, those behind it
/// need not be followed.
std::array<std::vector<std::size_t>, 4> times_in_rounds(std::size_t times) {
  constexpr std::size_t kLateOnes = 2;
  std::array<std::vector<std::size_t>, 4> rounds;
  const auto ranges = rounds_of(times, true);
  for (std::size_t r = 0; r < ranges.size(); ++r) {
    for (std::size_t time = ranges[r][0]; time < ranges[r][1]; ++time)
      rounds[time == 0 ? std::min(r, kLateOnes) : r].push_back(time);
  }
  return rounds;
}
}  // namespace

CauseSearch::CauseSearch(const Setup& setup,
                         const SeasonOptions& options,
                         int first_day,
                         std::span<const Midnight> nights,
                         std::span<DayTask> results,
                         std::span<AuditTotal> audits)
    : setup_(setup),
      options_(options),
      first_day_(first_day),
      days_(audits.size()),
      nights_(nights),
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
  if (!setup_.scene.open()) settle(kNoObstruction, Cause::kObstruction);
  settle(kNoCloud, Cause::kCloud);
  // What all four together cannot save is the season's; asked before the two that seldom help.
  std::vector<std::vector<std::size_t>> hopeful = work_without(kNoneOfThem);
  for (std::size_t t = 0; t < lost_.size(); ++t) {
    for (const std::size_t day : lost_[t]) results_[t * days_ + day].cause = Cause::kSeason;
    lost_[t] = std::move(hopeful[t]);
  }
  settle(kNoAim, Cause::kAim);
  settle(kNoWind, Cause::kWind);
  for (std::size_t t = 0; t < lost_.size(); ++t) {
    for (const std::size_t day : lost_[t]) results_[t * days_ + day].cause = Cause::kSeveral;
  }
}

void CauseSearch::settle(const Without& without, Cause cause) {
  const std::vector<std::vector<std::size_t>> found = work_without(without);
  for (std::size_t t = 0; t < lost_.size(); ++t) {
    for (const std::size_t day : found[t]) results_[t * days_ + day].cause = cause;
    take_out(lost_[t], found[t]);
  }
}

std::vector<std::vector<std::size_t>> CauseSearch::work_without(const Without& without) {
  make_variants(without);
  std::vector<Share> all = shares();
  parallel(static_cast<int>(all.size()), setup_.threads, [&](int i) {
    ask(all[static_cast<std::size_t>(i)]);
  });
  std::vector<std::vector<std::size_t>> found(lost_.size());
  for (const Share& share : all) {
    found[share.task].insert(found[share.task].end(), share.found.begin(), share.found.end());
    for (std::size_t i = 0; i < share.days.size(); ++i) audits_[share.days[i]] += share.audits[i];
  }
  for (std::vector<std::size_t>& days : found) std::sort(days.begin(), days.end());
  return found;
}

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
    variants_[day]->forcing =
        make_day_forcing(setup_.forcing, setup_.sky_day(day_index(day)), without);
  });
  const std::size_t packs = (wanted.size() + kPackOfRuns - 1) / kPackOfRuns;
  parallel(static_cast<int>(packs), setup_.threads, [&](int pack) {
    const std::size_t from = static_cast<std::size_t>(pack) * kPackOfRuns;
    const std::size_t count = std::min(kPackOfRuns, wanted.size() - from);
    std::vector<EmptyJob> jobs;
    for (const std::size_t day : std::span(wanted).subspan(from, count))
      jobs.push_back({day_index(day), nights_[day], &variants_[day]->forcing});
    std::vector<EmptyDay> empty =
        run_empty_days(setup_, jobs, Until::kLastLoading, options_.integrator);
    for (std::size_t i = 0; i < count; ++i)
      variants_[wanted[from + i]]->empty = std::move(empty[i]);
  });
}

std::vector<CauseSearch::Share> CauseSearch::shares() const {
  std::vector<Share> all;
  for (std::size_t t = 0; t < lost_.size(); ++t) {
    const std::vector<std::size_t>& days = lost_[t];
    for (std::size_t from = 0; from < days.size(); from += kDaysOfShare) {
      const std::size_t to = std::min(from + kDaysOfShare, days.size());
      Share share{t, {}, {}, std::vector<AuditTotal>(to - from)};
      share.days.assign(days.begin() + static_cast<long>(from),
                        days.begin() + static_cast<long>(to));
      all.push_back(std::move(share));
    }
  }
  return all;
}

void CauseSearch::ask(Share& share) const {
  std::vector<std::size_t> left = share.days;
  task::Forerunners forerunners(setup_.models[share.task]);
  const auto rounds = times_in_rounds(usable_times(setup_, share.task));
  std::vector<std::size_t> times;
  for (std::size_t r = 0; r < rounds.size() && !left.empty(); ++r) {
    times.insert(times.end(), rounds[r].begin(), rounds[r].end());
    // What would leave lanes idle may as well take the next round along.
    if (left.size() * times.size() < kPackOfRuns && r + 1 < rounds.size()) continue;
    const std::vector<std::size_t> now = try_times(share, left, times, forerunners);
    take_out(left, now);
    share.found.insert(share.found.end(), now.begin(), now.end());
    times.clear();
  }
}

std::vector<std::size_t> CauseSearch::try_times(Share& share,
                                                const std::vector<std::size_t>& days,
                                                const std::vector<std::size_t>& times,
                                                task::Forerunners& forerunners) const {
  std::vector<Trial> trials;
  std::vector<std::size_t> day_of;
  for (const std::size_t day : days) {
    const Variant& variant = *variants_[day];
    for (const std::size_t time : times) {
      trials.push_back({{day_index(day), &variant.forcing, &variant.empty}, time});
      day_of.push_back(day);
    }
  }
  const std::vector<task::CookResult> cooks =
      cook_trials(setup_, share.task, trials, options_, forerunners);
  std::vector<std::size_t> work;
  for (std::size_t i = 0; i < trials.size(); ++i) {
    const auto at = std::lower_bound(share.days.begin(), share.days.end(), day_of[i]);
    share.audits[static_cast<std::size_t>(at - share.days.begin())] += cooks[i].run;
    if (works(cooks[i]) && (work.empty() || work.back() != day_of[i])) work.push_back(day_of[i]);
  }
  return work;
}
}  // namespace ovendays::season
