// SPDX-License-Identifier: MIT
#include "ovendays/task/forerunners.h"

#include <algorithm>
#include <array>

#include "ovendays/base/check.h"

namespace ovendays::task {
namespace {

/// A node may be behind by so much and still count as level: far below what decides anything, and
/// what is that little behind stays so or catches up.
constexpr double kLevel_K = 0.01;

/// The outer layers come last to forget the heat of the empty oven.
constexpr std::array<int, 6> kSlowest = {heat::kNodeFloorSkin,
                                         heat::kNodeFloor3,
                                         heat::kNodeWallSkin,
                                         heat::kNodeWall3,
                                         heat::kNodeFloor2,
                                         heat::kNodePane};
}  // namespace

void Track::note(const Standing& now) {
  if (places_.empty()) first_mark_ = now.mark;
  OVENDAYS_CHECK(now.mark == first_mark_ + places_.size());
  Place& place = places_.emplace_back();
  for (std::size_t n = 0; n < heat::kNodes; ++n) place.y[n] = static_cast<float>(now.y[n]);
  place.hold_s = static_cast<float>(now.hold_s);
  place.air_s = static_cast<float>(now.air_s);
}

bool Track::ahead_of(const Standing& other, const std::vector<int>& nodes) const {
  if (other.mark < first_mark_ || other.mark >= first_mark_ + places_.size()) return false;
  const Place& place = places_[other.mark - first_mark_];
  for (const int node : nodes) {
    const auto n = static_cast<std::size_t>(node);
    if (place.y[n] < other.y[n] - kLevel_K) return false;
  }
  // The drier one is ahead: water that has left cools no more.
  return place.y[heat::kNodeWater] <= other.y[heat::kNodeWater] && place.hold_s >= other.hold_s &&
         place.air_s >= other.air_s;
}

Forerunners::Forerunners(const heat::HeatModel& model)
    : clear_K_(model.drying() && !model.present[heat::kNodeLid] ? kClearOpen_K : kClear_K) {
  const auto add = [&](int node) {
    const bool known = std::find(nodes_.begin(), nodes_.end(), node) != nodes_.end();
    if (model.present[static_cast<std::size_t>(node)] && node != heat::kNodeWater && !known)
      nodes_.push_back(node);
  };
  for (const int node : kSlowest) add(node);
  for (int node = 0; node < heat::kNodes; ++node) add(node);
}

Forerunners::Day& Forerunners::day(const heat::Forcing& forcing) {
  return days_[{forcing.air.data(), forcing.gains.data()}];
}

std::unique_ptr<Track> Forerunners::take_track() {
  if (free_.empty()) return std::make_unique<Track>();
  std::unique_ptr<Track> track = std::move(free_.back());
  free_.pop_back();
  track->clear();
  return track;
}

void Forerunners::give_back(std::unique_ptr<Track> track) {
  if (track) free_.push_back(std::move(track));
}

bool Forerunners::leads(const Day& day, const Standing& other, double peak_core_K) const {
  return day.track && day.peak_core_K >= peak_core_K && day.track->ahead_of(other, nodes_);
}

void Forerunners::lead(Day& day, std::unique_ptr<Track> track, double peak_core_K) {
  give_back(std::move(day.track));
  day.track = std::move(track);
  day.peak_core_K = peak_core_K;
}
}  // namespace ovendays::task
