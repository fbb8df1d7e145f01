// SPDX-License-Identifier: MIT
// How a Scene holds its obstructions, and the ray queries on them. The public header keeps only a
// pointer to this class, so that it can change without recompiling what uses a Scene.
#pragma once

#include <array>
#include <cstddef>
#include <limits>
#include <span>
#include <vector>

#include "ovendays/spot/scene.h"

namespace ovendays::spot {

/// The implementation of Scene. Each public member function is documented there under the same
/// name.
///
/// Two speeds of query exist side by side. The plain ones, such as transmission(), test every
/// obstruction. The fast ones first discard, by bounding balls and by exact bounds, the
/// obstructions that no ray of a bundle can meet. A discarded obstruction would have contributed a
/// factor of exactly one, and the rest are processed in the same order, so the two agree to the
/// last bit.
class SceneParts {
 public:
  explicit SceneParts(const Spot& spot);
  [[nodiscard]] double transmission(const base::Point& point,
                                    const base::Direction& towards,
                                    int month) const;
  [[nodiscard]] double visible_share(const MouthGrid& grid,
                                     const base::Direction& towards,
                                     int month) const;
  [[nodiscard]] std::vector<SpotMask> masks(std::span<const base::Point> points,
                                            std::span<const int> months) const;
  [[nodiscard]] bool same_mask(int month_a, int month_b) const;
  [[nodiscard]] bool covered(const base::Point& point) const;
  [[nodiscard]] double shelter_factor() const;
  [[nodiscard]] const Spot& spot() const { return spot_; }
  [[nodiscard]] bool open() const;

 private:
  /// A flat rectangle that blocks light from both sides.
  struct Facet {
    base::Point corner;
    /// The two edges, each divided by its squared length: the scalar product with a vector from the
    /// corner is 0 at this corner and 1 at the other end of the edge.
    base::Vec3 along_u, along_v;
    base::Direction normal;
    double offset_m = 0.0;  ///< scalar product of the normal and any point of the plane
    double reflectance = 0.0;
  };
  /// A ball around an obstruction or around the points from which rays start.
  struct Ball {
    base::Point centre;
    double radius_m = 0.0;
  };
  /// An opaque obstruction. Its facets stand next to each other in facets_.
  struct Solid {
    Ball ball;
    std::size_t first = 0, count = 0;
  };
  /// The crown of a tree: an ellipsoid with a vertical axis.
  struct Crown {
    Ball ball;
    base::Point centre;
    base::Vec3 inverse_half;                ///< reciprocals of the half axes [1/m]
    std::array<double, 12> transmission{};  ///< by month
    double reflectance = 0.0;
  };
  /// The obstructions that at least one ray of a bundle may meet, in the order of the case.
  struct Candidates {
    std::vector<const Solid*> solids;
    std::vector<const Crown*> crowns;
    [[nodiscard]] bool none() const { return solids.empty() && crowns.empty(); }
    /// Becomes the subset of `among` whose balls satisfy `may_meet`.
    template <class MayMeet>
    void select(const Candidates& among, MayMeet may_meet) {
      solids.clear();
      crowns.clear();
      for (const Solid* solid : among.solids) {
        if (may_meet(solid->ball)) solids.push_back(solid);
      }
      for (const Crown* crown : among.crowns) {
        if (may_meet(crown->ball)) crowns.push_back(crown);
      }
    }
  };
  /// The obstructions that hide some points of the mouth but not all of them. Only these have to be
  /// tested point by point.
  struct Penumbra {
    std::vector<const Facet*> facets;
    std::vector<const Crown*> crowns;
    [[nodiscard]] double transmission(const base::Point& point,
                                      const base::Direction& towards,
                                      int month) const;
  };
  /// How many rays of a parallel bundle an obstruction stops. kSome also means "not decided".
  enum class Cover { kNone, kSome, kAll };
  struct Bundle;      ///< parallel rays from all points of the mouth
  struct Tally;       ///< what has been seen in a patch so far
  struct RayPath;     ///< what one ray meets
  struct Builder;     ///< fills a scene from the obstructions of a spot
  class MaskBuilder;  ///< computes masks

  [[nodiscard]] bool below_horizon(const base::Direction& towards) const;
  /// False only if no ray towards `towards` from any point of the ball `points` can meet `ball`.
  static bool may_meet(const Ball& ball, const Ball& points, const base::Direction& towards);
  void gather(const Ball& points, const base::Direction& towards, Candidates& found) const;
  /// The same for all directions into a patch.
  void gather_cone(const Ball& points, const sky::Patch& patch, Candidates& found) const;
  static Cover cover(const Facet& facet, const MouthGrid& grid, const base::Direction& towards);
  static Cover cover(const Crown& crown, const Ball& ball, const base::Direction& towards);
  Cover cover_by_solids(const MouthGrid& grid,
                        const base::Direction& towards,
                        Penumbra& some) const;
  Cover cover_by_crowns(const Ball& ball, const base::Direction& towards, Penumbra& some) const;
  [[nodiscard]] bool flat_horizon() const;
  static double crown_transmission(std::span<const Crown* const> crowns,
                                   const base::Point& point,
                                   const base::Direction& towards,
                                   int month);
  [[nodiscard]] double transmission(const Candidates& candidates,
                                    const base::Point& point,
                                    const base::Direction& towards,
                                    int month) const;
  void trace(const Bundle& bundle, const base::Point& point, RayPath& path) const;
  void add_view(const Bundle& bundle, RayPath& path, std::span<Tally> by_month) const;
  /// The distance that the two functions below return for a miss.
  static constexpr double kNoHit = std::numeric_limits<double>::infinity();
  /// Distance along the ray from `p` towards `d` to the obstruction [m], 0 inside a crown.
  static double facet_distance(const Facet& facet, const base::Point& p, const base::Direction& d);
  static double crown_distance(const Crown& crown, const base::Point& p, const base::Direction& d);

  Spot spot_;
  std::vector<Facet> facets_;
  std::vector<Solid> solids_;
  std::vector<Crown> crowns_;
  /// Sine of the far horizon's highest elevation: most directions are above it, and the horizon
  /// need not be interpolated for them.
  double highest_hill_sine_ = 0.0;
};
}  // namespace ovendays::spot
