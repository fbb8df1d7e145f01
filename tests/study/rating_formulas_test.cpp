// SPDX-License-Identifier: MIT
// The formulas of the test procedures, by hand and by closed forms.
#include <array>
#include <cmath>
#include <vector>

#include "catch.h"
#include "ovendays/study/rating.h"

using namespace ovendays;
using namespace ovendays::study;

TEST_CASE("one kilogram that warms by 10 K in ten minutes takes 69.77 W", "[study][unit]") {
  // ASAE S580 clauses 7.1-7.2 with c = 4186 J/kgK: 41860 J over 600 s.
  CHECK_THAT(cooking_power_W(300.0, 310.0, 1.0, 600.0), test::within_abs(69.766667, 1e-6));
  CHECK_THAT(cooking_power_W(310.0, 300.0, 1.0, 600.0), test::within_abs(-69.766667, 1e-6));
  CHECK_THAT(cooking_power_W(300.0, 310.0, 2.5, 600.0), test::within_rel(174.416667, 1e-8));
}

TEST_CASE("cooking power is scaled to 700 W/m2", "[study][identity]") {
  // ASAE S580 clause 7.4. At 700 W/m2 nothing changes; at 1050 two thirds are left.
  CHECK(standard_power_W(50.0, 700.0) == 50.0);
  CHECK_THAT(standard_power_W(60.0, 1050.0), test::within_rel(40.0, 1e-15));  // one rounding
}

TEST_CASE("a straight line is found again, with r2 one", "[study][unit]") {
  const std::array<double, 4> x{10.0, 30.0, 50.0, 70.0};
  const std::array<double, 4> y{80.0, 60.0, 40.0, 20.0};
  const LineFit fit = fit_line(x, y);
  CHECK_THAT(fit.slope, test::within_abs(-1.0, 1e-14));  // sums of round numbers
  CHECK_THAT(fit.at(50.0), test::within_abs(40.0, 1e-12));
  CHECK_THAT(fit.r2, test::within_abs(1.0, 1e-14));
}

TEST_CASE("scatter lowers r2 by what the line leaves unexplained", "[study][unit]") {
  // By hand: x = -1, 0, 1, y = 1, 0, 2: slope 1/2, intercept 1; r2 = (sum xy)^2 / (xx yy)
  // = 1 / (2 * 2) = 0.25.
  const std::array<double, 3> x{-1.0, 0.0, 1.0};
  const std::array<double, 3> y{1.0, 0.0, 2.0};
  const LineFit fit = fit_line(x, y);
  CHECK_THAT(fit.slope, test::within_abs(0.5, 1e-15));
  CHECK_THAT(fit.intercept, test::within_abs(1.0, 1e-15));
  CHECK_THAT(fit.r2, test::within_abs(0.25, 1e-15));
  const std::array<double, 3> level{4.0, 4.0, 4.0};
  CHECK(fit_line(x, level).r2 == 0.0);
  CHECK(fit_line(level, y).slope == 0.0);
}

TEST_CASE("an oven of one node gives back its second figure", "[study][identity]") {
  // Water in an oven with efficiency factor F' obeys M c dT/dt = F' A (eta G - U (T - Ta)); then
  // F2 = F' eta whatever the two temperatures, with F1 = eta / U (Mullick et al. 1987, from
  // memory).
  const double eta = 0.7;
  const double loss_Wm2K = 6.0;
  const double factor = 0.8;
  const double f1 = eta / loss_Wm2K;
  for (const double to_K : {350.0, 363.15, 368.15}) {
    WaterHeating heating{.water_kg = 2.0,
                         .aperture_m2 = 0.25,
                         .time_s = 0.0,
                         .from_K = 333.15,
                         .to_K = to_K,
                         .ambient_K = 303.15,
                         .irradiance_Wm2 = 850.0};
    const double reach_K = f1 * 850.0;
    const double tau_s = 2.0 * 4186.0 / (factor * 0.25 * loss_Wm2K);
    heating.time_s = tau_s * std::log((reach_K - 30.0) / (reach_K - (to_K - 303.15)));
    const auto f2 = second_figure(f1, heating);
    REQUIRE(f2.has_value());
    CHECK_THAT(*f2, test::within_rel(factor * eta, 1e-12));  // closed form, rounding only
  }
}

TEST_CASE("there is no second figure if stagnation is below the final water temperature",
          "[study][unit]") {
  const WaterHeating heating{.water_kg = 2.0,
                             .aperture_m2 = 0.25,
                             .time_s = 3600.0,
                             .from_K = 333.15,
                             .to_K = 363.15,
                             .ambient_K = 303.15,
                             .irradiance_Wm2 = 600.0};
  CHECK_FALSE(second_figure(0.1, heating).has_value());  // 60 K of reach for 60 K of rise
  CHECK(second_figure(0.11, heating).has_value());
}

TEST_CASE("grades change at 0.11 and 0.12", "[study][unit]") {
  // IS 13429, from memory; "grade A" quoted by Adewumi et al. 2019.
  CHECK(grade_of(0.1201) == 'A');
  CHECK(grade_of(0.12) == 'A');
  CHECK(grade_of(0.1199) == 'B');
  CHECK(grade_of(0.11) == 'B');
  CHECK(grade_of(0.1099) == '-');
}
