// SPDX-License-Identifier: MIT
// The numbers that steer rays, drawn once and used for every direction and load, so that
// neighbouring directions share their sampling noise. Each start (glass, one flap) owns a run of
// rays. In a run every pair of numbers is the same evenly spread set (a golden-ratio lattice) in an
// order of its own: places, scatter and bounces are each well spread and independent of each other.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "ovendays/base/vec.h"

namespace ovendays::optics {

class RayNumbers {
 public:
  /// Emission spreads start and first direction together and has no normal_pair().
  enum class Purpose { kSunlight, kEmission };
  /// @param runs rays in each run; @param shift moves the whole set: another sample
  RayNumbers(const std::vector<int>& runs, Purpose purpose, double shift = 0.5);

  struct Pair {
    double u = 0.0;
    double v = 0.0;
  };
  [[nodiscard]] int run_begin(std::size_t run) const { return begin_[run]; }
  [[nodiscard]] int run_size(std::size_t run) const { return begin_[run + 1] - begin_[run]; }
  /// Where ray `id` starts on its surface.
  [[nodiscard]] const Pair& start(std::uint32_t id) const { return start_[id]; }
  /// Two independent standard normal numbers.
  [[nodiscard]] const Pair& normal_pair(std::uint32_t id, std::uint32_t bounce) const {
    return normal_[bounce % kLevels][wrapped(id, bounce)];
  }
  /// Local direction about +z with density cos/pi (Lambert).
  [[nodiscard]] const base::Direction& diffuse(std::uint32_t id, std::uint32_t bounce) const {
    return diffuse_[bounce % kLevels][wrapped(id, bounce)];
  }
  /// Uniform in [0, 1), for either-or.
  [[nodiscard]] double choice(std::uint32_t id, std::uint32_t bounce) const {
    return choice_[bounce % kLevels][wrapped(id, bounce)];
  }

 private:
  static constexpr std::uint32_t kLevels = 3;
  // Beyond the drawn levels they are used again by other rays.
  [[nodiscard]] std::uint32_t wrapped(std::uint32_t id, std::uint32_t bounce) const {
    const std::uint32_t turn = bounce / kLevels;
    return turn == 0 ? id : (id + 7919U * turn) % size_;
  }
  std::vector<Pair> draw_starts(std::size_t run, double shift);
  void draw_bounces(std::size_t run, const std::vector<Pair>& even, Purpose purpose);
  void draw_emission(std::size_t run, double shift);

  std::vector<int> begin_;
  std::uint32_t size_ = 0;
  std::vector<Pair> start_;
  std::array<std::vector<Pair>, kLevels> normal_;
  std::array<std::vector<base::Direction>, kLevels> diffuse_;
  std::array<std::vector<double>, kLevels> choice_;
};
}  // namespace ovendays::optics
