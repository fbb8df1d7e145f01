// SPDX-License-Identifier: MIT
// What ground, obstructions and sky send to an oven, by closed forms.
#include "ovendays/gains/surroundings.h"

#include <cmath>

#include "catch.h"
#include "ovendays/base/constants.h"
#include "ovendays/gains/load_optics.h"
#include "ovendays/oven/design.h"

using namespace ovendays;
using test::within_abs;
using test::within_rel;

namespace {
constexpr double kZenith_rad = base::kPi / 3.0;  // cos = 1/2

gains::Light made_light() {
  gains::Light light;
  light.dni_Wm2 = 800.0;
  light.dhi_Wm2 = light.isotropic_horizontal_Wm2 = 100.0;
  light.ghi_Wm2 = 0.5 * light.dni_Wm2 + light.dhi_Wm2;
  return light;
}

gains::SurroundingLight made_surroundings(double visible, double sky_view) {
  const base::Direction south = base::direction_from_sky(base::kPi, 0.5 * base::kPi - kZenith_rad);
  return gains::surrounding_light(made_light(), south, kZenith_rad, visible, sky_view, 0.2);
}
}  // namespace

TEST_CASE("the ground sends back what reaches it", "[gains][identity]") {
  // albedo (beam cos z + diffuse), in the open and in the oven's shade under half a sky.
  CHECK_THAT(made_surroundings(1.0, 1.0).ground_Wm2, within_rel(0.2 * 500.0, 1e-14));
  CHECK_THAT(made_surroundings(0.0, 0.5).ground_Wm2, within_rel(0.2 * 50.0, 1e-14));
}

TEST_CASE("a wall that faces the sun is the brightest", "[gains][identity]") {
  const gains::SurroundingLight around = made_surroundings(1.0, 1.0);
  const double upright_Wm2 = 0.5 * 100.0 + 0.5 * 0.2 * 500.0;
  const auto facing = [&](spot::Facing f) {
    return around.facing_Wm2[static_cast<std::size_t>(f)];
  };
  CHECK_THAT(facing(spot::Facing::kSouth),
             within_rel(800.0 * std::sin(kZenith_rad) + upright_Wm2, 1e-14));
  CHECK_THAT(facing(spot::Facing::kNorth), within_rel(upright_Wm2, 1e-14));
  CHECK_THAT(facing(spot::Facing::kEast),
             within_rel(upright_Wm2, 1e-12));  // cos 90 deg by rounding
  CHECK_THAT(facing(spot::Facing::kWest), within_rel(upright_Wm2, 1e-12));
  CHECK(facing(spot::Facing::kDown) == around.ground_Wm2);
}

TEST_CASE("nothing shines in the dark", "[gains][unit]") {
  const gains::SurroundingLight around =
      gains::surrounding_light({}, {0.0, 0.0, -1.0}, 2.0, 1.0, 1.0, 0.2);
  CHECK(around.ground_Wm2 == 0.0);
  for (const double facing_Wm2 : around.facing_Wm2) CHECK(facing_Wm2 == 0.0);
  CHECK(gains::skin_gain_W({0.5, 2.0}, {}, around, 2.0, 1.0) == 0.0);
}

TEST_CASE("upright skin takes the mean of all azimuths", "[gains][identity]") {
  // Summed over faces of 1 deg all round: the mean of max(0, cos) is 1/pi to 1e-4.
  const gains::Skin skin{0.6, 1.5};
  const gains::SurroundingLight around = made_surroundings(1.0, 1.0);
  double beam_Wm2 = 0.0;
  for (int azimuth = 0; azimuth < 360; ++azimuth) {
    const double off_rad = base::kPi / 180.0 * (azimuth - 180.0);
    beam_Wm2 += 800.0 * std::sin(kZenith_rad) * std::max(0.0, std::cos(off_rad)) / 360.0;
  }
  const double expected_W = 0.6 * 1.5 * (beam_Wm2 + 0.5 * 100.0 + 0.5 * around.ground_Wm2);
  CHECK_THAT(gains::skin_gain_W(skin, made_light(), around, kZenith_rad, 1.0),
             within_rel(expected_W, 1e-4));
}

TEST_CASE("surroundings radiate as their parts", "[gains][identity]") {
  CHECK_THAT(gains::environment_K4(1.0, 260.0, 300.0), within_rel(std::pow(260.0, 4), 1e-14));
  CHECK_THAT(gains::environment_K4(0.25, 260.0, 300.0),
             within_rel(0.25 * std::pow(260.0, 4) + 0.75 * std::pow(300.0, 4), 1e-14));
  CHECK(gains::upright_sky_share(1.0) == 0.5);
}

TEST_CASE(
    "a tilted mouth in the open sees (1 + cos b)/2 of the sky and (1 - cos b)/2 of the ground",
    "[gains][identity]") {
  // Liu and Jordan 1963, as in Duffie and Beckman eq. 2.15.1. Patches of 12 deg give it to 0.01.
  const double tilt_rad = base::kPi / 4.0;
  optics::OpticsOptions quick;
  quick.rays = 64;
  quick.grid = 9;
  const gains::LoadOptics load = gains::make_load_optics(
      optics::build_tables(oven::default_design(), {nullptr}, false, quick).front(),
      std::span(&tilt_rad, 1),
      gains::open_mask());
  for (const double azimuth_rad : {0.0, 1.0, base::kPi}) {
    gains::DiffuseGain diffuse;
    load.open.at(0, azimuth_rad, diffuse);
    CHECK_THAT(diffuse.plane_isotropic, within_abs(0.5 * (1.0 + std::cos(tilt_rad)), 0.01));
    CHECK_THAT(diffuse.plane_ground, within_abs(0.5 * (1.0 - std::cos(tilt_rad)), 0.01));
    for (const double share : diffuse.plane_facing) CHECK(share == 0.0);
    const gains::SurroundingLight around = made_surroundings(1.0, 1.0);
    CHECK_THAT(gains::diffuse_on_mouth_Wm2(made_light(), around, diffuse),
               within_rel(100.0 * diffuse.plane_isotropic + 100.0 * diffuse.plane_ground, 1e-12));
  }
}
