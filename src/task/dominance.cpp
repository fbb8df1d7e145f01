// SPDX-License-Identifier: MIT
#include "ovendays/task/dominance.h"

#include <algorithm>
#include <array>

#include "ovendays/base/check.h"

namespace ovendays::task {
namespace {

/// A node that is cooler by no more than this counts as level. It is far less than a clear failure
/// needs, and by the theorem the difference cannot grow into one.
constexpr double kLevel_K = 0.01;

/// Nodes that keep a trace of the empty oven longest, so most comparisons end at one of them.
constexpr std::array<int, 6> kSlowest = {heat::kNodeFloorSkin,
                                         heat::kNodeFloor3,
                                         heat::kNodeWallSkin,
                                         heat::kNodeWall3,
                                         heat::kNodeFloor2,
                                         heat::kNodePane};
}  // namespace

void CookHistory::note(const CookState& now) {
  if (places_.empty()) first_mark_ = now.mark;
  OVENDAYS_CHECK(now.mark == first_mark_ + places_.size());
  Place& place = places_.emplace_back();
  for (std::size_t n = 0; n < heat::kNodes; ++n) place.y[n] = static_cast<float>(now.y[n]);
  place.hold_s = static_cast<float>(now.hold_s);
  place.air_s = static_cast<float>(now.air_s);
}

bool CookHistory::ahead_of(const CookState& other, const std::vector<int>& nodes) const {
  if (other.mark < first_mark_ || other.mark >= first_mark_ + places_.size()) return false;
  const Place& place = places_[other.mark - first_mark_];
  for (const int node : nodes) {
    const auto n = static_cast<std::size_t>(node);
    if (place.y[n] < other.y[n] - kLevel_K) return false;
  }
  // The drier food is ahead, because water that has left no longer cools it.
  return place.y[heat::kNodeWater] <= other.y[heat::kNodeWater] && place.hold_s >= other.hold_s &&
         place.air_s >= other.air_s;
}

DominancePruning::DominancePruning(const heat::HeatModel& model)
    : clear_K_(model.drying() && !model.present[heat::kNodeLid] ? kClearOpen_K : kClear_K) {
  const auto add = [&](int node) {
    const bool known = std::find(nodes_.begin(), nodes_.end(), node) != nodes_.end();
    if (model.present[static_cast<std::size_t>(node)] && node != heat::kNodeWater && !known)
      nodes_.push_back(node);
  };
  for (const int node : kSlowest) add(node);
  for (int node = 0; node < heat::kNodes; ++node) add(node);
}

DominancePruning::Day& DominancePruning::day(const heat::Forcing& forcing) {
  return days_[{forcing.air.data(), forcing.gains.data()}];
}

std::unique_ptr<CookHistory> DominancePruning::take_history() {
  if (free_.empty()) return std::make_unique<CookHistory>();
  std::unique_ptr<CookHistory> history = std::move(free_.back());
  free_.pop_back();
  history->clear();
  return history;
}

void DominancePruning::give_back(std::unique_ptr<CookHistory> history) {
  if (history) free_.push_back(std::move(history));
}

bool DominancePruning::dominates(const Day& day, const CookState& other, double peak_core_K) const {
  return day.history && day.peak_core_K >= peak_core_K && day.history->ahead_of(other, nodes_);
}

void DominancePruning::set_failed(Day& day,
                                  std::unique_ptr<CookHistory> history,
                                  double peak_core_K) {
  give_back(std::move(day.history));
  day.history = std::move(history);
  day.peak_core_K = peak_core_K;
}
}  // namespace ovendays::task
