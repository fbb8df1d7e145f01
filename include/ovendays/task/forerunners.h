// SPDX-License-Identifier: MIT
// Cooks that need not be followed to their end, because another one that failed stays ahead of
// them.
//
// Two cooks of one task on one day stand under the same sun, air and wind. Where at some moment one
// of them, A, is nowhere cooler than the other, B, it stays so: warmth flows from warm to cool, so
// that what makes any node warmer makes no other node cooler (comparison theorem of cooperative
// systems: Mueller, Kamke; H. L. Smith 1995, Monotone Dynamical Systems, chapter 3, from memory).
// If A has also been hot for at least as long as B by then, and fails all the same, B fails, and
// got no further than A.
//
// Steam departs from that a little: warmer oven air draws more vapour out through the leaks, which
// cools the food by at most 0.07 W a kelvin under a lid and 0.5 W in an open pan
// (tests/heat/cooperative_test.cpp), and a food short of
// water moistens the pane less. So do the integrator's errors. A cook therefore counts as failed
// here only where it fails clearly, by kClear_K or kClear_s.
#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <memory>
#include <utility>
#include <vector>

#include "ovendays/heat/integrator.h"

namespace ovendays::task {

/// Where a cook stands at a mark.
struct Standing {
  std::size_t mark;
  heat::StateView y;
  double hold_s, air_s;  ///< as of CookResult, so far
};

/// Where one cook stood at every mark that it passed.
class Track {
 public:
  void clear() { places_.clear(); }
  /// Marks come one after the other.
  void note(const Standing& now);
  /// Was this one nowhere behind? @param nodes the network's, those first in which it most likely
  /// was
  [[nodiscard]] bool ahead_of(const Standing& other, const std::vector<int>& nodes) const;

 private:
  struct Place {
    std::array<float, heat::kNodes> y;
    float hold_s, air_s;
  };
  std::size_t first_mark_ = 0;
  std::vector<Place> places_;
};

/// The cooks of one task that failed clearly, the last one of each day. Not thread-safe: it belongs
/// to the days that one thread works on.
class Forerunners {
 public:
  /// By this a peak or a hold must stay short for a cook to have failed clearly.
  static constexpr double kClear_K = 0.25;
  static constexpr double kClearOpen_K = 1.0;  ///< the same for food that steams from an open pan
  static constexpr double kClear_s = 60.0;

  explicit Forerunners(const heat::HeatModel& model);
  [[nodiscard]] double clear_K() const { return clear_K_; }

  /// Of one day under one load.
  struct Day {
    std::unique_ptr<Track> track;  ///< of the forerunner; null where there is none yet
    double peak_core_K = 0.0;
  };
  Day& day(const heat::Forcing& forcing);
  /// A clear track, and back.
  std::unique_ptr<Track> take_track();
  void give_back(std::unique_ptr<Track> track);
  /// Is the day's forerunner ahead? @param peak_core_K of the other one, so far
  [[nodiscard]] bool leads(const Day& day, const Standing& other, double peak_core_K) const;
  /// One that failed clearly takes the lead of its day.
  void lead(Day& day, std::unique_ptr<Track> track, double peak_core_K);

 private:
  double clear_K_;
  std::vector<int> nodes_;
  std::map<std::pair<const heat::AirSegment*, const heat::GainSegment*>, Day> days_;
  std::vector<std::unique_ptr<Track>> free_;
};
}  // namespace ovendays::task
