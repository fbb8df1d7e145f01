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

/// Every public member does what the member of the same name of Scene says.
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
  struct Facet {  // a flat rectangle
    base::Point corner;
    base::Vec3 along_u, along_v;  // edges over their length squared, so that 0..1 is inside
    base::Direction normal;
    double offset = 0.0;  // normal . x on the plane
    double reflectance = 0.0;
  };
  struct Ball {  // encloses an obstruction
    base::Point centre;
    double radius = 0.0;
  };
  struct Solid {
    Ball ball;
    std::size_t first = 0, count = 0;  // its facets
  };
  struct Crown {
    Ball ball;
    base::Point centre;
    base::Vec3 inverse_half;  // one over the half axes
    std::array<double, 12> transmission{};
    double reflectance = 0.0;
  };
  struct Candidates {  // what a bundle of parallel rays may meet
    std::vector<const Solid*> solids;
    std::vector<const Crown*> crowns;
    [[nodiscard]] bool none() const { return solids.empty() && crowns.empty(); }
    template <class MayMeet>
    void keep(const Candidates& among, MayMeet may_meet) {
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
  struct Penumbra {  // what hides some points of a bundle, not all
    std::vector<const Facet*> facets;
    std::vector<const Crown*> crowns;
    [[nodiscard]] double through(const base::Point& point,
                                 const base::Direction& towards,
                                 int month) const;
  };
  enum class Cover { kNone, kSome, kAll };  // of a bundle of parallel rays from a ball
  struct Bundle;                            // rays from points in a ball towards one direction
  struct Tally;                             // what a patch shows
  struct Path;                              // what one ray goes through
  struct Builder;
  class Survey;  // a mask being made

  [[nodiscard]] bool below_horizon(const base::Direction& towards) const;
  static bool may_meet(const Ball& ball, const Ball& points, const base::Direction& towards);
  void gather(const Ball& points, const base::Direction& towards, Candidates& found) const;
  void gather_cone(const Ball& points, const sky::Patch& patch, Candidates& found) const;
  static Cover cover(const Facet& facet, const MouthGrid& grid, const base::Direction& towards);
  static Cover cover(const Crown& crown, const Ball& ball, const base::Direction& towards);
  Cover cover_by_solids(const MouthGrid& grid,
                        const base::Direction& towards,
                        Penumbra& some) const;
  Cover cover_by_crowns(const Ball& ball, const base::Direction& towards, Penumbra& some) const;
  [[nodiscard]] bool flat_horizon() const;
  static double past_crowns(std::span<const Crown* const> crowns,
                            const base::Point& point,
                            const base::Direction& towards,
                            int month);
  [[nodiscard]] double through(const Candidates& candidates,
                               const base::Point& point,
                               const base::Direction& towards,
                               int month) const;
  void follow(const Bundle& bundle, const base::Point& point, Path& path) const;
  void add_view(const Bundle& bundle, Path& path, std::span<Tally> by_month) const;
  /// A distance along a ray that meets nothing.
  static constexpr double kNoHit = std::numeric_limits<double>::infinity();
  static double facet_distance(const Facet& facet, const base::Point& p, const base::Direction& d);
  static double crown_distance(const Crown& crown, const base::Point& p, const base::Direction& d);

  Spot spot_;
  std::vector<Facet> facets_;
  std::vector<Solid> solids_;
  std::vector<Crown> crowns_;
  double highest_hill_sine_ = 0.0;  ///< sine of the far horizon's highest elevation
};
}  // namespace ovendays::spot
