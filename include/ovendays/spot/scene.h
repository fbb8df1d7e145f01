// SPDX-License-Identifier: MIT
// What of the sun and of each sky patch a spot sees.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "ovendays/sky/patches.h"
#include "ovendays/spot/spot.h"

namespace ovendays::spot {

/// Surfaces that block are lumped by the way they face, for the light they reflect.
enum class Facing { kNorth = 0, kEast = 1, kSouth = 2, kWest = 3, kDown = 4 };
inline constexpr int kFacings = 5;

/// What each sky and ground patch shows, averaged over the mouth's points, in one month.
struct SpotMask {
  std::vector<sky::Patch> sky;  ///< upper half
  std::vector<double>
      sky_visible;  ///< share of each patch that is open sky, 0..1 (trees by transmission)
  std::vector<std::array<double, kFacings>>
      sky_blocked;  ///< share covered by surfaces facing each way TIMES their reflectance
  std::vector<sky::Patch> ground;
  std::vector<double> ground_visible;  ///< share of each ground patch that is ground
  std::vector<std::array<double, kFacings>> ground_blocked;
  std::vector<base::Direction> horizon;  ///< for the Perez horizon band
  std::vector<double> horizon_visible;   ///< 0..1
  double sky_view_factor = 1.0;  ///< of a horizontal surface: sum of visible sin(e) dOmega / pi
};

/// The obstructions prepared for ray queries. Immutable; thread-safe.
class Scene {
 public:
  explicit Scene(const Spot& spot);

  /// Share of light [0..1] that arrives at `point` from `towards` in `month` (1..12): 0 behind a
  /// solid or the far horizon, the product of crown transmissions behind trees.
  [[nodiscard]] double transmission(const base::Point& point,
                                    const base::Direction& towards,
                                    int month) const;

  /// The mean of transmission over points, which is the visible share of the sun's disc centre.
  /// `bound` encloses the points: centre and radius, used to skip what cannot matter.
  [[nodiscard]] double visible_share(std::span<const base::Point> points,
                                     const base::Point& centre,
                                     double radius_m,
                                     const base::Direction& towards,
                                     int month) const;

  /// The mask of one month. Months with equal tree transmission have equal masks.
  [[nodiscard]] SpotMask mask(std::span<const base::Point> points, int month) const;

  /// True where month a and month b have the same mask.
  [[nodiscard]] bool same_mask(int month_a, int month_b) const;

  /// True where a solid covers the point from straight above (rain).
  [[nodiscard]] bool covered(const base::Point& point) const;

  /// Share of the mouth's surroundings that shelters from wind, as a factor on wind speed 0..1.
  [[nodiscard]] double shelter_factor() const;

  [[nodiscard]] const Spot& spot() const { return spot_; }
  [[nodiscard]] bool open() const;  ///< nothing stands around, flat horizon

 private:
  struct Facet {  // a flat convex polygon of up to 4 corners
    base::Point corner[4];
    int corners = 4;
    base::Direction normal;
    double offset = 0;
    double reflectance = 0;
    Facing facing = Facing::kSouth;
  };
  struct Crown {
    base::Point centre;
    base::Vec3 half;  // half axes
    std::array<double, 12> transmission{};
    double reflectance = 0;
  };
  Spot spot_;
  std::vector<Facet> facets_;
  std::vector<Crown> crowns_;
  // Helpers are free to reshape the private part (bounding volumes, trunks).
};

/// A grid of n x n points over a rectangle of the mouth plane (flaps included), world axes.
/// @param frame the mouth's frame, z outward; @param width_m along x; @param height_m along y
std::vector<base::Point> mouth_points(const base::Frame& frame,
                                      double width_m,
                                      double height_m,
                                      int n);
}  // namespace ovendays::spot
