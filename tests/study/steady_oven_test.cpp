// SPDX-License-Identifier: MIT
// The steady sun, and how vessels are put together, by closed forms.
#include "ovendays/study/steady_oven.h"

#include <cmath>

#include "catch.h"
#include "degrees.h"
#include "ovendays/base/constants.h"
#include "ovendays/study/rating.h"

using namespace ovendays;
using namespace ovendays::study;
using test::kDeg;

TEST_CASE("beam and diffuse add up to the given irradiance", "[study][identity]") {
  SteadySun sun;
  sun.irradiance_Wm2 = 900.0;
  sun.diffuse_share = 0.2;
  sun.sun_zenith_rad = 40.0 * kDeg;
  sun.glazing_tilt_rad = 25.0 * kDeg;
  const auto on_plane = [&](double tilt_rad) {  // isotropic sky, Liu and Jordan 1963
    const BeamAndDiffuse light = light_of(sun);
    const double level = light.beam_Wm2 * std::cos(sun.sun_zenith_rad) + light.diffuse_Wm2;
    return light.beam_Wm2 * std::cos(sun.sun_zenith_rad - tilt_rad) +
           light.diffuse_Wm2 * 0.5 * (1.0 + std::cos(tilt_rad)) +
           sun.albedo * level * 0.5 * (1.0 - std::cos(tilt_rad));
  };
  CHECK_THAT(on_plane(25.0 * kDeg), test::within_rel(900.0, 1e-13));  // rounding
  sun.plane = SteadySun::Plane::kNormalToBeam;
  CHECK_THAT(on_plane(40.0 * kDeg), test::within_rel(900.0, 1e-13));
  sun.plane = SteadySun::Plane::kHorizontal;
  CHECK_THAT(on_plane(0.0), test::within_rel(900.0, 1e-13));
  CHECK_THAT(light_of(sun).diffuse_Wm2, test::within_rel(180.0, 1e-13));  // a fifth of the global
}

TEST_CASE("the sky is as cold as Swinbank says", "[study][reference]") {
  // Swinbank 1963 as printed in textbooks: 277.06 K at 293.15 K, 286.83 K at 300 K.
  CHECK_THAT(swinbank_sky_K(293.15), test::within_abs(277.06, 0.05));  // printed digits
  CHECK_THAT(swinbank_sky_K(300.0), test::within_abs(286.83, 0.05));
}

TEST_CASE("the wind formulas that are published move a resting oven by a few kelvin",
          "[study][reference]") {
  // At 1 m/s: 5.8 W/m2K by Watmuff (HT-9, ours), 9.5 by McAdams (HT-10, from memory), 6 to 10
  // measured on walls (HT-11). Ours is asked for each by the wind that gives it: (h - 2.8) / 3.
  oven::OvenDesign design = oven::default_design();
  design.flaps.clear();
  const SteadyOven oven(design, nullptr, nullptr, Flaps::kSet, {}, base::kStandardPressure_Pa);
  const auto plate_K = [&](double coefficient_Wm2K) {
    SteadySun sun;
    sun.wind_ms = (coefficient_Wm2K - 2.8) / 3.0;
    const auto rest = oven.stagnate(sun);
    REQUIRE(rest.has_value());
    return (*rest)[heat::kNodeTray];
  };
  const double ours_K = plate_K(5.8);
  const double least_K = ours_K - plate_K(6.0);
  const double mcadams_K = ours_K - plate_K(9.5);
  const double most_K = ours_K - plate_K(10.0);
  INFO("plate " << ours_K - 273.15 << " degC, cooler by " << least_K << ", " << mcadams_K << ", "
                << most_K << " K");
  CHECK(least_K > 0.0);
  CHECK(mcadams_K > least_K);
  CHECK(most_K > mcadams_K);
  // An uncertainty of the model under one pane, no error: 7 of 82 K above the air.
  CHECK_THAT(most_K, test::within_abs(7.0, 1.5));
}

TEST_CASE("four flaps at 60 deg treble the intercept area", "[study][unit]") {
  // 18 in glass and flaps: w^2 (1 + 4 cos 60) = 3 w^2 facing the sun; laid in, w^2.
  const oven::OvenDesign design = oven::default_design();
  const double glass_m2 = 0.4572 * 0.4572;
  // The start points are even but finite: a few parts in a thousand.
  CHECK_THAT(intercept_area_m2(design, Flaps::kSet, 0.0), test::within_rel(3 * glass_m2, 0.003));
  CHECK_THAT(intercept_area_m2(design, Flaps::kLaidIn, 0.0), test::within_rel(glass_m2, 0.003));
  CHECK_THAT(intercept_area_m2(design, Flaps::kLaidIn, 60.0 * kDeg),
             test::within_rel(0.5 * glass_m2, 0.003));
}

TEST_CASE("energy is conserved in a trial with water", "[study][identity]") {
  const oven::OvenDesign design = oven::default_design();
  heat::FoodLoad water;
  water.mass_kg = water.water_kg = 2.0;
  water.specific_heat_JkgK = 4186.0;
  const SteadyOven oven(
      design, &design.vessels.front(), &water, Flaps::kSet, {}, base::kStandardPressure_Pa);
  SteadySun sun;
  sun.plane = SteadySun::Plane::kNormalToBeam;
  sun.glazing_tilt_rad = sun.sun_zenith_rad;
  const auto trial = oven.run(sun, heat::uniform_state(sun.ambient_K), 600.0, 24);
  CHECK(trial.at.size() == 25);
  // The plan's limit for every run: 0.1 % of what came in.
  CHECK(std::abs(trial.summary.audit.residual_J()) < 0.001 * trial.summary.audit.in_J);
  double absorbed_W = 0.0;
  for (const double gain_W : oven.gains_W(sun)) absorbed_W += gain_W;
  CHECK(trial.summary.audit.in_J > absorbed_W * 4.0 * 3600.0);  // the skin takes sun as well
}

TEST_CASE("an oven in the dark settles below air temperature", "[study][unit]") {
  const oven::OvenDesign design = oven::default_design();
  const SteadyOven oven(design, nullptr, nullptr, Flaps::kLaidIn, {}, base::kStandardPressure_Pa);
  SteadySun sun;
  sun.irradiance_Wm2 = 0.0;
  const auto rest = oven.stagnate(sun);
  REQUIRE(rest.has_value());
  // Between the sky it radiates to and the air around it.
  CHECK((*rest)[heat::kNodeTray] < sun.ambient_K);
  CHECK((*rest)[heat::kNodeTray] > swinbank_sky_K(sun.ambient_K));
  sun.sky_K = sun.ambient_K;
  const auto even = oven.stagnate(sun);
  REQUIRE(even.has_value());
  for (const int node : {heat::kNodeAir, heat::kNodePane, heat::kNodeTray, heat::kNodeWall2}) {
    // Nothing drives it: every node is where the air is, to rounding.
    CHECK_THAT((*even)[static_cast<std::size_t>(node)], test::within_abs(sun.ambient_K, 1e-6));
  }
}

TEST_CASE("pots stand beside each other as closely as circles pack", "[study][unit]") {
  oven::OvenDesign design = oven::default_design();
  oven::Vessel pot = design.vessels.front();
  const double side_m = design.tray->width_m;
  // Known packings of equal circles in a square: 2 / (2 + sqrt 2) for two, 1/2 for four.
  pot.diameter_m = side_m / (1.0 + 1.0 / std::sqrt(2.0)) * 0.9999;
  CHECK(most_vessels(design, pot) == 2);
  pot.diameter_m *= 1.001;
  CHECK(most_vessels(design, pot) == 1);
  pot.diameter_m = 0.5 * side_m;
  CHECK(most_vessels(design, pot) == 4);
  pot.diameter_m = 0.1 * side_m;
  CHECK(most_vessels(design, pot) == 100);
  oven::Vessel pan = design.vessels[1];
  pan.width_m = 0.5 * side_m;
  pan.depth_m = 0.33 * side_m;
  CHECK(most_vessels(design, pan) == 6);
}

TEST_CASE("vessels merged into one keep base area, mass and contact", "[study][identity]") {
  const oven::OvenDesign design = oven::default_design();
  const oven::Vessel& pot = design.vessels.front();
  CHECK(several_as_one(design, pot, 1).diameter_m == pot.diameter_m);
  const oven::Vessel two = several_as_one(design, pot, 2);
  CHECK_THAT(two.diameter_m * two.diameter_m,
             test::within_rel(2.0 * pot.diameter_m * pot.diameter_m, 1e-14));
  CHECK(two.mass_kg == 2.0 * pot.mass_kg);
  // On a long stand two pots side by side leave no room for one circle of their area.
  oven::OvenDesign wide = design;
  wide.tray->depth_m = 0.5 * wide.tray->width_m;
  oven::Vessel half = pot;
  half.diameter_m = wide.tray->depth_m;
  CHECK(most_vessels(wide, half) == 2);
  const oven::Vessel pair = several_as_one(wide, half, 2);
  CHECK(pair.kind == oven::VesselKind::kPan);
  CHECK_THAT(pair.width_m * pair.depth_m,
             test::within_rel(0.5 * base::kPi * half.diameter_m * half.diameter_m, 1e-14));
  CHECK(pair.width_m < wide.tray->width_m);
}
