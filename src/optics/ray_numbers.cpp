// SPDX-License-Identifier: MIT
// Draws the numbers of all rays. They are evenly spread (quasi-random) rather than random, which
// gives a smaller error with the same number of rays.
#include "ray_numbers.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/random.h"

namespace ovendays::optics {
namespace {
using Pair = RayNumbers::Pair;

double fraction(double value) { return value - std::floor(value); }

// The point of the unit circle at the share `v` of a turn.
Pair on_circle(double v) { return {std::cos(base::kTwoPi * v), std::sin(base::kTwoPi * v)}; }

// Two independent standard normal numbers (Box and Muller 1958).
Pair gaussian(double u, const Pair& circle) {
  const double radius = std::sqrt(-2.0 * std::log(1.0 - u));
  return {radius * circle.u, radius * circle.v};
}

// A direction with density cos / pi about +z: its projection on the plane is uniform in the circle.
base::Direction lambert(double u, const Pair& circle) {
  const double sine = std::sqrt(u);
  return {sine * circle.u, sine * circle.v, std::sqrt(1.0 - u)};
}

// A random order of 0 to count - 1 (Fisher and Yates).
std::vector<std::uint32_t> shuffled(int count, std::uint64_t key, std::uint64_t stream) {
  std::vector<std::uint32_t> order(static_cast<std::size_t>(count));
  std::iota(order.begin(), order.end(), 0U);
  base::KeyedRandom random(key, stream);
  for (std::size_t i = order.size(); i > 1; --i) {
    const auto k = static_cast<std::size_t>(random.uniform() * static_cast<double>(i));
    std::swap(order[i - 1], order[k]);
  }
  return order;
}
}  // namespace

RayNumbers::RayNumbers(const std::vector<int>& runs, Purpose purpose, double shift) {
  begin_.push_back(0);
  for (const int rays : runs) begin_.push_back(begin_.back() + rays);
  OVENDAYS_CHECK(begin_.back() > 0);
  size_ = static_cast<std::uint32_t>(begin_.back());
  start_.resize(size_);
  for (std::uint32_t level = 0; level < kLevels; ++level) {
    if (purpose == Purpose::kSunlight) normal_[level].resize(size_);
    diffuse_[level].resize(size_);
    choice_[level].resize(size_);
  }
  for (std::size_t run = 0; run < runs.size(); ++run) {
    draw_bounces(run, draw_starts(run, shift), purpose);
    if (purpose == Purpose::kEmission) draw_emission(run, shift);
  }
}

std::vector<RayNumbers::Pair> RayNumbers::draw_starts(std::size_t run, double shift) {
  const auto first = static_cast<std::size_t>(begin_[run]);
  const auto count = static_cast<std::size_t>(run_size(run));
  // Without a shift, the point with index 0 is the step of the sequence.
  const double step = base::additive_point<1>(0, 0.0)[0];
  std::vector<Pair> even(count);
  for (std::size_t i = 0; i < count; ++i) {
    const double n = static_cast<double>(i);
    even[i] = {(n + fraction(shift)) / static_cast<double>(count), fraction(shift + step * n)};
    start_[first + i] = even[i];
  }
  return even;
}

// All levels are the same set of numbers in different orders. Each number is therefore converted to
// a direction once, and the levels copy the directions.
void RayNumbers::draw_bounces(std::size_t run, const std::vector<Pair>& even, Purpose purpose) {
  const auto first = static_cast<std::size_t>(begin_[run]);
  const auto key = static_cast<std::uint64_t>(run);
  const bool sunlight = purpose == Purpose::kSunlight;
  std::vector<base::Direction> direction;
  std::vector<Pair> normal;
  direction.reserve(even.size());
  for (const Pair& pair : even) {
    const Pair circle = on_circle(pair.v);
    direction.push_back(lambert(pair.u, circle));
    if (sunlight) normal.push_back(gaussian(pair.u, circle));
  }
  for (std::uint64_t level = 0; level < kLevels; ++level) {
    // For emission, draw_emission() chooses the first direction.
    if (sunlight || level > 0) {
      const auto bounce = shuffled(run_size(run), key, 3 * level);
      for (std::size_t i = 0; i < even.size(); ++i) {
        diffuse_[level][first + i] = direction[bounce[i]];
      }
    }
    const auto choice = shuffled(run_size(run), key, 3 * level + 1);
    for (std::size_t i = 0; i < even.size(); ++i) {
      choice_[level][first + i] = even[choice[i]].v;
    }
    if (!sunlight) continue;
    const auto stray = shuffled(run_size(run), key, 3 * level + 2);
    for (std::size_t i = 0; i < even.size(); ++i) {
      normal_[level][first + i] = normal[stray[i]];
    }
  }
}

// The starting point and the direction of emission together decide what is hit. They are therefore
// spread evenly in four dimensions.
void RayNumbers::draw_emission(std::size_t run, double shift) {
  const std::array<double, 4> step = base::additive_point<4>(0, 0.0);
  const auto first = static_cast<std::size_t>(begin_[run]);
  const auto count = static_cast<std::size_t>(run_size(run));
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t id = first + i;
    const double n = static_cast<double>(i);
    const auto place = [&](std::size_t k) { return fraction(shift + step[k] * n); };
    start_[id] = {place(0), place(1)};
    diffuse_[0][id] = lambert(place(2), on_circle(place(3)));
  }
}
}  // namespace ovendays::optics
