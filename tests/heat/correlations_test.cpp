// SPDX-License-Identifier: MIT
// Correlations against published and handbook values; ids such as HT-1 are rows of the ledger in
// tests/data/heat/published.csv, where each has its source and status.
#include <cmath>
#include <string>

#include "catch.h"
#include "ovendays/base/air.h"
#include "ovendays/base/constants.h"
#include "ovendays/heat/correlations.h"
#include "ovendays/optics/exchange.h"
#include "published.h"

using namespace ovendays;
using namespace ovendays::heat;
using base::kRadPerDeg;
using test::within_abs;
using test::within_published;
using test::within_rel;

TEST_CASE("the fitted convection group is that of the air's properties", "[heat][identity]") {
  for (int i = 0; i <= 26; ++i) {
    const double t = 255.0 + 10.0 * i;
    const double k = base::air_conductivity_WmK(t);
    const double rho = base::air_density_kgm3(t, base::kStandardPressure_Pa);
    const double nu = base::air_viscosity_Pas(t) / rho;
    const double alpha = k / (rho * base::kAirSpecificHeat_JkgK);
    const double exact = k * std::pow(base::kGravity_ms2 / (t * nu * alpha), 0.25);
    CHECK_THAT(convection_group(t, base::kStandardPressure_Pa),
               within_rel(exact, 5e-4));  // the fit's stated error
  }
}

TEST_CASE("the fitted saturation pressure is that of Buck's equation", "[heat][identity]") {
  for (int i = 0; i <= 32; ++i) {
    const double t = 240.0 + 5.0 * i;
    CHECK_THAT(fast_saturation_Pa(t),
               within_rel(base::saturation_pressure_Pa(t), 1e-4));  // the fit's stated error
  }
}

TEST_CASE("natural convection at plates matches handbook values", "[heat][reference]") {
  // HT-16: from memory, recomputed.
  const double p_Pa = base::kStandardPressure_Pa;
  const double up =
      natural_convection_Wm2K(PlateKind::kHotUpOrColdDown, 333.15, 298.15, 0.125, p_Pa);
  CHECK_THAT(up, within_published("HT-16", "hot_plate_up_Wm2K"));
  // Nu = 0.54 Ra^(1/4), turned round.
  const double nusselt = up * 0.125 / base::air_conductivity_WmK(0.5 * (333.15 + 298.15));
  CHECK_THAT(std::pow(nusselt / 0.54, 4), within_published("HT-16", "rayleigh_of_plate"));
}

TEST_CASE("an upright plate is cooled as by the laminar equation, less than by the one for all",
          "[heat][reference]") {
  // HT-16. Two equations of one paper part by an eighth here (Ra 7e7): the one for all Rayleigh
  // numbers gives 5.0 W/m2K, the laminar one 4.36. Ours is the laminar one without its 0.68:
  // 4.31, which is 1.4 % below the laminar and 14 % below the other. The side of a pot and the
  // walls of the box are colder by that than under the equation for all.
  const double ours = natural_convection_Wm2K(
      PlateKind::kVertical, 333.15, 298.15, 0.3, base::kStandardPressure_Pa);
  const double conduction = 0.68 * base::air_conductivity_WmK(315.65) / 0.3;
  CHECK_THAT(ours + conduction, within_published("HT-16", "vertical_plate_laminar_Wm2K"));
  const test::Published all = test::published("HT-16", "vertical_plate_Wm2K");
  CHECK(ours < all.value - all.margin);  // a recorded difference
  CHECK_THAT(ours, within_rel(4.31, 0.01));
}

TEST_CASE("gap convection follows Hollands et al. 1976", "[heat][reference]") {
  // Duffie and Beckman ex. 3.11.1 (HT-1, HT-2: from memory, recomputed): plates 70 and 50 C, 25 mm.
  const double warm = base::kZeroCelsius_K + 70.0;
  const double cool = base::kZeroCelsius_K + 50.0;
  const double p = 101325.0;
  CHECK_THAT(gap_convection_Wm2K(warm, cool, 0.025, 45 * kRadPerDeg, p), within_rel(2.78, 0.02));
  CHECK_THAT(gap_convection_Wm2K(warm, cool, 0.025, 0.0, p), within_rel(3.18, 0.02));
  CHECK_THAT(gap_convection_Wm2K(warm, cool, 0.025, 30 * kRadPerDeg, p), within_rel(2.96, 0.02));
  CHECK_THAT(gap_convection_Wm2K(warm, cool, 0.025, 60 * kRadPerDeg, p), within_rel(2.44, 0.02));
}

TEST_CASE("a gap that does not convect conducts", "[heat][identity]") {
  // HT-3: Ra cos(tilt) below 1708, and any gap heated from above.
  CHECK(hollands_nusselt(1700.0, 0.0) == 1.0);
  CHECK(hollands_nusselt(0.0, 0.7) == 1.0);
  const double k = base::air_conductivity_WmK(330.0);
  CHECK_THAT(gap_convection_Wm2K(320.0, 340.0, 0.02, 0.5, 101325.0), within_rel(k / 0.02, 1e-12));
}

TEST_CASE("the wind coefficient is Watmuff's", "[heat][reference]") {
  // HT-9 (SEEN): 2.8 + 3.0 V.
  CHECK(wind_coefficient_Wm2K(0.0) == 2.8);
  CHECK_THAT(wind_coefficient_Wm2K(3.0), within_abs(11.8, 1e-12));
}

TEST_CASE("wind and sky together take what McAdams gives to the wind alone", "[heat][reference]") {
  // HT-10 (from memory, a band). His coefficient is believed to hold radiation; the model keeps it
  // apart, so its wind must lie below, and wind plus radiation of glass near 300 K near it.
  const double radiation = 0.84 * 4.0 * base::kStefanBoltzmann_Wm2K4 * 300.0 * 300.0 * 300.0;
  for (const int wind_ms : {1, 3, 5}) {
    const std::string row = "mcadams_" + std::to_string(wind_ms) + "_Wm2K";
    const double wind = wind_coefficient_Wm2K(wind_ms);
    CHECK(wind < test::published("HT-10", row).value);
    CHECK_THAT(wind + radiation, within_published("HT-10", row));
  }
}

TEST_CASE("parallel grey plates exchange as the closed form says", "[heat][reference]") {
  // HT-14 (CALC): 100 and 50 C.
  const auto flux = [](double e1, double e2) {
    const double a = 373.15;
    const double b = 323.15;
    return base::kStefanBoltzmann_Wm2K4 * (a * a * a * a - b * b * b * b) *
           optics::parallel_plates(e1, e2);
  };
  CHECK_THAT(flux(0.90, 0.84), within_rel(369.6, 1e-3));
  CHECK_THAT(flux(0.95, 0.88), within_rel(404.6, 1e-3));
  CHECK_THAT(flux(0.90, 0.04), within_rel(19.16, 1e-3));
}

TEST_CASE("the box shape factor exceeds one and falls to it for thin walls", "[heat][identity]") {
  CHECK(box_shape_factor(0.4, 0.4, 0.2, 0.05) > 1.1);
  CHECK_THAT(box_shape_factor(0.4, 0.4, 0.2, 1e-6), within_abs(1.0, 1e-4));
}
