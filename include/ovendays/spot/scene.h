// SPDX-License-Identifier: MIT
// The obstructions of a spot prepared for ray queries: how much of the sun, of each sky patch and
// of the ground is visible from the oven. World axes x east, y north, z up; the ground is the plane
// z = 0. Solids consist of flat rectangles that block light from both sides; crowns of trees
// transmit a share. A direction points from the oven towards what is seen.
#pragma once

#include <array>
#include <memory>
#include <span>
#include <vector>

#include "ovendays/sky/patches.h"
#include "ovendays/spot/spot.h"

namespace ovendays::spot {

/// Obstructing surfaces are grouped into five classes by the direction they face, because the light
/// that falls on a surface, and hence the light that it reflects to the oven, depends on this
/// direction. kDown is the class of undersides.
enum class Facing { kNorth = 0, kEast = 1, kSouth = 2, kWest = 3, kDown = 4 };
inline constexpr int kFacings = 5;

/// How much of each sky and ground patch is visible in one month, and what is in front of the rest,
/// averaged over the points of the mouth. For each patch, the visible share, the blocked shares
/// (which contain the reflectance) and what the blocking surfaces absorb add up to 1. All lists of
/// shares are parallel to the list of patches before them. The mask does not contain how brightly
/// the ground is lit.
struct SpotMask {
  std::vector<sky::Patch> sky;      ///< patches above the horizontal
  std::vector<double> sky_visible;  ///< share of open sky 0..1, behind trees times transmission
  /// Share covered by the surfaces of each class TIMES their reflectance. Hills of the far horizon
  /// count as surfaces that face the spot with a reflectance of 0.2 (common practice for ground).
  std::vector<std::array<double, kFacings>> sky_blocked;
  std::vector<sky::Patch> ground;
  std::vector<double> ground_visible;  ///< share that is ground, with nothing in front of it
  std::vector<std::array<double, kFacings>> ground_blocked;
  std::vector<base::Direction> horizon;  ///< azimuths at which the Perez horizon band is sampled
  std::vector<double> horizon_visible;   ///< visible share 0..1 of the lowest 6 deg at each
  /// View factor from a horizontal surface to the visible sky [1]: the sum of
  /// sky_visible sin(elevation) solid_angle / pi.
  double sky_view_factor = 1.0;
};

/// Points over a rectangle and their bounds: each point is centre + a half_across + b half_up with
/// a and b from -1 to 1, and at most radius_m from the centre.
struct MouthGrid {
  std::vector<base::Point> points;
  base::Point centre;
  base::Vec3 half_across, half_up;
  double radius_m = 0.0;
};

class SceneParts;

/// The obstructions of a spot. Immutable and thread-safe; copies share their data.
class Scene {
 public:
  explicit Scene(const Spot& spot);

  /// Share of light [0..1] that arrives at `point` from `towards` in `month` (1..12). It is 0 if a
  /// solid or the far horizon is in front or the direction is below the horizontal, and behind
  /// trees the product of the transmissions of their crowns.
  [[nodiscard]] double transmission(const base::Point& point,
                                    const base::Direction& towards,
                                    int month) const;

  /// The share of the mouth [0..1] that the beam from `towards` reaches: the mean of transmission()
  /// over the points of the grid. Obstructions that cannot affect the result are skipped; it equals
  /// the mean to the last bit.
  [[nodiscard]] double visible_share(const MouthGrid& grid,
                                     const base::Direction& towards,
                                     int month) const;

  /// The mask of one month. Rays go from each point into 3 x 3 directions of equal solid angle in
  /// each patch; sky view factors then agree with closed forms within 0.002. Months in which the
  /// trees transmit equal shares have equal masks.
  [[nodiscard]] SpotMask mask(std::span<const base::Point> points, int month) const;
  /// The masks of several months. Each ray is traced only once; the result has the same bits as
  /// that of mask().
  [[nodiscard]] std::vector<SpotMask> masks(std::span<const base::Point> points,
                                            std::span<const int> months) const;

  /// True if month a and month b have the same mask.
  [[nodiscard]] bool same_mask(int month_a, int month_b) const;

  /// True if a solid is straight above the point and keeps rain off. Trees do not.
  [[nodiscard]] bool covered(const base::Point& point) const;

  /// Factor on the wind speed for the shelter by the surroundings [0.3..1]: 1 - 0.7 b, where b is
  /// the share of the band from 0 to 15 deg above the horizontal that solids and crowns block at
  /// the mouth (mean of the year). The far horizon does not count, because the measured wind
  /// already contains the effect of hills. Judgement, no source: a closed ring of 15 deg (a fence
  /// at a distance of four times its height) leaves three tenths of the wind.
  [[nodiscard]] double shelter_factor() const;

  [[nodiscard]] const Spot& spot() const;
  [[nodiscard]] bool open() const;  ///< true without any obstruction and with a flat horizon

 private:
  std::shared_ptr<const SceneParts> parts_;  ///< shared by copies
};

/// A grid of n x n points over a rectangle in the plane of the mouth, flaps included: the centres
/// of n x n equal cells, in world axes [m].
/// @param frame the frame of the mouth, z outward; @param width_m along x; @param height_m along y
std::vector<base::Point> mouth_points(const base::Frame& frame,
                                      double width_m,
                                      double height_m,
                                      int n);
/// The same points, with their bounds.
MouthGrid mouth_grid(const base::Frame& frame, double width_m, double height_m, int n);
}  // namespace ovendays::spot
