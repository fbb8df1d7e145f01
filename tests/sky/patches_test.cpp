// SPDX-License-Identifier: MIT
// The patches of the sphere: exact sums, symmetry, and integrals over the sky.
#include <algorithm>
#include <cmath>

#include "catch.h"
#include "ovendays/base/constants.h"
#include "ovendays/sky/patches.h"
#include "ovendays/sky/sky_model.h"

using namespace ovendays;
using base::kPi;
using base::kRadPerDeg;
using test::within_abs;
using test::within_rel;

TEST_CASE("patches fill the hemisphere exactly", "[sky][identity]") {
  for (int rings : {1, 2, 8, 9, 18, 30}) {
    INFO("rings " << rings);
    double solid_sr = 0.0;
    double projected_sr = 0.0;
    base::Vec3 mean;
    for (const sky::Patch& p : sky::sky_patches(rings)) {
      solid_sr += p.solid_angle_sr;
      projected_sr += p.solid_angle_sr * p.direction.z;
      mean += p.solid_angle_sr * p.direction;
      CHECK_THAT(base::norm(p.direction), within_abs(1.0, 1e-14));
    }
    CHECK_THAT(solid_sr, within_rel(2.0 * kPi, 1e-12));  // rounding only
    CHECK_THAT(projected_sr, within_rel(kPi, 1e-12));
    CHECK_THAT(std::hypot(mean.x, mean.y), within_abs(0.0, 1e-12));
  }
  CHECK(sky::sky_patches(18).size() == 936);
  CHECK(sky::sky_patches(8).size() >= 145);  // the least number that the program requires
}

TEST_CASE("the patches of a ring have equal widths and do not overlap", "[sky][unit]") {
  double edge_rad = 0.0;
  double low_rad = -1.0;
  for (const sky::Patch& p : sky::sky_patches(18)) {
    const double ring_low_rad =
        std::floor(p.elevation_rad / (2.0 * p.half_height_rad)) * 2.0 * p.half_height_rad;
    if (ring_low_rad > low_rad + 1e-9) {
      low_rad = ring_low_rad;
      edge_rad = 0.0;
    }
    CHECK_THAT(p.azimuth_rad - p.half_width_rad, within_abs(edge_rad, 1e-12));
    edge_rad = p.azimuth_rad + p.half_width_rad;
    CHECK_THAT(p.half_height_rad, within_abs(2.5 * kRadPerDeg, 1e-15));
    const double exact_sr =
        (std::sin(low_rad + 5.0 * kRadPerDeg) - std::sin(low_rad)) * 2.0 * p.half_width_rad;
    CHECK_THAT(p.solid_angle_sr, within_rel(exact_sr, 1e-9));
    // About as wide as high, except near the zenith: the number in a ring is a multiple of 36.
    const double width_rad = 2.0 * p.half_width_rad * std::cos(p.elevation_rad);
    if (p.elevation_rad < 60.0 * kRadPerDeg) {
      CHECK_THAT(width_rad, within_rel(5.0 * kRadPerDeg, 0.5));
    }
  }
}

TEST_CASE("turning the patches by a thirty-sixth of a circle permutes them", "[sky][identity]") {
  for (const int rings : {1, 8, 18}) {
    for (const int turns : {0, 1, 17, 35}) {
      const auto patches = sky::sky_patches(rings);
      const auto places = sky::turned_patches(patches, turns);
      REQUIRE(places.size() == patches.size());
      for (std::size_t i = 0; i < patches.size(); ++i) {
        INFO("rings " << rings << " turns " << turns << " patch " << i);
        const sky::Patch& back = patches[places[i]];
        const double azimuth = patches[i].azimuth_rad - turns * 2.0 * kPi / sky::kPatchTurns;
        CHECK_THAT(std::remainder(back.azimuth_rad - azimuth, 2.0 * kPi), within_abs(0.0, 1e-12));
        CHECK(back.elevation_rad == patches[i].elevation_rad);
      }
    }
  }
}

TEST_CASE("ground patches mirror the sky patches", "[sky][identity]") {
  const auto up = sky::sky_patches(9);
  const auto down = sky::ground_patches(9);
  REQUIRE(up.size() == down.size());
  for (std::size_t i = 0; i < up.size(); ++i) {
    CHECK(down[i].direction.z == -up[i].direction.z);
    CHECK(down[i].direction.x == up[i].direction.x);
    CHECK(down[i].elevation_rad == -up[i].elevation_rad);
    CHECK(down[i].solid_angle_sr == up[i].solid_angle_sr);
  }
}

namespace {
// Isotropic and horizon light on a plane [W/m2], summed over patches and directions.
double summed_Wm2(const sky::PerezParts& parts, const base::Direction& normal) {
  double isotropic_Wm2 = 0.0;
  for (const sky::Patch& p : sky::sky_patches()) {
    const double cosine = std::max(0.0, base::dot(normal, p.direction));
    isotropic_Wm2 += parts.isotropic_horizontal_Wm2 / kPi * p.solid_angle_sr * cosine;
  }
  const auto horizon = sky::horizon_directions();
  double cosines = 0.0;
  for (const base::Direction& d : horizon) cosines += std::max(0.0, base::dot(normal, d));
  return isotropic_Wm2 + parts.horizon_Wm2 * kPi * cosines / static_cast<double>(horizon.size());
}
}  // namespace

TEST_CASE("the sum over sky patches agrees with the closed form on an open plane",
          "[sky][identity]") {
  const base::Direction to_sun = base::direction_from_sky(2.2, 0.6);
  // An overcast, a mixed and a clear sky, with negative and positive horizon components.
  for (double dni_Wm2 : {0.0, 150.0, 800.0}) {
    const sky::PerezParts parts = sky::perez_parts({kPi / 2.0 - 0.6, dni_Wm2, 120.0, 1366.1});
    for (double tilt_deg : {0.0, 7.0, 20.0, 35.0, 52.0, 70.0, 90.0}) {
      for (double azimuth_deg : {0.0, 33.0, 180.0, 255.0}) {
        const base::Direction normal =
            base::direction_from_sky(azimuth_deg * kRadPerDeg, (90.0 - tilt_deg) * kRadPerDeg);
        const double cos_incidence = base::dot(normal, to_sun);
        const double closed_Wm2 =
            sky::perez_tilted_sky_Wm2(parts, tilt_deg * kRadPerDeg, cos_incidence);
        const double sum_Wm2 =
            summed_Wm2(parts, normal) + parts.circumsolar_normal_Wm2 * std::max(0.0, cos_incidence);
        INFO("dni " << dni_Wm2 << " tilt " << tilt_deg << " azimuth " << azimuth_deg);
        CHECK_THAT(sum_Wm2, within_rel(closed_Wm2, 0.005));  // the program requires 0.5 %
      }
    }
  }
}
