// SPDX-License-Identifier: MIT
#include "ovendays/spot/scene.h"

#include <cmath>

#include "catch.h"
#include "degrees.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/random.h"

namespace base = ovendays::base;
namespace spot = ovendays::spot;
using ovendays::test::kDeg;
using ovendays::test::within_abs;

namespace {
spot::Scene scene_of(std::vector<spot::Obstruction> obstructions) {
  spot::Spot s;
  s.obstructions = std::move(obstructions);
  return spot::Scene(s);
}

base::Direction sky(double azimuth_deg, double elevation_deg) {
  return base::direction_from_sky(azimuth_deg * kDeg, elevation_deg * kDeg);
}

spot::Spot random_spot(std::uint64_t key) {
  base::KeyedRandom random(key, 11U);
  const auto in = [&random](double low, double high) {
    return low + (high - low) * random.uniform();
  };
  spot::Spot s;
  for (int i = 0; i < 7; ++i) {
    const double x = in(-9, 9);
    const double y = in(-9, 9);
    switch (random.bits() % 5) {
      case 0:
        s.obstructions.emplace_back(spot::Overhang{"", x, y, in(1, 6), in(1, 6), in(0, 6)});
        break;
      case 1:
        s.obstructions.emplace_back(spot::Bay{"", x, y, in(0, 6), in(2, 5), in(2, 6)});
        break;
      case 2:
        s.obstructions.emplace_back(spot::Wall{"", x, y, x + in(-4, 4), y + 1, 0, in(1, 4)});
        break;
      case 3:
        s.obstructions.emplace_back(spot::Block{"", x, y, in(1, 5), in(1, 5), in(1, 9)});
        break;
      default: {
        spot::Tree tree{"", x, y, 1.5, in(3, 9), in(1, 5)};
        for (double& t : tree.transmission) t = in(0.1, 0.9);
        s.obstructions.emplace_back(tree);
      }
    }
  }
  if (key % 2 == 0) s.horizon = {{0.0, 2.0, 4.0}, {0.1, 0.3, 0.0}};
  return s;
}
}  // namespace

TEST_CASE("open ground sees the whole upper hemisphere and nothing below", "[spot][unit]") {
  const spot::Scene scene = scene_of({});
  REQUIRE(scene.open());
  REQUIRE(scene.transmission({0, 0, 1}, sky(123, 0), 1) == 1.0);
  REQUIRE(scene.transmission({0, 0, 1}, sky(123, 90), 1) == 1.0);
  REQUIRE(scene.transmission({0, 0, 1}, sky(123, -1), 1) == 0.0);
  REQUIRE_FALSE(scene.covered({0, 0, 1}));
  REQUIRE(scene.shelter_factor() == 1.0);
}

TEST_CASE("an overhang shades the sun down to its profile angle", "[spot][reference]") {
  // Duffie and Beckman, shading by overhangs: the shadow is determined by the profile angle,
  // tan(profile) = tan(elevation) / cos(azimuth from the facing). The slab's south edge is
  // 1.2 m south of the point and 1.5 m above it; the slab is 200 m wide and extends 50 m north.
  spot::Overhang slab{"", 0.0, 50.0 - 1.2, 200.0, 100.0};
  slab.underside_m = 2.4;
  slab.thickness_m = 1e-3;
  const spot::Scene scene = scene_of({slab});
  const base::Point point{0.0, 0.0, 0.9};
  int shaded = 0;
  for (int azimuth_deg = 105; azimuth_deg <= 255; azimuth_deg += 5) {
    for (int tenths = 15; tenths < 900; tenths += 10) {
      const double elevation = tenths / 10.0 * kDeg;
      const double profile = std::tan(elevation) / std::cos((azimuth_deg - 180.0) * kDeg);
      const double edge = 1.5 / 1.2;
      if (std::abs(profile - edge) < 2e-3) continue;  // within the thickness of the slab
      const bool dark = scene.transmission(point, sky(azimuth_deg, tenths / 10.0), 6) == 0.0;
      INFO(azimuth_deg << " " << tenths);
      REQUIRE(dark == (profile > edge));
      shaded += dark ? 1 : 0;
    }
  }
  REQUIRE(shaded > 500);
}

TEST_CASE("a shadow edge across the mouth gives a fraction", "[spot][identity]") {
  // A long wall 2 m south, 1 m above the mouth's level, sun in the south at 45 deg: the shadow ends
  // 1 m north of the wall, at y = -1. The southern half of a mouth 1 m square that is centred there
  // is in the shade; if its centre moves 0.3 m north, a fifth is.
  const spot::Scene scene = scene_of({spot::Wall{"", -50, -2, 50, -2, 0.0, 1.9}});
  const auto share = [&scene](double y_m) {
    base::Frame frame;
    frame.origin = {0.0, y_m, 0.9};
    return scene.visible_share(spot::mouth_grid(frame, 1.0, 1.0, 10), sky(180, 45), 6);
  };
  REQUIRE_THAT(share(-1.0), within_abs(0.5, 1e-12));
  REQUIRE_THAT(share(-0.7), within_abs(0.8, 1e-12));
  REQUIRE(share(-1.5) == 0.0);
  REQUIRE(share(-0.4) == 1.0);
}

TEST_CASE("skipping obstructions that cannot matter changes no bit", "[spot][identity]") {
  for (std::uint64_t key = 0; key < 40; ++key) {
    const spot::Scene scene{random_spot(key)};
    base::KeyedRandom random(key, 5U);
    base::Frame frame;
    frame.origin = {0.3, -0.2, 0.9};
    frame.y = base::normalized({0.0, 1.0, 0.5});
    frame.z = base::cross(frame.x, frame.y);
    const spot::MouthGrid grid = spot::mouth_grid(frame, 1.4, 1.1, 5);
    for (const auto& p : grid.points)
      REQUIRE(base::norm(p - grid.centre) <= grid.radius_m * (1.0 + 1e-12));
    for (int i = 0; i < 400; ++i) {
      const double z = random.uniform();
      const base::Direction d = base::direction_from_sky(6.3 * random.uniform(), std::asin(z));
      const int month = 1 + i % 12;
      double sum = 0.0;
      for (const auto& p : grid.points) sum += scene.transmission(p, d, month);
      REQUIRE(scene.visible_share(grid, d, month) == sum / 25.0);
    }
  }
}

TEST_CASE("a mask agrees with plain rays in every month", "[spot][identity]") {
  constexpr int kMonths[] = {1, 5, 7};
  for (std::uint64_t key = 0; key < 8; ++key) {
    const spot::Scene scene{random_spot(key)};
    base::Frame frame;
    frame.origin = {0.3, -0.2, 0.9};
    const auto points = spot::mouth_points(frame, 1.4, 1.1, 3);
    const auto masks = scene.masks(points, kMonths);
    for (std::size_t m = 0; m < masks.size(); ++m) {
      const spot::SpotMask alone = scene.mask(points, kMonths[m]);
      REQUIRE(masks[m].sky_visible == alone.sky_visible);
      REQUIRE(masks[m].sky_blocked == alone.sky_blocked);
      REQUIRE(masks[m].ground_visible == alone.ground_visible);
      REQUIRE(masks[m].ground_blocked == alone.ground_blocked);
      REQUIRE(masks[m].horizon_visible == alone.horizon_visible);
      // Nine directions of equal solid angle in a patch, each tested against every obstruction.
      for (std::size_t i = 0; i < alone.sky.size(); ++i) {
        const auto& patch = alone.sky[i];
        const double half_sine = patch.solid_angle_sr / (4.0 * patch.half_width_rad);
        double sum = 0.0;
        for (int k = 0; k < 9; ++k) {
          const int row = k / 3 - 1;
          const int column = k % 3 - 1;
          const double sine = patch.direction.z + half_sine * row * 2.0 / 3.0;
          const double azimuth = patch.azimuth_rad + patch.half_width_rad * column * 2.0 / 3.0;
          const base::Direction d = base::direction_from_sky(azimuth, std::asin(sine));
          for (const auto& p : points) sum += scene.transmission(p, d, kMonths[m]) / 81.0;
        }
        INFO("spot " << key << " patch " << i);
        REQUIRE_THAT(alone.sky_visible[i],
                     within_abs(sum, 0.013));  // one of the 81 rays may hit an edge
        if (alone.sky_blocked[i] == std::array<double, spot::kFacings>{})
          REQUIRE_THAT(sum, within_abs(1.0, 1e-12));
      }
    }
  }
}

TEST_CASE("the sky is visible from a bay through its opening only", "[spot][unit]") {
  // The opening is in the south, 3 m wide and 2 m high; the oven is 1 m inside, its mouth at 0.9 m.
  const spot::Scene scene = scene_of({spot::Bay{"", 0, -1, base::kPi, 3.0, 6.0, 2.0, 2.5}});
  const base::Point mouth{0, 0, 0.9};
  // The elevation of the lintel is atan(1.1 / 1) = 47.7 deg, the azimuth of the jambs is
  // atan(1.5 / 1) = 56.3 deg from south.
  REQUIRE(scene.transmission(mouth, sky(180, 47.6), 1) == 1.0);
  REQUIRE(scene.transmission(mouth, sky(180, 47.8), 1) == 0.0);
  REQUIRE(scene.transmission(mouth, sky(180 + 56.2, 10), 1) == 1.0);
  REQUIRE(scene.transmission(mouth, sky(180 + 56.4, 10), 1) == 0.0);
  REQUIRE(scene.transmission(mouth, sky(180 - 56.4, 10), 1) == 0.0);
  REQUIRE(scene.transmission(mouth, sky(0, 10), 1) == 0.0);
  REQUIRE(scene.transmission(mouth, sky(0, 90), 1) == 0.0);
  REQUIRE(scene.covered(mouth));
  REQUIRE_FALSE(scene.covered({0, -1.1, 0.9}));
}

TEST_CASE("left and right of a bay are as seen by a person looking out", "[spot][unit]") {
  spot::Bay bay{
      "", 0, -1, base::kPi, 3.0, 6.0, 2.0, 2.5};  // for a person who looks south, left is east
  bay.left_wall = false;
  const spot::Scene scene = scene_of({bay});
  REQUIRE(scene.transmission({0, 0, 0.9}, sky(90, 10), 1) == 1.0);
  REQUIRE(scene.transmission({0, 0, 0.9}, sky(270, 10), 1) == 0.0);
}

TEST_CASE("blocks and overhangs turn clockwise", "[spot][unit]") {
  // 8 m long along its own x axis and turned clockwise by 45 deg, so that it extends to the
  // south-east.
  const spot::Scene scene = scene_of({spot::Block{"", 0, 0, 8, 1, 3, 0, 45 * kDeg}});
  REQUIRE(scene.covered({2.5, -2.5, 1.0}));
  REQUIRE_FALSE(scene.covered({2.5, 2.5, 1.0}));
}

TEST_CASE("every crown in the path dims the light by its month's transmission", "[spot][unit]") {
  spot::Tree near{"", 0, -6, 2, 6, 4};
  near.transmission.fill(0.5);
  near.transmission[0] = 0.8;
  spot::Tree far = near;
  far.y_m = -12;
  far.crown_base_m = 5;
  far.crown_top_m = 9;
  const spot::Scene scene = scene_of({near, far});
  // Above both trunks, which end in the middle of the crowns (27.3 and 26.9 deg).
  REQUIRE_THAT(scene.transmission({0, 0, 0.9}, sky(180, 29), 7), within_abs(0.25, 1e-15));
  REQUIRE_THAT(scene.transmission({0, 0, 0.9}, sky(180, 29), 1), within_abs(0.64, 1e-12));
  REQUIRE(scene.transmission({0, 0, 0.9}, sky(180, 60), 7) == 1.0);
  REQUIRE(scene.transmission({0, 0, 0.9}, sky(0, 29), 7) == 1.0);
  REQUIRE(scene.transmission({0, 0, 0.9}, sky(180, 5), 7) == 0.0);  // the trunk
  REQUIRE_FALSE(scene.covered({0, -5, 0.9}));                       // rain falls through crowns
  REQUIRE_FALSE(scene.same_mask(1, 7));
  REQUIRE(scene.same_mask(2, 7));
}

TEST_CASE("a crown blocks the outline of its ellipsoid", "[spot][reference]") {
  // Tangent from the mouth to an ellipse with half axes 2 and 1.5 m that is centred 6 m away at the
  // same height: tan(e) = b / sqrt(d^2 - a^2) (analytic geometry).
  spot::Tree tree{"", 0, -6, 2.0, 5.0, 4.0, 0.0};
  const spot::Scene scene = scene_of({tree});
  const double edge_deg = std::atan(1.5 / std::sqrt(36.0 - 4.0)) / kDeg;
  REQUIRE(scene.transmission({0, 0, 3.5}, sky(180, edge_deg - 0.01), 1) == 0.0);
  REQUIRE(scene.transmission({0, 0, 3.5}, sky(180, edge_deg + 0.01), 1) == 1.0);
}

TEST_CASE("hills hide the sun below their height at its azimuth", "[spot][unit]") {
  spot::Spot s;
  s.horizon = {{0.0, base::kPi}, {10 * kDeg, 20 * kDeg}};
  const spot::Scene scene(s);
  REQUIRE_FALSE(scene.open());
  REQUIRE(scene.transmission({0, 0, 1}, sky(90, 14.9), 1) == 0.0);
  REQUIRE(scene.transmission({0, 0, 1}, sky(90, 15.1), 1) == 1.0);
  REQUIRE(scene.shelter_factor() == 1.0);
}

TEST_CASE("walls all around up to 15 degrees leave three tenths of the wind", "[spot][unit]") {
  // The factor is a judgement stated in the header. The walls are 4 m away on all four sides, and
  // so high that the elevation of their corners, 5.7 m away, is 15 deg too.
  const double top_m = 0.9 + 5.7 * std::tan(15.0 * kDeg);
  std::vector<spot::Obstruction> ring = {spot::Wall{"", -4, -4, 4, -4, 0, top_m},
                                         spot::Wall{"", 4, -4, 4, 4, 0, top_m},
                                         spot::Wall{"", 4, 4, -4, 4, 0, top_m},
                                         spot::Wall{"", -4, 4, -4, -4, 0, top_m}};
  REQUIRE_THAT(scene_of(ring).shelter_factor(), within_abs(0.3, 1e-12));
  ring.resize(2);
  REQUIRE_THAT(scene_of(ring).shelter_factor(), within_abs(0.65, 1e-12));
}

TEST_CASE("mouth points are cell centres of a tilted rectangle", "[spot][unit]") {
  base::Frame frame;
  frame.origin = {1, 2, 3};
  frame.y = {0, 0, 1};
  const auto points = spot::mouth_points(frame, 4.0, 2.0, 2);
  REQUIRE(points.size() == 4);
  REQUIRE(points[0].x == 0.0);
  REQUIRE(points[0].z == 2.5);
  REQUIRE(points[3].x == 2.0);
  REQUIRE(points[3].z == 3.5);
}
