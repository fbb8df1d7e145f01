// SPDX-License-Identifier: MIT
#include "ovendays/base/random.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "catch.h"

using ovendays::base::additive_point;
using ovendays::base::KeyedRandom;
using ovendays::test::within_abs;

TEST_CASE("SplitMix64 gives the published sequence", "[base][reference]") {
  // State before the first step is the mixed key, so the stream is compared with the algorithm of
  // Steele, Lea and Flood (2014) written out here.
  const auto mix = [](std::uint64_t z) {
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31U);
  };
  // First output for seed 0 is 0xE220A8397B1DCDAF (reference implementation, public domain).
  REQUIRE(mix(0x9E3779B97F4A7C15ULL) == 0xE220A8397B1DCDAFULL);
  KeyedRandom random(0);
  REQUIRE(random.bits() == mix(0xE220A8397B1DCDAFULL + 0x9E3779B97F4A7C15ULL));
}

TEST_CASE("keyed streams are uniform and differ between keys", "[base][unit]") {
  double sum = 0.0;
  constexpr int kKeys = 20000;
  for (int key = 0; key < kKeys; ++key) {
    KeyedRandom random(static_cast<std::uint64_t>(key), 7U);
    const double u = random.uniform();
    REQUIRE((u >= 0.0 && u < 1.0));
    sum += u;
  }
  // The mean of n uniform numbers has standard deviation 0.289 / sqrt(n) = 0.0020; five are
  // allowed.
  REQUIRE_THAT(sum / kKeys, within_abs(0.5, 0.0102));
}

TEST_CASE("additive points fill the square far more evenly than random points",
          "[base][identity]") {
  // Compares the count in anchored boxes with their area. The star discrepancy of R2 is near (log
  // n)/n; random points give 1/sqrt(n) = 0.016 at n = 4096, and the bound is a fifth of that.
  constexpr int kPoints = 4096;
  for (const double edge_x : {0.1, 0.25, 0.5, 0.83}) {
    for (const double edge_y : {0.17, 0.4, 0.6, 0.95}) {
      int inside = 0;
      for (int i = 0; i < kPoints; ++i) {
        const auto p = additive_point<2>(static_cast<std::uint64_t>(i));
        inside += p[0] < edge_x && p[1] < edge_y ? 1 : 0;
      }
      REQUIRE_THAT(inside / double{kPoints}, within_abs(edge_x * edge_y, 0.003));
    }
  }
}

TEST_CASE("no coordinate of the additive points leaves a wide gap", "[base][identity]") {
  constexpr int kPoints = 1000;
  for (std::size_t axis = 0; axis < 4; ++axis) {
    std::vector<double> values;
    for (int i = 0; i < kPoints; ++i) {
      const auto p = additive_point<4>(static_cast<std::uint64_t>(i), 0.25);
      REQUIRE((p[axis] >= 0.0 && p[axis] < 1.0));
      values.push_back(p[axis]);
    }
    std::sort(values.begin(), values.end());
    double widest = values.front() + 1.0 - values.back();
    for (std::size_t i = 1; i < values.size(); ++i) {
      widest = std::max(widest, values[i] - values[i - 1]);
    }
    // Random points leave gaps of about log(n)/n = 0.007; an additive recurrence has two or three
    // gap lengths, the longest below 4/n for these badly approximable steps.
    REQUIRE(widest < 0.0045);
  }
}

TEST_CASE("the step of the one-dimensional sequence is the golden ratio", "[base][reference]") {
  // Roberts 2018: d = 1 has phi = 1.6180339887498949.
  const double step = additive_point<1>(0, 0.0)[0];
  REQUIRE_THAT(step, within_abs(0.6180339887498949, 1e-15));
  // d = 2: the plastic number 1.3247179572447461.
  REQUIRE_THAT(additive_point<2>(0, 0.0)[0], within_abs(1.0 / 1.3247179572447461, 1e-15));
}
