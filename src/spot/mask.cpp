// SPDX-License-Identifier: MIT
// The mask: what each patch of the sphere shows from the mouth.
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
constexpr int kPerSide = 3;  // directions in a patch, each way
constexpr double kHillReflectance = 0.2;
constexpr double kSteep = 0.7071067811865476;  // sine of 45 deg

Facing facing_of_azimuth(double east, double north) {
  if (std::abs(north) >= std::abs(east)) return north >= 0.0 ? Facing::kNorth : Facing::kSouth;
  return east >= 0.0 ? Facing::kEast : Facing::kWest;
}

// `normal` points to the viewer, who looks along `towards`.
Facing facing_of(const base::Direction& normal, const base::Direction& towards) {
  if (normal.z < -kSteep) return Facing::kDown;
  // A top has no class of its own: it counts with the side that is turned to the viewer.
  if (normal.z > kSteep) return facing_of_azimuth(-towards.x, -towards.y);
  return facing_of_azimuth(normal.x, normal.y);
}

// Direction (i, j) of a patch: equal steps in azimuth and in the sine of elevation, so that all
// stand for the same solid angle.
base::Direction direction_in(const sky::Patch& patch, int i, int j) {
  const double half_sine = patch.solid_angle_sr / (4.0 * patch.half_width_rad);
  const double step = 2.0 / kPerSide;
  const double sine = patch.direction.z + half_sine * (step * (j + 0.5) - 1.0);
  const double azimuth = patch.azimuth_rad + patch.half_width_rad * (step * (i + 0.5) - 1.0);
  const double cosine = std::sqrt(std::max(0.0, 1.0 - sine * sine));
  return {cosine * std::sin(azimuth), cosine * std::cos(azimuth), sine};
}

struct PointsBall {
  base::Point centre;
  double radius = 0.0;
};

PointsBall ball_around(std::span<const base::Point> points) {
  PointsBall ball;
  for (const base::Point& p : points) ball.centre += p;
  ball.centre = (1.0 / static_cast<double>(points.size())) * ball.centre;
  for (const base::Point& p : points) {
    ball.radius = std::max(ball.radius, base::norm(p - ball.centre));
  }
  return ball;
}
}  // namespace

struct SceneParts::Bundle {
  std::span<const base::Point> points;
  base::Direction towards;
  std::span<const int> months;
  const Candidates& candidates;
  bool hill;      // the far horizon stands in this direction
  double weight;  // of each point
};

struct SceneParts::Tally {
  double visible = 0.0;
  std::array<double, kFacings> blocked{};

  void block(Facing facing, double share) { blocked[static_cast<std::size_t>(facing)] += share; }
};

// What one ray goes through before it ends.
struct SceneParts::Path {
  const Facet* end = nullptr;
  double distance = kNoHit;
  std::vector<std::pair<double, const Crown*>> crowns;  // near to far
};

void SceneParts::follow(const Bundle& bundle, const base::Point& p, Path& path) const {
  const base::Direction& d = bundle.towards;
  path.end = nullptr;
  path.distance = kNoHit;
  if (d.z < 0.0) path.distance = std::max(0.0, -p.z / d.z);  // the ground
  for (const Solid* solid : bundle.candidates.solids) {
    for (std::size_t i = solid->first; i < solid->first + solid->count; ++i) {
      const double distance = facet_distance(facets_[i], p, d);
      if (!(distance < path.distance)) continue;
      path.distance = distance;
      path.end = &facets_[i];
    }
  }
  path.crowns.clear();
  for (const Crown* crown : bundle.candidates.crowns) {
    const double distance = crown_distance(*crown, p, d);
    if (distance < path.distance) path.crowns.emplace_back(distance, crown);
  }
  // Crowns stand in the order of the case, which settles equal distances.
  std::stable_sort(path.crowns.begin(), path.crowns.end(), [](const auto& a, const auto& b) {
    return a.first < b.first;
  });
}

void SceneParts::add_view(const Bundle& bundle, Path& path, std::span<Tally> by_month) const {
  const base::Direction& d = bundle.towards;
  for (const base::Point& p : bundle.points) {
    follow(bundle, p, path);
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

// The narrow cone around a patch: what no ray into it may meet need not be asked for each.
void SceneParts::gather_cone(const Ball& points, const sky::Patch& patch, Candidates& found) const {
  found.solids.clear();
  found.crowns.clear();
  const double half_rad = patch.half_height_rad + patch.half_width_rad;  // at least
  const double sine = std::sin(half_rad);
  const double cosine = std::cos(half_rad);
  const auto may_meet_cone = [&](const Ball& ball) {
    const base::Vec3 between = ball.centre - points.centre;
    const double reach = (ball.radius + points.radius) * kBallMargin;
    const double square = base::dot(between, between);
    if (square <= reach * reach) return true;
    // The ball is seen under the half angle asin(reach / distance).
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

// Looks around from the mouth's points, for several months at once.
class SceneParts::Survey {
 public:
  Survey(const SceneParts& scene, std::span<const base::Point> points, std::span<const int> months)
      : scene_(scene), points_(points), months_(months), made_(months.size()) {
    const PointsBall around = ball_around(points);
    ball_ = {around.centre, around.radius};
    tallies_.resize(months.size());
    constexpr std::size_t kDirections = std::size_t{kPerSide} * kPerSide;
    for (std::size_t i = 0; i < kDirections * points.size(); ++i)
      open_share_ += 1.0 / (kPerSide * kPerSide) / static_cast<double>(points.size());
  }

  std::vector<SpotMask> run() {
    const std::vector<sky::Patch> sky = sky::sky_patches();
    const std::vector<sky::Patch> ground = sky::ground_patches();
    const std::vector<base::Direction> horizon = sky::horizon_directions();
    look_at_patches(sky, &SpotMask::sky_visible, &SpotMask::sky_blocked);
    look_at_patches(ground, &SpotMask::ground_visible, &SpotMask::ground_blocked);
    for (const base::Direction& direction : horizon) look_at_band(direction);
    for (SpotMask& mask : made_) {
      mask.sky = sky;
      mask.ground = ground;
      mask.horizon = horizon;
      mask.sky_view_factor = 0.0;
      for (std::size_t i = 0; i < sky.size(); ++i) {
        mask.sky_view_factor +=
            mask.sky_visible[i] * sky[i].direction.z * sky[i].solid_angle_sr / base::kPi;
      }
    }
    return std::move(made_);
  }

 private:
  void look_at_patches(const std::vector<sky::Patch>& patches,
                       std::vector<double> SpotMask::*visible,
                       std::vector<std::array<double, kFacings>> SpotMask::*blocked) {
    for (SpotMask& mask : made_) {
      (mask.*visible).reserve(patches.size());
      (mask.*blocked).reserve(patches.size());
    }
    for (const sky::Patch& patch : patches) {
      look_into(patch);
      for (std::size_t m = 0; m < made_.size(); ++m) {
        (made_[m].*visible).push_back(std::min(tallies_[m].visible, 1.0));
        (made_[m].*blocked).push_back(tallies_[m].blocked);
      }
    }
  }

  void look_into(const sky::Patch& patch) {
    std::fill(tallies_.begin(), tallies_.end(), Tally{});
    scene_.gather_cone(ball_, patch, near_patch_);
    if (near_patch_.none() && flat_) {
      for (Tally& tally : tallies_) tally.visible = open_share_;
      return;
    }
    for (int k = 0; k < kPerSide * kPerSide; ++k) {
      const base::Direction towards = direction_in(patch, k % kPerSide, k / kPerSide);
      candidates_.keep(near_patch_, [&](const Ball& b) { return may_meet(b, ball_, towards); });
      look(towards, 1.0 / (kPerSide * kPerSide));
    }
  }

  void look_at_band(const base::Direction& direction) {
    const double azimuth = std::atan2(direction.x, direction.y);
    std::fill(tallies_.begin(), tallies_.end(), Tally{});
    for (const double elevation_deg : {1.0, 3.0, 5.0}) {
      const base::Direction towards =
          base::direction_from_sky(azimuth, elevation_deg * base::kRadPerDeg);
      scene_.gather(ball_, towards, candidates_);
      look(towards, 1.0 / 3.0);
    }
    for (std::size_t m = 0; m < made_.size(); ++m)
      made_[m].horizon_visible.push_back(std::min(tallies_[m].visible, 1.0));
  }

  void look(const base::Direction& towards, double weight) {
    const bool hill = towards.z >= 0.0 && scene_.below_horizon(towards);
    const double each = weight / static_cast<double>(points_.size());
    scene_.add_view({points_, towards, months_, candidates_, hill, each}, path_, tallies_);
  }

  const SceneParts& scene_;
  std::span<const base::Point> points_;
  std::span<const int> months_;
  Ball ball_;
  bool flat_ = scene_.flat_horizon();
  double open_share_ = 0.0;  ///< what an open patch adds up to, added up as the others are
  Candidates near_patch_, candidates_;
  Path path_;
  std::vector<Tally> tallies_;  ///< by month
  std::vector<SpotMask> made_;
};

std::vector<SpotMask> SceneParts::masks(std::span<const base::Point> points,
                                        std::span<const int> months) const {
  OVENDAYS_CHECK(!points.empty());
  for (const int month : months) OVENDAYS_CHECK(month >= 1 && month <= 12);
  return Survey(*this, points, months).run();
}
}  // namespace ovendays::spot
