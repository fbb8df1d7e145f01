// SPDX-License-Identifier: MIT
// Merged segments lose nothing, stay near the fine ones, and smooth parts of a day become one.
#include <cmath>

#include "catch.h"
#include "merge_segments.h"

using namespace ovendays;
using season::Segments;
using test::within_abs;

namespace {
constexpr double kSegment_s = 300.0;

/// Five-minute segments of three hours: gains along a smooth arch, with a shadow's edge in the
/// middle and a new tilt after two hours.
Segments made_day() {
  Segments day;
  day.gains.resize(2);
  const auto gain_W = [](double t_s, std::size_t s) {
    const double arch = 100.0 * std::cos((t_s - 5400.0) / 13750.0);  // 15 deg an hour
    const double shade = t_s > 4500.0 && t_s < 5100.0 ? 0.3 : 1.0;
    return shade * arch * (1.0 + 0.1 * static_cast<double>(s));
  };
  for (int i = 0; i < 36; ++i) {
    heat::AirSegment air;
    air.start_s = kSegment_s * i;
    air.end_s = kSegment_s * (i + 1);
    air.glazing_tilt_rad = i < 24 ? 0.3 : 0.5;
    const auto around = [](double t_s) {
      heat::Surroundings at;
      at.ambient_K = 290.0 + t_s / 3600.0;
      at.pane_env_K4 = 6e9;
      at.skin_env_K4 = 6.5e9;
      at.wind_ms = 2.0;
      return at;
    };
    air.start = around(air.start_s);
    air.end = around(air.end_s);
    day.air.push_back(air);
    for (auto& gains : day.gains) {
      heat::GainSegment& gain = gains.emplace_back();
      for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
        gain.start_W[s] = gain_W(air.start_s + 1e-6, s);
        gain.end_W[s] = gain_W(air.end_s - 1e-6, s);
      }
    }
  }
  return day;
}

struct Sums {
  double energy_J = 0.0;
  double moment_Js = 0.0;
};

Sums sums_of(const std::vector<heat::AirSegment>& air,
             const std::vector<heat::GainSegment>& gains,
             std::size_t s) {
  Sums sums;
  for (std::size_t i = 0; i < air.size(); ++i) {
    const double span_s = air[i].end_s - air[i].start_s;
    const double mean_W = 0.5 * (gains[i].start_W[s] + gains[i].end_W[s]);
    const double middle_s = 0.5 * (air[i].start_s + air[i].end_s);
    sums.energy_J += span_s * mean_W;
    sums.moment_Js +=
        span_s * (mean_W * middle_s + span_s * (gains[i].end_W[s] - gains[i].start_W[s]) / 12.0);
  }
  return sums;
}
}  // namespace

TEST_CASE("merged segments keep energy and moment and stay near the fine ones",
          "[season][identity]") {
  const Segments day = made_day();
  Segments merged;
  merge_segments(day, merged);
  CHECK(merged.air.size() < day.air.size() / 2);  // an arch of this size asks for far fewer
  CHECK(merged.air.size() > 5);                   // the shadow's edges and the tilt stay
  for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
    const Sums fine = sums_of(day.air, day.gains[1], s);
    const Sums coarse = sums_of(merged.air, merged.gains[1], s);
    CHECK_THAT(coarse.energy_J, within_abs(fine.energy_J, 1e-9 * std::abs(fine.energy_J)));
    CHECK_THAT(coarse.moment_Js, within_abs(fine.moment_Js, 1e-9 * std::abs(fine.moment_Js)));
  }
  std::size_t at = 0;
  for (std::size_t i = 0; i < day.air.size(); ++i) {
    while (merged.air[at].end_s < day.air[i].end_s) ++at;
    const heat::AirSegment& over = merged.air[at];
    REQUIRE(over.start_s <= day.air[i].start_s);
    CHECK(over.glazing_tilt_rad == day.air[i].glazing_tilt_rad);
    const double share = (day.air[i].end_s - over.start_s) / (over.end_s - over.start_s);
    for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
      const heat::GainSegment& line = merged.gains[0][at];
      const double here_W = line.start_W[s] + share * (line.end_W[s] - line.start_W[s]);
      CHECK_THAT(here_W, within_abs(day.gains[0][i].end_W[s], 0.4 + 1e-9));
    }
  }
}
