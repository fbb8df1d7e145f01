// SPDX-License-Identifier: MIT
#include "merge_segments.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "ovendays/base/constants.h"
#include "ovendays/base/target_clones.h"

namespace ovendays::season {
namespace {

constexpr double kGain_W = 0.4;
constexpr double kSkinGain_W = 1.0;
constexpr double kAir_K = 0.05;
constexpr double kAround_K4 = 3e7;  // 0.3 K at 290 K
constexpr double kWind_ms = 0.05;

/// The quantities of the surroundings, and how far a merged line may be from each.
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

/// Four quantities are processed at a time. Rows are filled up with zeros, which have an infinite
/// tolerance.
constexpr std::size_t kSide = 4;
using Four __attribute__((vector_size(kSide * sizeof(double)))) = double;
/// Four doubles of any alignment. A vector type with a smaller alignment of its own will not do,
/// because Clang drops that alignment where a function returns a reference to the type.
struct [[gnu::packed, gnu::may_alias]] Row {
  Four four;
};
constexpr std::size_t filled(std::size_t count) { return (count + kSide - 1) / kSide * kSide; }
constexpr std::size_t kAirRow = filled(kAirQuantities.size());

bool same_constants(const heat::AirSegment& a, const heat::AirSegment& b) {
  return a.end_s == b.start_s && a.glazing_tilt_rad == b.glazing_tilt_rad &&
         a.pane_wind_factor == b.pane_wind_factor && a.vapour_Pa == b.vapour_Pa &&
         a.lid_open == b.lid_open;
}

/// Consecutive segments that may be merged, and how many of them are. Arrays are ordered by
/// segment, then by quantity, so that all quantities can be processed side by side.
class Group {
 public:
  /// Starts a new day. The vectors of the last one are reused.
  void start(const Segments& day) {
    day_ = &day;
    place_.assign(day.gains.size(), {});
    find_lit();
    for (std::vector<double>* line : {&from_, &to_, &slope_}) line->resize(row_);
    lay_out();
    find_edges();
  }

  /// Merges as many segments from `first` on as the tolerances allow. @return how many
  std::size_t merge_from(std::size_t first) {
    first_ = first;
    size_ = dark_[first] != 0 ? kAirRow : row_;
    count_ = 0;
    while (may_take(first + count_)) take(first + count_);
    std::size_t good = 1;
    std::size_t too_many = count_ + 1;
    // Usually all of them fit. Otherwise the largest number that fits is found by bisection.
    for (std::size_t next = count_; next > good; next = good + (too_many - good) / 2) {
      (fits(next) ? good : too_many) = next;
    }
    count_ = good;
    fit(good);
    return good;
  }

  /// Air and surroundings of the merged segment.
  [[nodiscard]] heat::AirSegment air() const {
    heat::AirSegment air = day_->air[first_];
    air.end_s = day_->air[first_ + count_ - 1].end_s;
    for (std::size_t q = 0; q < kAirQuantities.size(); ++q) {
      air.start.*kAirQuantities[q].member = from_[q];
      air.end.*kAirQuantities[q].member = to_[q];
    }
    // A line that is fitted to a jump may fall below zero at one end.
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
  /// Finds the surfaces that absorb sun at some time of the day, and the segments in which none
  /// does, so that the fits can leave out the rest.
  void find_lit() {
    tolerance_.clear();
    lit_.clear();
    constexpr double kAny = std::numeric_limits<double>::infinity();
    for (const AirQuantity& air : kAirQuantities) tolerance_.push_back(air.tolerance);
    tolerance_.resize(kAirRow, kAny);
    dark_.assign(day_->air.size(), 1);
    for (std::size_t load = 0; load < day_->gains.size(); ++load) {
      std::array<double, oven::kSurfaces> most{};
      for (std::size_t segment = 0; segment < day_->gains[load].size(); ++segment) {
        const heat::GainSegment& gains = day_->gains[load][segment];
        double sum = 0.0;
        for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
          const double larger = std::max(gains.start_W[s], gains.end_W[s]);
          most[s] = std::max(most[s], larger);
          sum += larger;
        }
        if (sum > 0.0) dark_[segment] = 0;
      }
      for (std::size_t s = 0; s < oven::kSurfaces; ++s) {
        if (most[s] <= 0.0) continue;
        place_[load][s] = tolerance_.size();
        lit_.push_back({day_->gains[load].data(), s});
        tolerance_.push_back(kGain_W);
      }
    }
    row_ = filled(tolerance_.size());
    tolerance_.resize(row_, kAny);
  }

  /// Copies the quantities at both ends of every segment into rows.
  void lay_out() {
    const std::size_t segments = day_->air.size();
    starts_.assign(segments * row_, 0.0);
    ends_.assign(segments * row_, 0.0);
    for (std::size_t segment = 0; segment < segments; ++segment) {
      const heat::AirSegment& air = day_->air[segment];
      double* start = starts_.data() + segment * row_;
      double* end = ends_.data() + segment * row_;
      for (const AirQuantity& a : kAirQuantities) {
        *start++ = air.start.*a.member;
        *end++ = air.end.*a.member;
      }
      start += kAirRow - kAirQuantities.size();
      end += kAirRow - kAirQuantities.size();
      for (const Lit& lit : lit_) {
        const heat::GainSegment& gains = lit.gains[segment];
        *start++ = gains.start_W[lit.surface];
        *end++ = gains.end_W[lit.surface];
      }
    }
  }

  /// Finds out for each segment whether it may be in one group with its predecessor, and whether it
  /// begins exactly as that one ends.
  void find_edges() {
    const std::size_t segments = day_->air.size();
    follows_.assign(segments, 0);
    goes_on_.assign(segments, 0);
    for (std::size_t segment = 1; segment < segments; ++segment) {
      const double* before = ends_.data() + (segment - 1) * row_;
      const double* after = starts_.data() + segment * row_;
      auto differs = Four{} != Four{};
      auto jumps = differs;
      for (std::size_t q = 0; q < row_; q += kSide) {
        const Four jump = row(after + q).four - row(before + q).four;
        differs |= jump != 0.0;
        // A jump of twice the tolerance cannot be within it on both sides: it ends a group.
        const Four most = 2.0 * row(tolerance_.data() + q).four;
        jumps |= (jump > most) | (-jump > most);
      }
      goes_on_[segment] = any(differs) ? 0 : 1;
      const bool follows = same_constants(day_->air[segment - 1], day_->air[segment]) &&
                           dark_[segment] == dark_[segment - 1] && !any(jumps);
      follows_[segment] = follows ? 1 : 0;
    }
  }

  [[nodiscard]] bool may_take(std::size_t segment) const {
    if (count_ == 0) return true;
    return segment < day_->air.size() && follows_[segment] != 0 &&
           day_->air[segment].end_s - day_->air[first_].start_s <= base::kSecondsPerHour;
  }

  /// Extends the running integrals and first moments by a segment.
  void take(std::size_t segment) {
    if (integrals_.size() < (count_ + 1) * row_) {
      const std::size_t room = (2 * count_ + 8) * row_;
      integrals_.resize(room);
      moments_.resize(room);
    }
    const double* start = starts_.data() + segment * row_;
    const double* end = ends_.data() + segment * row_;
    const double start_s = from_start_s(day_->air[segment].start_s);
    const double end_s = from_start_s(day_->air[segment].end_s);
    const double half_width_s = 0.5 * (end_s - start_s);
    const double middle_s = 0.5 * (start_s + end_s);
    const double by_slope_s2 = half_width_s * half_width_s / 3.0;
    double* integrals = integrals_.data() + count_ * row_;
    double* moments = moments_.data() + count_ * row_;
    for (std::size_t q = 0; q < size_; q += kSide) {
      const Four from = row(start + q).four;
      const Four to = row(end + q).four;
      Four integral = half_width_s * (from + to);
      Four moment = integral * middle_s + by_slope_s2 * (to - from);
      if (count_ > 0) {
        integral += row(integrals - row_ + q).four;
        moment += row(moments - row_ + q).four;
      }
      row(integrals + q).four = integral;
      row(moments + q).four = moment;
    }
    ++count_;
  }

  [[nodiscard]] double from_start_s(double time_s) const {
    return time_s - day_->air[first_].start_s;
  }

  /// Fits lines to the first `count` segments of the group: those with the same integral and first
  /// moment.
  void fit(std::size_t count) {
    const std::size_t size = size_;
    if (count == 1) {
      std::copy_n(starts_.data() + first_ * row_, size, from_.begin());
      std::copy_n(ends_.data() + first_ * row_, size, to_.begin());
      return;
    }
    const double* integrals = integrals_.data() + (count - 1) * row_;
    const double* moments = moments_.data() + (count - 1) * row_;
    const double span_s = from_start_s(day_->air[first_ + count - 1].end_s);
    const double per_span = 1.0 / span_s;
    const double per_square = 6.0 / (span_s * span_s);
    for (std::size_t q = 0; q < size_; q += kSide) {
      const Four integral = row(integrals + q).four;
      const Four mean = integral * per_span;
      const Four half = (row(moments + q).four - 0.5 * span_s * integral) * per_square;
      row(from_.data() + q).four = mean - half;
      row(to_.data() + q).four = mean + half;
      row(slope_.data() + q).four = 2.0 * half * per_span;
    }
  }

  /// True where the fitted lines are within the tolerances at all ends of the first `count`
  /// segments.
  bool fits(std::size_t count) {
    fit(count);
    std::size_t q = 0;
    for (; q + 2 * kSide <= size_; q += 2 * kSide) {
      if (!near<2>(q, count)) return false;
    }
    return q == size_ || near<1>(q, count);
  }

  /// The same for kFours x 4 quantities from `q` on.
  template <std::size_t kFours>
  [[nodiscard]] bool near(std::size_t q, std::size_t count) const {
    Four from[kFours];
    Four slope[kFours];
    Four worst[kFours] = {};
    for (std::size_t k = 0; k < kFours; ++k) {
      from[k] = row(from_.data() + q + k * kSide).four;
      slope[k] = row(slope_.data() + q + k * kSide).four;
    }
    // Updates the largest distances between lines and quantities with those of one instant.
    const auto compare = [&](const double* values, double time_s) {
      for (std::size_t k = 0; k < kFours; ++k) {
        const Four off = row(values + k * kSide).four - from[k] - slope[k] * time_s;
        const Four size = off < 0.0 ? -off : off;
        worst[k] = worst[k] < size ? size : worst[k];
      }
    };
    for (std::size_t i = first_; i < first_ + count; ++i) {
      // Where nothing jumps, the start is the end of the previous segment, already seen.
      if (i == first_ || goes_on_[i] == 0)
        compare(starts_.data() + i * row_ + q, from_start_s(day_->air[i].start_s));
      compare(ends_.data() + i * row_ + q, from_start_s(day_->air[i].end_s));
    }
    for (std::size_t k = 0; k < kFours * kSide; ++k) {
      if (worst[k / kSide][k % kSide] > tolerance_[q + k]) return false;
    }
    return true;
  }

  template <class Mask>
  static bool any(const Mask& mask) {
    return (mask[0] | mask[1] | mask[2] | mask[3]) != 0;
  }
  static Row& row(double* at) { return *reinterpret_cast<Row*>(at); }
  static const Row& row(const double* at) { return *reinterpret_cast<const Row*>(at); }

  /// A surface under one load that absorbs sun at some time of the day.
  struct Lit {
    const heat::GainSegment* gains;
    std::size_t surface;
  };

  const Segments* day_ = nullptr;
  std::vector<double> tolerance_;  ///< by quantity: the air's, then the lit surfaces'
  std::vector<Lit> lit_;
  std::vector<std::array<std::size_t, oven::kSurfaces>>
      place_;                          ///< row index of each lit surface; else 0
  std::size_t row_ = 0;                ///< length of a row
  std::vector<double> starts_, ends_;  ///< rows of the day's segments
  std::vector<char> dark_;             ///< no surface absorbs sun
  std::vector<char> follows_, goes_on_;
  std::vector<double> integrals_, moments_;  ///< running, by segment of the group
  std::vector<double> from_, to_, slope_;    ///< of the lines last fitted
  std::size_t first_ = 0, count_ = 0;
  std::size_t size_ = 0;  ///< length of the row that counts: in the dark only the air's part
};
}  // namespace

OVENDAYS_CLONES void merge_segments(const Segments& fine, Segments& merged) {
  thread_local Group group;  // so that its vectors are reused
  group.start(fine);
  merged.air.clear();
  merged.gains.resize(fine.gains.size());
  for (auto& gains : merged.gains) gains.clear();
  for (std::size_t first = 0; first < fine.air.size();) {
    first += group.merge_from(first);
    merged.air.push_back(group.air());
    for (std::size_t l = 0; l < fine.gains.size(); ++l) {
      if (!fine.gains[l].empty()) merged.gains[l].push_back(group.gains(l));
    }
  }
}
}  // namespace ovendays::season
