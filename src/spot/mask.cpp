// SPDX-License-Identifier: MIT
// Masks: what is seen from the mouth in each patch of the sky and of the ground. Rays go from every
// point of the mouth into 3 x 3 directions of each patch; each ray counts the light that comes
// along it, from open sky or from an obstruction that reflects some.
#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "scene_builder.h"
#include "scene_parts.h"

namespace ovendays::spot {
namespace {
constexpr int kPerSide = 3;  // directions in a patch: this many in azimuth and in elevation
constexpr double kHillReflectance = 0.2;  // see SpotMask::sky_blocked
// A surface counts as an underside or a top if its normal is within 45 deg of the vertical.
constexpr double kSteep = 0.7071067811865476;  // sine of 45 deg

Facing facing_of_azimuth(double east, double north) {
  if (std::abs(north) >= std::abs(east)) return north >= 0.0 ? Facing::kNorth : Facing::kSouth;
  return east >= 0.0 ? Facing::kEast : Facing::kWest;
}

// The class of a surface whose normal points to the viewer, seen in the direction `towards`.
Facing facing_of(const base::Direction& normal, const base::Direction& towards) {
  if (normal.z < -kSteep) return Facing::kDown;
  // There is no class for tops, which are rarely seen from a mouth near the ground. A top counts as
  // a side that faces the viewer.
  if (normal.z > kSteep) return facing_of_azimuth(-towards.x, -towards.y);
  return facing_of_azimuth(normal.x, normal.y);
}

// Direction (i, j) of a patch. The steps are equal in azimuth and in the sine of the elevation, so
// that each direction represents the same solid angle.
base::Direction direction_in(const sky::Patch& patch, int i, int j) {
  const double half_sine = patch.solid_angle_sr / (4.0 * patch.half_width_rad);
  const double step = 2.0 / kPerSide;
  const double sine = patch.direction.z + half_sine * (step * (j + 0.5) - 1.0);
  const double azimuth = patch.azimuth_rad + patch.half_width_rad * (step * (i + 0.5) - 1.0);
  const double cosine = std::sqrt(std::max(0.0, 1.0 - sine * sine));
  return {cosine * std::sin(azimuth), cosine * std::cos(azimuth), sine};
}

base::Point centre_of(std::span<const base::Point> points) {
  base::Point centre;
  for (const base::Point& p : points) centre += p;
  return (1.0 / static_cast<double>(points.size())) * centre;
}
}  // namespace

struct SceneParts::Bundle {
  std::span<const base::Point> points;
  base::Direction towards;
  std::span<const int> months;
  const Candidates& candidates;
  bool hill;      // the direction is below the far horizon but not below the horizontal
  double weight;  // share of each ray in its patch
};

struct SceneParts::Tally {
  double visible = 0.0;
  std::array<double, kFacings> blocked{};

  void block(Facing facing, double share) { blocked[static_cast<std::size_t>(facing)] += share; }
};

// What a ray meets: the facet that ends it, or none if it reaches the sky, the far horizon or the
// ground, and the crowns before that end from near to far.
struct SceneParts::RayPath {
  const Facet* end = nullptr;
  double distance_m = kNoHit;
  std::vector<std::pair<double, const Crown*>> crowns;
};

void SceneParts::trace(const Bundle& bundle, const base::Point& p, RayPath& path) const {
  const base::Direction& d = bundle.towards;
  path.end = nullptr;
  path.distance_m = kNoHit;
  if (d.z < 0.0) path.distance_m = std::max(0.0, -p.z / d.z);  // where the ray meets the ground
  for (const Solid* solid : bundle.candidates.solids) {
    for (std::size_t i = solid->first; i < solid->first + solid->count; ++i) {
      const double distance = facet_distance(facets_[i], p, d);
      if (!(distance < path.distance_m)) continue;
      path.distance_m = distance;
      path.end = &facets_[i];
    }
  }
  path.crowns.clear();
  for (const Crown* crown : bundle.candidates.crowns) {
    const double distance = crown_distance(*crown, p, d);
    if (distance < path.distance_m) path.crowns.emplace_back(distance, crown);
  }
  // The sort is stable, so that crowns at equal distances stay in the order of the case.
  std::stable_sort(path.crowns.begin(), path.crowns.end(), [](const auto& a, const auto& b) {
    return a.first < b.first;
  });
}

// The months differ only in the transmission of crowns. Each ray is therefore traced once, and its
// share is divided among what it meets for every month.
void SceneParts::add_view(const Bundle& bundle, RayPath& path, std::span<Tally> by_month) const {
  const base::Direction& d = bundle.towards;
  for (const base::Point& p : bundle.points) {
    trace(bundle, p, path);
    const bool front = path.end != nullptr && base::dot(path.end->normal, d) < 0.0;
    for (std::size_t m = 0; m < by_month.size(); ++m) {
      Tally& tally = by_month[m];
      double share = bundle.weight;
      for (const auto& [distance, crown] : path.crowns) {
        const double pass = crown->transmission[static_cast<std::size_t>(bundle.months[m] - 1)];
        tally.block(facing_of(-d, d), share * (1.0 - pass) * crown->reflectance);
        share *= pass;
      }
      if (path.end != nullptr) {
        const base::Direction normal = front ? path.end->normal : -path.end->normal;
        tally.block(facing_of(normal, d), share * path.end->reflectance);
      } else if (bundle.hill) {
        tally.block(facing_of_azimuth(-d.x, -d.y), share * kHillReflectance);
      } else {
        tally.visible += share;
      }
    }
  }
}

// A cone around the patch discards most obstructions once for its nine directions, before
// may_meet() does so for each of them.
void SceneParts::gather_cone(const Ball& points, const sky::Patch& patch, Candidates& found) const {
  found.solids.clear();
  found.crowns.clear();
  // The angle between the middle of the patch and its corners is less than this sum.
  const double half_rad = patch.half_height_rad + patch.half_width_rad;
  const double sine = std::sin(half_rad);
  const double cosine = std::cos(half_rad);
  const auto may_meet_cone = [&](const Ball& ball) {
    const base::Vec3 between = ball.centre - points.centre;
    const double reach = (ball.radius_m + points.radius_m) * kBallMargin;
    const double square = base::dot(between, between);
    if (square <= reach * reach) return true;
    // Seen from the points, the ball fills a cone with the half angle asin(reach / distance). The
    // two cones overlap if the angle between their axes is at most the sum of their half angles;
    // this is the cosine of that condition times the distance, with a margin for rounding.
    const double along = std::sqrt(square - reach * reach);
    return base::dot(between, patch.direction) >=
           cosine * along - sine * reach - 1e-9 * std::sqrt(square);
  };
  for (const Solid& solid : solids_) {
    if (may_meet_cone(solid.ball)) found.solids.push_back(&solid);
  }
  for (const Crown& crown : crowns_) {
    if (may_meet_cone(crown.ball)) found.crowns.push_back(&crown);
  }
}

// Computes the masks of several months together.
class SceneParts::MaskBuilder {
 public:
  MaskBuilder(const SceneParts& scene,
              std::span<const base::Point> points,
              std::span<const int> months)
      : scene_(scene), points_(points), months_(months), masks_(months.size()) {
    ball_.centre = centre_of(points);
    for (const base::Point& p : points)
      ball_.radius_m = std::max(ball_.radius_m, base::norm(p - ball_.centre));
    tallies_.resize(months.size());
    constexpr std::size_t kDirections = std::size_t{kPerSide} * kPerSide;
    for (std::size_t i = 0; i < kDirections * points.size(); ++i)
      open_share_ += 1.0 / (kPerSide * kPerSide) / static_cast<double>(points.size());
  }

  std::vector<SpotMask> run() {
    const std::vector<sky::Patch> sky = sky::sky_patches();
    const std::vector<sky::Patch> ground = sky::ground_patches();
    const std::vector<base::Direction> horizon = sky::horizon_directions();
    sample_patches(sky, &SpotMask::sky_visible, &SpotMask::sky_blocked);
    sample_patches(ground, &SpotMask::ground_visible, &SpotMask::ground_blocked);
    for (const base::Direction& direction : horizon) sample_horizon_band(direction);
    for (SpotMask& mask : masks_) {
      mask.sky = sky;
      mask.ground = ground;
      mask.horizon = horizon;
      mask.sky_view_factor = 0.0;
      for (std::size_t i = 0; i < sky.size(); ++i) {
        mask.sky_view_factor +=
            mask.sky_visible[i] * sky[i].direction.z * sky[i].solid_angle_sr / base::kPi;
      }
    }
    return std::move(masks_);
  }

 private:
  void sample_patches(const std::vector<sky::Patch>& patches,
                      std::vector<double> SpotMask::*visible,
                      std::vector<std::array<double, kFacings>> SpotMask::*blocked) {
    for (SpotMask& mask : masks_) {
      (mask.*visible).reserve(patches.size());
      (mask.*blocked).reserve(patches.size());
    }
    for (const sky::Patch& patch : patches) {
      sample_patch(patch);
      for (std::size_t m = 0; m < masks_.size(); ++m) {
        // A sum of weights may exceed 1 by rounding.
        (masks_[m].*visible).push_back(std::min(tallies_[m].visible, 1.0));
        (masks_[m].*blocked).push_back(tallies_[m].blocked);
      }
    }
  }

  void sample_patch(const sky::Patch& patch) {
    std::fill(tallies_.begin(), tallies_.end(), Tally{});
    scene_.gather_cone(ball_, patch, near_patch_);
    if (near_patch_.none() && flat_) {
      for (Tally& tally : tallies_) tally.visible = open_share_;
      return;
    }
    for (int k = 0; k < kPerSide * kPerSide; ++k) {
      const base::Direction towards = direction_in(patch, k % kPerSide, k / kPerSide);
      candidates_.select(near_patch_, [&](const Ball& b) { return may_meet(b, ball_, towards); });
      sample_direction(towards, 1.0 / (kPerSide * kPerSide));
    }
  }

  // The Perez horizon band is thin. It is sampled in the lowest 6 deg, in the middles of three
  // strips of 2 deg.
  void sample_horizon_band(const base::Direction& direction) {
    const double azimuth = std::atan2(direction.x, direction.y);
    std::fill(tallies_.begin(), tallies_.end(), Tally{});
    for (const double elevation_deg : {1.0, 3.0, 5.0}) {
      const base::Direction towards =
          base::direction_from_sky(azimuth, elevation_deg * base::kRadPerDeg);
      scene_.gather(ball_, towards, candidates_);
      sample_direction(towards, 1.0 / 3.0);
    }
    for (std::size_t m = 0; m < masks_.size(); ++m)
      masks_[m].horizon_visible.push_back(std::min(tallies_[m].visible, 1.0));
  }

  void sample_direction(const base::Direction& towards, double weight) {
    const bool hill = towards.z >= 0.0 && scene_.below_horizon(towards);
    const double each = weight / static_cast<double>(points_.size());
    scene_.add_view({points_, towards, months_, candidates_, hill, each}, path_, tallies_);
  }

  const SceneParts& scene_;
  std::span<const base::Point> points_;
  std::span<const int> months_;
  Ball ball_;
  bool flat_ = scene_.flat_horizon();
  /// The visible share of an open patch. It is added up ray by ray as for other patches, so that an
  /// obstruction that turns out to be out of view does not change the last bit.
  double open_share_ = 0.0;
  Candidates near_patch_, candidates_;
  RayPath path_;
  std::vector<Tally> tallies_;  ///< by month, as are the masks
  std::vector<SpotMask> masks_;
};

std::vector<SpotMask> SceneParts::masks(std::span<const base::Point> points,
                                        std::span<const int> months) const {
  OVENDAYS_CHECK(!points.empty());
  for (const int month : months) OVENDAYS_CHECK(month >= 1 && month <= 12);
  return MaskBuilder(*this, points, months).run();
}
}  // namespace ovendays::spot
