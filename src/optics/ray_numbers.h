// SPDX-License-Identifier: MIT
// The numbers that decide where rays start and how they are scattered. They are drawn once and used
// for every direction of the light and every load, so that the sampling error changes smoothly from
// one direction to the next instead of adding noise.
//
// The rays are divided into runs, one for each surface on which rays start (the glass, each flap).
// Within a run all numbers come from one evenly spread set, a lattice with the golden ratio, which
// each quantity uses in a random order of its own. So starting points, scatter angles and
// directions after each bounce are each evenly spread, and independent of each other.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "ovendays/base/vec.h"

namespace ovendays::optics {

class RayNumbers {
 public:
  /// For kEmission the first direction is chosen together with the starting point, and there is no
  /// normal_pair().
  enum class Purpose { kSunlight, kEmission };
  /// @param runs number of rays in each run; @param shift another value gives another sample
  RayNumbers(const std::vector<int>& runs, Purpose purpose, double shift = 0.5);

  struct Pair {
    double u = 0.0;
    double v = 0.0;
  };
  [[nodiscard]] int run_begin(std::size_t run) const { return begin_[run]; }
  [[nodiscard]] int run_size(std::size_t run) const { return begin_[run + 1] - begin_[run]; }
  /// Starting point of ray `id` on its surface, in coordinates from 0 to 1.
  [[nodiscard]] const Pair& start(std::uint32_t id) const { return start_[id]; }
  /// Two independent standard normal numbers, for the scatter of a flap.
  [[nodiscard]] const Pair& normal_pair(std::uint32_t id, std::uint32_t bounce) const {
    return normal_[bounce % kLevels][wrapped(id, bounce)];
  }
  /// Direction after a diffuse reflection, about +z with density cos/pi (Lambert's law).
  [[nodiscard]] const base::Direction& diffuse(std::uint32_t id, std::uint32_t bounce) const {
    return diffuse_[bounce % kLevels][wrapped(id, bounce)];
  }
  /// Uniform in [0, 1), for the choice between specular and diffuse reflection.
  [[nodiscard]] double choice(std::uint32_t id, std::uint32_t bounce) const {
    return choice_[bounce % kLevels][wrapped(id, bounce)];
  }

 private:
  static constexpr std::uint32_t kLevels = 3;
  // Numbers are drawn for the first kLevels bounces only. Later bounces use those of other rays.
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
