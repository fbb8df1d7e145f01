// SPDX-License-Identifier: MIT
// Ray queries. The arithmetic is in a fixed order, so that the short cuts of visible_share() and
// the full loop of transmission() agree to the last bit.
#include "ovendays/spot/scene.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "ovendays/base/check.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/target_clones.h"
#include "scene_builder.h"
#include "scene_parts.h"

namespace ovendays::spot {
namespace {
// A ray starts at this distance from its point, so that a surface does not hide points that lie on
// it.
constexpr double kRayStart_m = 1e-6;
}  // namespace

double SceneParts::facet_distance(const Facet& facet,
                                  const base::Point& p,
                                  const base::Direction& d) {
  const double approach = base::dot(facet.normal, d);
  if (approach == 0.0) return kNoHit;
  const double t = (facet.offset_m - base::dot(facet.normal, p)) / approach;
  // The condition is negated so that it holds for a NaN, which is the result for a ray within the
  // plane: such a ray misses.
  if (!(t > kRayStart_m && t < kNoHit)) return kNoHit;
  const base::Vec3 from_corner = p + t * d - facet.corner;
  const double u = base::dot(facet.along_u, from_corner);
  const double v = base::dot(facet.along_v, from_corner);
  if (u < 0.0 || u > 1.0 || v < 0.0 || v > 1.0) return kNoHit;
  return t;
}

// In coordinates that are divided by the half axes the crown is a unit sphere, and the ray meets it
// where a t^2 + 2 b t + c = 0.
double SceneParts::crown_distance(const Crown& crown,
                                  const base::Point& p,
                                  const base::Direction& d) {
  const auto scaled = [&crown](const base::Vec3& v) {
    return base::Vec3{
        v.x * crown.inverse_half.x, v.y * crown.inverse_half.y, v.z * crown.inverse_half.z};
  };
  const base::Vec3 from_centre = scaled(p - crown.centre);
  const base::Vec3 along = scaled(d);
  const double a = base::dot(along, along);
  const double b = base::dot(from_centre, along);
  const double c = base::dot(from_centre, from_centre) - 1.0;
  const double discriminant = b * b - a * c;
  if (discriminant <= 0.0) return kNoHit;
  const double root = std::sqrt(discriminant);
  if (-b + root <= 0.0) return kNoHit;  // the whole crown is behind the point
  const double entry = (-b - root) / a;
  return entry > 0.0 ? entry : 0.0;
}

bool SceneParts::below_horizon(const base::Direction& towards) const {
  if (towards.z < 0.0) return true;
  if (towards.z >= highest_hill_sine_) return false;
  return towards.z < std::sin(spot_.horizon.at(std::atan2(towards.x, towards.y)));
}

// A ray from a point of the ball `points` can meet `ball` only if the parallel ray from the centre
// passes the centre of `ball` at a distance of at most the sum of the radii.
bool SceneParts::may_meet(const Ball& ball, const Ball& points, const base::Direction& towards) {
  const base::Vec3 between = ball.centre - points.centre;
  const double reach = (ball.radius_m + points.radius_m) * kBallMargin;
  const double along = base::dot(between, towards);
  const double square = base::dot(between, between);
  if (along <= 0.0) return square <= reach * reach;
  // The left side is the difference of two numbers that may be nearly equal. The last term is an
  // upper bound of its rounding error.
  return square - along * along <= reach * reach + 1e-9 * square;
}

void SceneParts::gather(const Ball& points,
                        const base::Direction& towards,
                        Candidates& found) const {
  found.solids.clear();
  found.crowns.clear();
  for (const Solid& solid : solids_) {
    if (may_meet(solid.ball, points, towards)) found.solids.push_back(&solid);
  }
  for (const Crown& crown : crowns_) {
    if (may_meet(crown.ball, points, towards)) found.crowns.push_back(&crown);
  }
}

double SceneParts::crown_transmission(std::span<const Crown* const> crowns,
                                      const base::Point& point,
                                      const base::Direction& towards,
                                      int month) {
  double share = 1.0;
  for (const Crown* crown : crowns) {
    if (crown_distance(*crown, point, towards) < kNoHit) {
      share *= crown->transmission[static_cast<std::size_t>(month - 1)];
    }
  }
  return share;
}

double SceneParts::transmission(const Candidates& candidates,
                                const base::Point& point,
                                const base::Direction& towards,
                                int month) const {
  for (const Solid* solid : candidates.solids) {
    for (std::size_t i = solid->first; i < solid->first + solid->count; ++i) {
      if (facet_distance(facets_[i], point, towards) < kNoHit) return 0.0;
    }
  }
  return crown_transmission(candidates.crowns, point, towards, month);
}

double SceneParts::Penumbra::transmission(const base::Point& point,
                                          const base::Direction& towards,
                                          int month) const {
  for (const Facet* facet : facets) {
    if (facet_distance(*facet, point, towards) < kNoHit) return 0.0;
  }
  return crown_transmission(crowns, point, towards, month);
}

double SceneParts::transmission(const base::Point& point,
                                const base::Direction& towards,
                                int month) const {
  OVENDAYS_CHECK(month >= 1 && month <= 12);
  if (below_horizon(towards)) return 0.0;
  // Every obstruction is tested. Tests compare the faster functions with this one.
  for (const Facet& facet : facets_) {
    if (facet_distance(facet, point, towards) < kNoHit) return 0.0;
  }
  double share = 1.0;
  for (const Crown& crown : crowns_) {
    if (crown_distance(crown, point, towards) < kNoHit) {
      share *= crown.transmission[static_cast<std::size_t>(month - 1)];
    }
  }
  return share;
}

// The ray from the centre of the grid meets the plane of the facet at some place (u, v). For the
// other rays u, v and the distance differ from the values at the centre by at most a bound, which
// is linear in the half sides of the grid. These bounds decide for most facets whether all rays
// meet it or none. A margin, larger than the rounding errors, leaves doubtful cases undecided
// (kSome).
SceneParts::Cover SceneParts::cover(const Facet& facet,
                                    const MouthGrid& grid,
                                    const base::Direction& towards) {
  constexpr double kMargin = 1e-9;
  const double approach = base::dot(facet.normal, towards);
  if (std::abs(approach) < 1e-6) return Cover::kSome;  // rays nearly parallel to the facet
  // The largest difference between a linear function's value on the grid and that at its centre.
  const auto over_grid = [&grid](const base::Vec3& slope) {
    return std::abs(base::dot(slope, grid.half_across)) + std::abs(base::dot(slope, grid.half_up));
  };
  const double t = (facet.offset_m - base::dot(facet.normal, grid.centre)) / approach;
  const double t_reach =
      over_grid(facet.normal) / std::abs(approach) + kMargin * (1.0 + std::abs(t));
  if (t + t_reach < 0.0) return Cover::kNone;
  const base::Vec3 from_corner = grid.centre + t * towards - facet.corner;
  bool within = t - t_reach > kRayStart_m;
  for (const base::Vec3& along : {facet.along_u, facet.along_v}) {
    const double place = base::dot(along, from_corner);
    const base::Vec3 slope = along - (base::dot(along, towards) / approach) * facet.normal;
    const double reach = over_grid(slope) + kMargin * (1.0 + std::abs(place));
    if (place + reach < 0.0 || place - reach > 1.0) return Cover::kNone;
    within = within && place - reach > 0.0 && place + reach < 1.0;
  }
  return within ? Cover::kAll : Cover::kSome;
}

// As in crown_distance() the crown is made a unit sphere. The ball becomes an ellipsoid, whose
// largest half axis is the radius times the largest reciprocal half axis of the crown.
SceneParts::Cover SceneParts::cover(const Crown& crown,
                                    const Ball& ball,
                                    const base::Direction& towards) {
  constexpr double kMargin = 1e-9;
  const base::Vec3& scale = crown.inverse_half;
  const auto scaled = [&scale](const base::Vec3& v) {
    return base::Vec3{v.x * scale.x, v.y * scale.y, v.z * scale.z};
  };
  const base::Vec3 from_centre = scaled(ball.centre - crown.centre);
  const base::Vec3 along = scaled(towards);
  const double length = base::norm(along);
  // Distances from the ball's centre to the crown's centre, along the rays and across them.
  const double ahead = -base::dot(from_centre, along) / length;
  const double square = base::dot(from_centre, from_centre);
  const double aside = std::sqrt(std::max(0.0, square - ahead * ahead));
  // `aside` is the square root of a difference that cancels, so that it is only accurate to the
  // square root of the machine precision: hence 1e-7.
  const double reach = ball.radius_m * std::max({scale.x, scale.y, scale.z}) +
                       kMargin * (1.0 + square) + 1e-7 * std::sqrt(square);
  if (aside - reach > 1.0 || ahead + reach < -1.0) return Cover::kNone;
  return aside + reach < 1.0 && ahead - reach > 0.0 ? Cover::kAll : Cover::kSome;
}

SceneParts::Cover SceneParts::cover_by_solids(const MouthGrid& grid,
                                              const base::Direction& towards,
                                              Penumbra& some) const {
  const Ball ball{grid.centre, grid.radius_m};
  for (const Solid& solid : solids_) {
    if (!may_meet(solid.ball, ball, towards)) continue;
    for (std::size_t i = solid.first; i < solid.first + solid.count; ++i) {
      const Cover covers = cover(facets_[i], grid, towards);
      if (covers == Cover::kAll) return Cover::kAll;
      if (covers == Cover::kSome) some.facets.push_back(&facets_[i]);
    }
  }
  return some.facets.empty() ? Cover::kNone : Cover::kSome;
}

SceneParts::Cover SceneParts::cover_by_crowns(const Ball& ball,
                                              const base::Direction& towards,
                                              Penumbra& some) const {
  // A crown that covers all points is kept as well: its transmission multiplies every ray.
  bool partly = false;
  for (const Crown& crown : crowns_) {
    if (!may_meet(crown.ball, ball, towards)) continue;
    const Cover covers = cover(crown, ball, towards);
    if (covers == Cover::kNone) continue;
    partly = partly || covers == Cover::kSome;
    some.crowns.push_back(&crown);
  }
  if (some.crowns.empty()) return Cover::kNone;
  return partly ? Cover::kSome : Cover::kAll;
}

OVENDAYS_CLONES double SceneParts::visible_share(const MouthGrid& grid,
                                                 const base::Direction& towards,
                                                 int month) const {
  const std::vector<base::Point>& points = grid.points;
  OVENDAYS_CHECK(month >= 1 && month <= 12 && !points.empty());
  if (below_horizon(towards)) return 0.0;
  thread_local Penumbra some;  // kept between calls only to reuse its memory
  some.facets.clear();
  some.crowns.clear();
  const Cover solids = cover_by_solids(grid, towards, some);
  if (solids == Cover::kAll) return 0.0;
  const Cover crowns = cover_by_crowns({grid.centre, grid.radius_m}, towards, some);
  if (solids == Cover::kNone && crowns == Cover::kNone) return 1.0;
  double sum = 0.0;
  if (solids == Cover::kSome || crowns == Cover::kSome) {
    for (const base::Point& point : points) sum += some.transmission(point, towards, month);
  } else {
    // All points have the same share. It is still added up point by point, because the mean of
    // transmission() is, and n * share / n may differ from share in the last bit.
    double share = 1.0;
    for (const Crown* crown : some.crowns)
      share *= crown->transmission[static_cast<std::size_t>(month - 1)];
    for (std::size_t i = 0; i < points.size(); ++i) sum += share;
  }
  return sum / static_cast<double>(points.size());
}

bool SceneParts::same_mask(int month_a, int month_b) const {
  OVENDAYS_CHECK(month_a >= 1 && month_a <= 12 && month_b >= 1 && month_b <= 12);
  for (const Crown& crown : crowns_) {
    if (crown.transmission[static_cast<std::size_t>(month_a - 1)] !=
        crown.transmission[static_cast<std::size_t>(month_b - 1)]) {
      return false;
    }
  }
  return true;
}

bool SceneParts::covered(const base::Point& point) const {
  const base::Direction up{0.0, 0.0, 1.0};
  for (const Facet& facet : facets_) {
    if (facet_distance(facet, point, up) < kNoHit) return true;
  }
  return false;
}

double SceneParts::shelter_factor() const {
  constexpr int kAzimuths = 72;
  constexpr int kElevations = 6;
  constexpr double kBand_rad = 15.0 * base::kRadPerDeg;  // see Scene::shelter_factor()
  // Only crowns let another share through in another month.
  std::array<bool, 13> as_before{};
  for (int month = 2; month <= 12; ++month) {
    as_before[static_cast<std::size_t>(month)] = same_mask(month, month - 1);
  }
  double blocked = 0.0;
  Candidates candidates;
  for (int i = 0; i < kAzimuths * kElevations; ++i) {
    const int row = i / kAzimuths;
    const double azimuth = base::kTwoPi * (i % kAzimuths + 0.5) / kAzimuths;
    const double elevation = kBand_rad * (row + 0.5) / kElevations;
    const base::Direction towards = base::direction_from_sky(azimuth, elevation);
    gather({spot_.mouth, 0.0}, towards, candidates);
    double open_share = 0.0;
    double in_month = 0.0;
    for (int month = 1; month <= 12; ++month) {
      if (!as_before[static_cast<std::size_t>(month)]) {
        in_month = transmission(candidates, spot_.mouth, towards, month);
      }
      open_share += in_month / 12.0;
    }
    blocked += 1.0 - open_share;
  }
  return 1.0 - 0.7 * blocked / (kAzimuths * kElevations);
}

bool SceneParts::flat_horizon() const {
  bool flat = true;
  for (const double elevation_rad : spot_.horizon.elevation_rad) flat &= elevation_rad <= 0.0;
  return flat;
}

bool SceneParts::open() const { return facets_.empty() && crowns_.empty() && flat_horizon(); }

Scene::Scene(const Spot& spot) : parts_(std::make_shared<const SceneParts>(spot)) {}

double Scene::transmission(const base::Point& point,
                           const base::Direction& towards,
                           int month) const {
  return parts_->transmission(point, towards, month);
}

double Scene::visible_share(const MouthGrid& grid,
                            const base::Direction& towards,
                            int month) const {
  return parts_->visible_share(grid, towards, month);
}

SpotMask Scene::mask(std::span<const base::Point> points, int month) const {
  return std::move(masks(points, std::array{month}).front());
}

std::vector<SpotMask> Scene::masks(std::span<const base::Point> points,
                                   std::span<const int> months) const {
  return parts_->masks(points, months);
}

bool Scene::same_mask(int month_a, int month_b) const {
  return parts_->same_mask(month_a, month_b);
}

bool Scene::covered(const base::Point& point) const { return parts_->covered(point); }

double Scene::shelter_factor() const { return parts_->shelter_factor(); }

const Spot& Scene::spot() const { return parts_->spot(); }

bool Scene::open() const { return parts_->open(); }

std::vector<base::Point> mouth_points(const base::Frame& frame,
                                      double width_m,
                                      double height_m,
                                      int n) {
  OVENDAYS_CHECK(n >= 1);
  std::vector<base::Point> points;
  points.reserve(static_cast<std::size_t>(n) * static_cast<std::size_t>(n));
  for (int j = 0; j < n; ++j) {
    for (int i = 0; i < n; ++i) {
      const double x = ((i + 0.5) / n - 0.5) * width_m;
      const double y = ((j + 0.5) / n - 0.5) * height_m;
      points.push_back(frame.world_point_from_local({x, y, 0.0}));
    }
  }
  return points;
}

MouthGrid mouth_grid(const base::Frame& frame, double width_m, double height_m, int n) {
  // The outermost points are half a cell away from the edges of the rectangle.
  const double share = 0.5 * (1.0 - 1.0 / n);
  MouthGrid grid;
  grid.points = mouth_points(frame, width_m, height_m, n);
  grid.centre = frame.origin;
  grid.half_across = (share * width_m) * frame.x;
  grid.half_up = (share * height_m) * frame.y;
  grid.radius_m = share * std::hypot(width_m, height_m);
  return grid;
}
}  // namespace ovendays::spot
