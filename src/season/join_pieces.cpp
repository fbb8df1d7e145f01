// SPDX-License-Identifier: MIT
#include "join_pieces.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "ovendays/base/constants.h"

namespace ovendays::season {
namespace {

constexpr double kGain_W = 0.4;
constexpr double kSkinGain_W = 1.0;
constexpr double kAir_K = 0.05;
constexpr double kAround_K4 = 3e7;  // 0.3 K at 290 K
constexpr double kWind_ms = 0.05;

/// The surroundings' quantities and how far a joined line may stray from each.
struct AirQuantity {
  double heat::Surroundings::*member;
  double tolerance;
};
constexpr std::array<AirQuantity, 5> kAirQuantities{
    {{&heat::Surroundings::ambient_K, kAir_K},
     {&heat::Surroundings::pane_env_K4, kAround_K4},
     {&heat::Surroundings::skin_env_K4, kAround_K4},
     {&heat::Surroundings::skin_gain_W, kSkinGain_W},
     {&heat::Surroundings::wind_ms, kWind_ms}}};

bool stays(const heat::AirSegment& a, const heat::AirSegment& b) {
  return a.end_s == b.start_s && a.glazing_tilt_rad == b.glazing_tilt_rad &&
         a.pane_wind_factor == b.pane_wind_factor && a.vapour_Pa == b.vapour_Pa &&
         a.lid_open == b.lid_open;
}

/// Neighbours that might become one, and how many of them do. Numbers lie by piece, then quantity,
/// so that all quantities go side by side.
class Group {
 public:
  explicit Group(const GainDay& day) : day_(day), place_(day.gains.size()) {
    for (const AirQuantity& air : kAirQuantities) tolerance_.push_back(air.tolerance);
    dark_.assign(day.air.size(), 1);
    for (std::size_t load = 0; load < day.gains.size(); ++load) {
      std::array<double, oven::kSurfaces> most{};
      for (std::size_t piece = 0; piece < day.gains[load].size(); ++piece) {
        const heat::GainSegment& gains = day.gains[load][piece];
        double sum = 0.0;
        for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
          const double larger = std::max(gains.start_W[s], gains.end_W[s]);
          most[s] = std::max(most[s], larger);
          sum += larger;
        }
        if (sum > 0.0) dark_[piece] = 0;
      }
      for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
        if (most[s] <= 0.0) continue;
        place_[load][s] = tolerance_.size();
        lit_.push_back({load, s});
        tolerance_.push_back(kGain_W);
      }
    }
    from_.resize(tolerance_.size());
    to_.resize(tolerance_.size());
    slope_.resize(tolerance_.size());
    worst_.resize(tolerance_.size());
  }

  /// Joins as many pieces from `first` on as serve. @return how many
  std::size_t join(std::size_t first) {
    first_ = first;
    size_ = dark_[first] != 0 ? kAirQuantities.size() : tolerance_.size();
    count_ = 0;
    edges_s_.clear();
    while (may_take(first + count_)) take(first + count_);
    std::size_t good = 1;
    std::size_t too_many = count_ + 1;
    // Mostly all of them fit; else the number is halved in on.
    for (std::size_t next = count_; next > good; next = good + (too_many - good) / 2) {
      (fits(next) ? good : too_many) = next;
    }
    count_ = good;
    fit(good);
    return good;
  }

  /// The joined piece's surroundings.
  [[nodiscard]] heat::AirSegment air() const {
    heat::AirSegment air = day_.air[first_];
    air.end_s = day_.air[first_ + count_ - 1].end_s;
    for (std::size_t q = 0; q < kAirQuantities.size(); ++q) {
      air.start.*kAirQuantities[q].member = from_[q];
      air.end.*kAirQuantities[q].member = to_[q];
    }
    // A straight line may dip below what a shadow's edge leaves.
    air.start.wind_ms = std::max(0.0, air.start.wind_ms);
    air.end.wind_ms = std::max(0.0, air.end.wind_ms);
    return air;
  }

  [[nodiscard]] heat::GainSegment gains(std::size_t load) const {
    heat::GainSegment gains;
    for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
      const std::size_t q = place_[load][s];
      if (q == 0 || q >= size_) continue;  // dark
      gains.start_W[s] = from_[q];
      gains.end_W[s] = to_[q];
    }
    return gains;
  }

 private:
  [[nodiscard]] bool may_take(std::size_t piece) const {
    if (count_ == 0) return true;
    return piece < day_.air.size() && stays(day_.air[piece - 1], day_.air[piece]) &&
           dark_[piece] == dark_[first_] &&
           day_.air[piece].end_s - day_.air[first_].start_s <= base::kSecondsPerHour &&
           !jumps(piece);
  }

  /// Does a quantity jump as a piece begins, so far that no line serves on both sides?
  [[nodiscard]] bool jumps(std::size_t piece) const {
    const heat::Surroundings& before = day_.air[piece - 1].end;
    const heat::Surroundings& after = day_.air[piece].start;
    for (const AirQuantity& a : kAirQuantities) {
      if (std::abs(after.*a.member - before.*a.member) > 2.0 * a.tolerance) return true;
    }
    if (size_ == kAirQuantities.size()) return false;
    return std::any_of(lit_.begin(), lit_.end(), [&](const Lit& lit) {
      const std::vector<heat::GainSegment>& gains = day_.gains[lit.load];
      return std::abs(gains[piece].start_W[lit.surface] - gains[piece - 1].end_W[lit.surface]) >
             2.0 * kGain_W;
    });
  }

  void take(std::size_t piece) {
    const std::size_t size = size_;
    if (starts_.size() < (count_ + 1) * size) {
      const std::size_t room = (2 * count_ + 8) * size;
      for (std::vector<double>* row : {&starts_, &ends_, &integrals_, &moments_}) row->resize(room);
    }
    const heat::AirSegment& air = day_.air[piece];
    const double start_s = air.start_s - day_.air[first_].start_s;
    const double end_s = air.end_s - day_.air[first_].start_s;
    edges_s_.push_back({start_s, end_s});
    double* start = starts_.data() + count_ * size;
    double* end = ends_.data() + count_ * size;
    std::size_t next = 0;
    for (const AirQuantity& a : kAirQuantities) {
      start[next] = air.start.*a.member;
      end[next++] = air.end.*a.member;
    }
    for (std::size_t i = 0; next < size; ++i) {
      const Lit& lit = lit_[i];
      const heat::GainSegment& gains = day_.gains[lit.load][piece];
      start[next] = gains.start_W[lit.surface];
      end[next++] = gains.end_W[lit.surface];
    }
    const double half_width_s = 0.5 * (end_s - start_s);
    const double middle_s = 0.5 * (start_s + end_s);
    const double by_slope_s2 = half_width_s * half_width_s / 3.0;
    double* integral = integrals_.data() + count_ * size;
    double* moment = moments_.data() + count_ * size;
    for (std::size_t q = 0; q < size; ++q) {
      integral[q] = half_width_s * (start[q] + end[q]);
      moment[q] = integral[q] * middle_s + by_slope_s2 * (end[q] - start[q]);
    }
    if (count_ > 0) {
      for (std::size_t q = 0; q < size; ++q) {
        integral[q] += integrals_[(count_ - 1) * size + q];
        moment[q] += moments_[(count_ - 1) * size + q];
      }
    }
    ++count_;
  }

  /// The lines with the first pieces' integrals and first moments about the group's start.
  void fit(std::size_t count) {
    const std::size_t size = size_;
    if (count == 1) {
      std::copy_n(starts_.begin(), size, from_.begin());
      std::copy_n(ends_.begin(), size, to_.begin());
      return;
    }
    const double* integral = integrals_.data() + (count - 1) * size;
    const double* moment = moments_.data() + (count - 1) * size;
    const double span_s = edges_s_[count - 1].end;
    const double per_span = 1.0 / span_s;
    const double per_square = 6.0 / (span_s * span_s);
    for (std::size_t q = 0; q < size; ++q) {
      const double mean = integral[q] * per_span;
      const double half = (moment[q] - 0.5 * span_s * integral[q]) * per_square;
      from_[q] = mean - half;
      to_[q] = mean + half;
      slope_[q] = 2.0 * half * per_span;
    }
  }

  /// Do lines over the first pieces stay near enough to each?
  bool fits(std::size_t count) {
    fit(count);
    const std::size_t size = size_;
    std::fill(worst_.begin(), worst_.end(), 0.0);
    for (std::size_t i = 0; i < count; ++i) {
      const double* start = starts_.data() + i * size;
      const double* end = ends_.data() + i * size;
      const auto [start_s, end_s] = edges_s_[i];
      for (std::size_t q = 0; q < size; ++q) {
        const double at_start = std::abs(start[q] - from_[q] - slope_[q] * start_s);
        const double at_end = std::abs(end[q] - from_[q] - slope_[q] * end_s);
        worst_[q] = std::max(worst_[q], std::max(at_start, at_end));
      }
    }
    for (std::size_t q = 0; q < size; ++q) {
      if (worst_[q] > tolerance_[q]) return false;
    }
    return true;
  }

  /// A surface under a load that takes in sun at some time of the day.
  struct Lit {
    std::size_t load, surface;
  };
  struct Edges {
    double start, end;
  };

  const GainDay& day_;
  std::vector<double> tolerance_;  ///< by quantity: those of the air, then what is lit
  std::vector<Lit> lit_;
  std::vector<std::array<std::size_t, oven::kSurfaces>> place_;  ///< of what is lit; else 0
  std::vector<double> starts_, ends_;                            ///< by piece and quantity
  std::vector<double> integrals_, moments_;                      ///< of the pieces up to each
  std::vector<Edges> edges_s_;                     ///< of the pieces, from the group's start
  std::vector<char> dark_;                         ///< by piece: nothing takes in sun
  std::vector<double> from_, to_, slope_, worst_;  ///< of the line last fitted
  std::size_t first_ = 0, count_ = 0;
  std::size_t size_ = 0;  ///< quantities that count in this group: in the dark those of the air
};
}  // namespace

void join_pieces(GainDay& day) {
  day.joined = {};
  day.joined.gains.resize(day.gains.size());
  Group group(day);
  for (std::size_t first = 0; first < day.air.size();) {
    first += group.join(first);
    day.joined.air.push_back(group.air());
    for (std::size_t l = 0; l < day.gains.size(); ++l)
      day.joined.gains[l].push_back(group.gains(l));
  }
}
}  // namespace ovendays::season
