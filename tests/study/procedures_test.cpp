// SPDX-License-Identifier: MIT
// Whether a rating follows the prescriptions of the test procedures. Ids such as SYS-6 are rows
// of tests/data/study/published.csv, where each has its source and status: most are bands.
#include <algorithm>
#include <string>
#include <vector>

#include "catch.h"
#include "default_rating.h"
#include "ovendays/base/air.h"
#include "ovendays/base/constants.h"
#include "ovendays/study/rating.h"
#include "ovendays/study/steady_oven.h"
#include "published.h"

using namespace ovendays;
using namespace ovendays::study;
using test::default_rating;
using test::published;
using test::within_published;

TEST_CASE("cooking power is tested as S580 prescribes", "[study][reference]") {
  const RatingConditions given;
  CHECK_THAT(given.power_load_kgm2, within_published("SYS-6", "load_kgm2"));
  CHECK_THAT(given.power_wind_ms, within_published("SYS-6", "wind_ms"));
  CHECK_THAT(given.power_day_s, within_published("SYS-6", "day_s"));
  CHECK(given.power_least_observations >= published("SYS-6", "observations").value);
  CHECK(kLeastR2 == published("SYS-6", "r2").value);
  REQUIRE(given.power_irradiance_Wm2.size() == given.power_ambient_K.size());
  CHECK(given.power_irradiance_Wm2.size() >= 3);  // three days
  for (std::size_t day = 0; day < given.power_ambient_K.size(); ++day) {
    CHECK_THAT(given.power_ambient_K[day], within_published("SYS-6", "ambient_K"));
    CHECK_THAT(given.power_irradiance_Wm2[day], within_published("SYS-6", "irradiance_Wm2"));
  }
}

TEST_CASE("a rating loads, records and regresses as S580 prescribes", "[study][reference]") {
  const Rating& rating = default_rating();
  REQUIRE(rating.power.has_value());
  const CookingPower& power = *rating.power;
  // Seven kilograms a square metre met: 1.75 kg on 0.25 m2.
  CHECK_THAT(power.load.wanted_kg, test::within_rel(7.0 * power.intercept_m2, 1e-12));
  // SYS-5: an entry at least every ten minutes, so no day of four hours has more than 24, and the
  // power of each is that of water warmed for 600 s.
  std::vector<double> difference_K;
  std::vector<double> standard_W;
  for (const PowerObservation& seen : power.observations) {
    difference_K.push_back(seen.difference_K);
    standard_W.push_back(seen.standard_power_W);
  }
  for (int day = 0; day <= power.observations.back().day; ++day) {
    const auto count = std::count_if(power.observations.begin(),
                                     power.observations.end(),
                                     [day](const PowerObservation& o) { return o.day == day; });
    CHECK(count >= 2);
    CHECK(count <= 24);
  }
  for (std::size_t i = 1; i < power.observations.size(); ++i) {
    const PowerObservation& a = power.observations[i - 1];
    const PowerObservation& b = power.observations[i];
    if (a.day != b.day) continue;
    // Mean water temperatures of neighbours lie apart by the mean of their two rises.
    const double rise_K = 0.5 * (a.power_W + b.power_W) * 600.0 /
                          (power.load.water_kg * base::kWaterSpecificHeat_JkgK);
    CHECK_THAT(b.difference_K - a.difference_K, test::within_abs(rise_K, 1e-6));
  }
  // SYS-3 and SYS-4: the line is that of all entries, and the figure its value at 50 K.
  const LineFit line = fit_line(difference_K, standard_W);
  CHECK_THAT(power.line.slope, test::within_rel(line.slope, 1e-12));
  CHECK_THAT(*power.p50_W, test::within_rel(line.at(50.0), 1e-12));
}

TEST_CASE("figures of merit are tested as IS 13429 prescribes", "[study][reference]") {
  const RatingConditions given;
  CHECK_THAT(given.figure_load_kgm2, within_published("SYS-10", "load_kgm2"));
  CHECK(given.figure_irradiance_Wm2 >= published("SYS-10", "irradiance_least_Wm2").value);
  CHECK_THAT(given.figure_water_from_K, within_published("SYS-10", "water_from_K"));
  CHECK_THAT(given.figure_water_to_K, within_published("SYS-10", "water_to_K"));
  CHECK_THAT(kLeastSecondFigure, within_published("SYS-10", "least_f2"));
  const Rating& rating = default_rating();
  REQUIRE(rating.second.has_value());
  CHECK_THAT(rating.second->load.wanted_kg, test::within_rel(8.0 * rating.aperture_m2, 1e-12));
}

TEST_CASE("with two panes the default oven is below what box types typically reach",
          "[study][reference]") {
  // SYS-11 (from memory, a band): 0.12 to 0.16. A recorded difference: ours has 0.111, with 2 in of
  // cardboard, a single tray and plain glass; factory boxes have fibre and a blackened inner box.
  oven::OvenDesign design = oven::default_design();
  design.as_built = oven::kAsDrawn;  // the procedure asks for clean glass
  design.panes.resize(2, design.panes.front());
  design.vessels.clear();  // F1 alone
  const Rating rating = rate_oven(design, {}, {});
  REQUIRE(rating.first.has_value());
  const test::Published typical = published("SYS-11", "typical_f1_Km2W");
  CHECK_THAT(rating.first->f1_Km2W, test::within_abs(0.111, 0.006));
  CHECK(rating.first->f1_Km2W < typical.value - typical.margin);
}

TEST_CASE("a quart of water in one to four hours is the power of each class",
          "[study][reference]") {
  // SYS-12: 25 to 85 degC. The printed powers are rounded to half a watt and more.
  for (const int hours : {1, 2, 3, 4}) {
    const double power_W = cooking_power_W(298.15, 358.15, 0.95, 3600.0 * hours);
    CHECK_THAT(power_W, within_published("SYS-12", "class_" + std::to_string(hours) + "_W"));
  }
}

TEST_CASE("an empty oven with flaps is as hot under a clear sky and in haze as users report",
          "[study][reference]") {
  // SYS-30 (practice, seen). No light is given: 900 W/m2 normal to the beam is a good clear day,
  // 550 W/m2 of which half is diffuse is haze; both are judgement, and so is the margin of 15 K.
  const oven::OvenDesign design = oven::default_design();
  const SteadyOven oven(design, nullptr, nullptr, Flaps::kSet, {}, base::kStandardPressure_Pa);
  SteadySun sun;
  sun.plane = SteadySun::Plane::kNormalToBeam;
  sun.sun_zenith_rad = sun.glazing_tilt_rad = 30.0 * base::kRadPerDeg;
  sun.ambient_K = 298.15;
  const auto air_degC = [&](double irradiance_Wm2, double diffuse_share) {
    sun.irradiance_Wm2 = irradiance_Wm2;
    sun.diffuse_share = diffuse_share;
    const auto rest = oven.stagnate(sun);
    REQUIRE(rest.has_value());
    return (*rest)[heat::kNodeAir] - base::kZeroCelsius_K;
  };
  CHECK_THAT(air_degC(550.0, 0.5), within_published("SYS-30", "haze_degC"));
  const double clear_degC = air_degC(900.0, 0.15);
  CHECK(clear_degC < published("SYS-30", "best_degC").value);
  // At rest after hours; users preheat for less and read less: 130 to 145 degC.
  const test::Published preheated = published("SYS-30", "clear_preheated_degC");
  CHECK(clear_degC > preheated.value - preheated.margin);
}

TEST_CASE("a hot oven cools when food goes in", "[study][reference]") {
  // SYS-30 (practice, seen): the oven drops when food goes in. No figure was given; two kilograms
  // of water at 20 degC must cost the air well over ten kelvin within ten minutes, and the food
  // must not gain more than the oven had to give and the sun sent.
  const oven::OvenDesign design = oven::default_design();
  SteadySun sun;
  sun.plane = SteadySun::Plane::kNormalToBeam;
  sun.irradiance_Wm2 = 900.0;
  sun.sun_zenith_rad = sun.glazing_tilt_rad = 30.0 * base::kRadPerDeg;
  const SteadyOven empty(design, nullptr, nullptr, Flaps::kSet, {}, base::kStandardPressure_Pa);
  auto hot = empty.stagnate(sun);
  REQUIRE(hot.has_value());
  heat::FoodLoad water;
  water.mass_kg = water.water_kg = 2.0;
  water.specific_heat_JkgK = base::kWaterSpecificHeat_JkgK;
  const SteadyOven loaded(
      design, &design.vessels.front(), &water, Flaps::kSet, {}, base::kStandardPressure_Pa);
  heat::State start = *hot;
  start[heat::kNodeVessel] = start[heat::kNodeFood] = 293.15;
  start[heat::kNodeWater] = 100.0;
  const auto trial = loaded.run(sun, start, 600.0, 1);
  const double before_K = start[heat::kNodeAir];
  const double after_K = trial.at.back()[heat::kNodeAir];
  INFO("air " << before_K - 273.15 << " to " << after_K - 273.15);
  CHECK(after_K < before_K - 10.0);
  CHECK(trial.at.back()[heat::kNodeFood] > 293.15 + 1.0);
  CHECK(std::abs(trial.summary.audit.residual_J()) < 0.001 * trial.summary.audit.in_J);
}
