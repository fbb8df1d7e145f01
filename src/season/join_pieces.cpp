// SPDX-License-Identifier: MIT
#include "join_pieces.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "ovendays/base/constants.h"

namespace ovendays::season {
namespace {

constexpr double kGain_W = 0.4;
constexpr double kSkinGain_W = 1.0;
constexpr double kAir_K = 0.05;
constexpr double kAround_K4 = 3e7;  // 0.3 K at 290 K
constexpr double kWind_ms = 0.05;

/// A line over a stretch of time.
struct Line {
  double start = 0.0;
  double end = 0.0;
};

bool stays(const heat::AirSegment& a, const heat::AirSegment& b) {
  return a.end_s == b.start_s && a.glazing_tilt_rad == b.glazing_tilt_rad &&
         a.pane_wind_factor == b.pane_wind_factor && a.vapour_Pa == b.vapour_Pa &&
         a.lid_open == b.lid_open;
}

/// Fits lines to pieces first..last of a day.
class Fit {
 public:
  Fit(const GainDay& day, std::size_t first, std::size_t last)
      : day_(day), first_(first), last_(last), from_s_(day.air[first].start_s) {
    span_s_ = day.air[last].end_s - from_s_;
  }

  /// The line of the quantity that `of` reads at both ends of a piece, if it serves.
  template <class Of>
  std::optional<Line> line(Of of, double tolerance) const {
    double sum = 0.0;
    double moment = 0.0;  // about the middle
    for (std::size_t i = first_; i <= last_; ++i) {
      const Line piece = of(i);
      const double width_s = day_.air[i].end_s - day_.air[i].start_s;
      const double place_s = 0.5 * (day_.air[i].start_s + day_.air[i].end_s) - middle_s();
      sum += 0.5 * width_s * (piece.start + piece.end);
      moment += 0.5 * width_s * (piece.start + piece.end) * place_s +
                width_s * width_s * (piece.end - piece.start) / 12.0;
    }
    const double mean = sum / span_s_;
    const double slope = 12.0 * moment / (span_s_ * span_s_ * span_s_);
    for (std::size_t i = first_; i <= last_; ++i) {
      const Line piece = of(i);
      const double start = mean + slope * (day_.air[i].start_s - middle_s());
      const double end = mean + slope * (day_.air[i].end_s - middle_s());
      if (std::abs(piece.start - start) > tolerance || std::abs(piece.end - end) > tolerance)
        return std::nullopt;
    }
    return Line{mean - 0.5 * slope * span_s_, mean + 0.5 * slope * span_s_};
  }

 private:
  [[nodiscard]] double middle_s() const { return from_s_ + 0.5 * span_s_; }
  const GainDay& day_;
  std::size_t first_, last_;
  double from_s_, span_s_ = 0.0;
};

struct Joined {
  heat::AirSegment air;
  std::vector<heat::GainSegment> gains;  ///< by load
};

/// One piece of the surroundings' numbers; false where no line serves.
bool fit_air(const GainDay& day, const Fit& fit, heat::AirSegment& air) {
  struct Part {
    double heat::Surroundings::*member;
    double tolerance;
  };
  constexpr std::array<Part, 5> parts{{{&heat::Surroundings::ambient_K, kAir_K},
                                       {&heat::Surroundings::pane_env_K4, kAround_K4},
                                       {&heat::Surroundings::skin_env_K4, kAround_K4},
                                       {&heat::Surroundings::skin_gain_W, kSkinGain_W},
                                       {&heat::Surroundings::wind_ms, kWind_ms}}};
  for (const Part& part : parts) {
    const auto of = [&](std::size_t i) {
      return Line{day.air[i].start.*part.member, day.air[i].end.*part.member};
    };
    const std::optional<Line> line = fit.line(of, part.tolerance);
    if (!line) return false;
    air.start.*part.member = line->start;
    air.end.*part.member = line->end;
  }
  // A straight line may dip below what a shadow's edge leaves.
  air.start.wind_ms = std::max(0.0, air.start.wind_ms);
  air.end.wind_ms = std::max(0.0, air.end.wind_ms);
  return true;
}

std::optional<Joined> join(const GainDay& day, std::size_t first, std::size_t last) {
  const Fit fit(day, first, last);
  Joined joined{day.air[first], {}};
  joined.air.end_s = day.air[last].end_s;
  if (!fit_air(day, fit, joined.air)) return std::nullopt;
  for (const std::vector<heat::GainSegment>& gains : day.gains) {
    heat::GainSegment& made = joined.gains.emplace_back();
    for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
      const auto of = [&](std::size_t i) { return Line{gains[i].start_W[s], gains[i].end_W[s]}; };
      const std::optional<Line> line = fit.line(of, kGain_W);
      if (!line) return std::nullopt;
      made.start_W[s] = line->start;
      made.end_W[s] = line->end;
    }
  }
  return joined;
}
}  // namespace

void join_pieces(GainDay& day) {
  day.joined = {};
  day.joined.gains.resize(day.gains.size());
  std::size_t first = 0;
  while (first < day.air.size()) {
    Joined best{day.air[first], {}};
    for (const auto& gains : day.gains) best.gains.push_back(gains[first]);
    std::size_t last = first;
    while (last + 1 < day.air.size() && stays(day.air[last], day.air[last + 1]) &&
           day.air[last + 1].end_s - day.air[first].start_s <= base::kSecondsPerHour) {
      std::optional<Joined> longer = join(day, first, last + 1);
      if (!longer) break;
      best = std::move(*longer);
      ++last;
    }
    day.joined.air.push_back(best.air);
    for (std::size_t l = 0; l < day.gains.size(); ++l) day.joined.gains[l].push_back(best.gains[l]);
    first = last + 1;
  }
}
}  // namespace ovendays::season
