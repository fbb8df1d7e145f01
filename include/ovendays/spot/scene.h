// SPDX-License-Identifier: MIT
// What of the sun and of each sky patch a spot sees. World axes x east, y north, z up; the ground
// is the plane z = 0. Solids are made of flat rectangles that block from both sides; crowns let a
// share through. A direction points from the oven towards what it sees.
#pragma once

#include <array>
#include <memory>
#include <span>
#include <vector>

#include "ovendays/sky/patches.h"
#include "ovendays/spot/spot.h"

namespace ovendays::spot {

/// Surfaces that block are lumped by the way they face, for the light they reflect.
enum class Facing { kNorth = 0, kEast = 1, kSouth = 2, kWest = 3, kDown = 4 };
inline constexpr int kFacings = 5;

/// What each sky and ground patch shows, averaged over the mouth's points, in one month. For every
/// patch, visible plus blocked plus what the blocking surfaces absorb is 1.
/// The ground counts as seen wherever nothing stands before it; how bright it is there is not the
/// mask's concern.
struct SpotMask {
  std::vector<sky::Patch> sky;      ///< upper half
  std::vector<double> sky_visible;  ///< share that is open sky, 0..1 (trees by transmission)
  /// Share covered by surfaces facing each way TIMES their reflectance. Hills of the far horizon
  /// count with a reflectance of 0.2 (common practice for ground), facing the spot.
  std::vector<std::array<double, kFacings>> sky_blocked;
  std::vector<sky::Patch> ground;
  std::vector<double> ground_visible;  ///< share of each ground patch that is ground
  std::vector<std::array<double, kFacings>> ground_blocked;
  std::vector<base::Direction> horizon;  ///< for the Perez horizon band
  std::vector<double> horizon_visible;   ///< 0..1, mean over the lowest 6 deg above each
  double sky_view_factor = 1.0;  ///< of a horizontal surface: sum of visible sin(e) dOmega / pi
};

/// Points over a rectangle, and what bounds them: each is the centre and at most so much of both
/// half sides, either way.
struct MouthGrid {
  std::vector<base::Point> points;
  base::Point centre;
  base::Vec3 half_across, half_up;
  double radius_m = 0.0;
};

class SceneParts;

/// The obstructions prepared for ray queries. Immutable; thread-safe.
class Scene {
 public:
  explicit Scene(const Spot& spot);

  /// Share of light [0..1] that arrives at `point` from `towards` in `month` (1..12): 0 behind a
  /// solid or the far horizon or from below, the product of crown transmissions behind trees.
  [[nodiscard]] double transmission(const base::Point& point,
                                    const base::Direction& towards,
                                    int month) const;

  /// The mean of transmission over points, which is the visible share of the sun's disc centre.
  /// What cannot matter is skipped: the result is the same to the last bit as the mean of
  /// transmission().
  [[nodiscard]] double visible_share(const MouthGrid& grid,
                                     const base::Direction& towards,
                                     int month) const;

  /// The mask of one month, with 3 x 3 directions of equal solid angle in each patch times all
  /// points; sky view factors come within 0.002 of closed forms. Months with equal tree
  /// transmission have equal masks.
  [[nodiscard]] SpotMask mask(std::span<const base::Point> points, int month) const;
  /// The masks of several months, every ray followed once. The same bits.
  [[nodiscard]] std::vector<SpotMask> masks(std::span<const base::Point> points,
                                            std::span<const int> months) const;

  /// True where month a and month b have the same mask.
  [[nodiscard]] bool same_mask(int month_a, int month_b) const;

  /// True where a solid covers the point from straight above (rain). Trees do not.
  [[nodiscard]] bool covered(const base::Point& point) const;

  /// Factor on wind speed by the surroundings' shelter [0.3..1]: 1 - 0.7 b, b the share of the
  /// band from 0 to 15 deg above the mouth that solids and crowns block (mean of the year; the far
  /// horizon does not count, hills being in the weather already). Judgement, no source: a full
  /// ring of 15 deg (a fence at four heights' distance) leaves three tenths.
  [[nodiscard]] double shelter_factor() const;

  [[nodiscard]] const Spot& spot() const;
  [[nodiscard]] bool open() const;  ///< nothing stands around, flat horizon

 private:
  std::shared_ptr<const SceneParts> parts_;  ///< shared by copies
};

/// A grid of n x n points over a rectangle of the mouth plane (flaps included), world axes: the
/// centres of n x n equal cells.
/// @param frame the mouth's frame, z outward; @param width_m along x; @param height_m along y
std::vector<base::Point> mouth_points(const base::Frame& frame,
                                      double width_m,
                                      double height_m,
                                      int n);
/// The same points with their bounds.
MouthGrid mouth_grid(const base::Frame& frame, double width_m, double height_m, int n);
}  // namespace ovendays::spot
