// SPDX-License-Identifier: MIT
// Clear sky, the profiles used within an hour, cloud, and infrared from the sky.
#include <algorithm>
#include <cmath>

#include "../sun/csv_rows.h"
#include "catch.h"
#include "ovendays/base/constants.h"
#include "ovendays/sky/sky_model.h"

using namespace ovendays;
using base::kRadPerDeg;
using test::within_abs;
using test::within_rel;

TEST_CASE("clear sky agrees with 283 rows of an independent computation", "[sky][reference]") {
  const auto rows = test::read_rows(std::string(OVENDAYS_TEST_DATA) + "/clear_sky.csv");
  REQUIRE(rows.size() == 283);
  for (const test::CsvRow& row : rows) {
    INFO("row " << row.text("row"));
    const double zenith_rad = row.number("apparent_zenith_deg") * kRadPerDeg;
    const sky::ClearSky clear = sky::clear_sky({zenith_rad,
                                                row.number("dni_extra_wm2"),
                                                row.number("elevation_m"),
                                                row.number("pressure_pa"),
                                                row.number("linke_turbidity")});
    // Inputs are printed to six decimals; near the horizon air mass turns that into 1e-4 W/m2.
    CHECK_THAT(clear.dni_Wm2, within_abs(row.number("ineichen_dni_wm2"), 1e-3));
    CHECK_THAT(clear.dhi_Wm2, within_abs(row.number("ineichen_dhi_wm2"), 1e-3));
    CHECK_THAT(clear.dni_Wm2 * std::cos(zenith_rad) + clear.dhi_Wm2,
               within_abs(row.number("ineichen_ghi_wm2"), 1e-3));
  }
}

TEST_CASE("clear sky is dark below the horizon and finite on it", "[sky][unit]") {
  const sky::ClearSky night = sky::clear_sky({1.6, 1366.1, 0.0, 101325.0, 3.0});
  CHECK(night.dni_Wm2 == 0.0);
  CHECK(night.dhi_Wm2 == 0.0);
  const sky::ClearSky low = sky::clear_sky({base::kPi / 2.0, 1366.1, 0.0, 101325.0, 3.0});
  CHECK(low.dni_Wm2 > 0.0);
  CHECK(low.dni_Wm2 < 10.0);
  CHECK(low.dhi_Wm2 >= 0.0);
}

TEST_CASE("the profiles within an hour fall with the sun and vanish below the horizon",
          "[sky][unit]") {
  // Meinel and Meinel 1976: 0.7^(m^0.678); m is 0.99971 overhead and 1.99429 at 60 deg (SUN-21).
  CHECK_THAT(sky::clear_beam_shape(0.0), within_abs(std::pow(0.7, std::pow(0.99971, 0.678)), 1e-5));
  CHECK_THAT(sky::clear_beam_shape(60.0 * kRadPerDeg),
             within_abs(std::pow(0.7, std::pow(1.99429, 0.678)), 1e-5));
  double last_beam = 1.0;
  double last_diffuse = 1.1;
  for (int i = 0; i <= 90; ++i) {
    const double beam = sky::clear_beam_shape(i * kRadPerDeg);
    const double diffuse = sky::clear_diffuse_shape(i * kRadPerDeg);
    CHECK(beam < last_beam);
    CHECK(diffuse < last_diffuse);
    CHECK(beam > 0.0);
    last_beam = beam;
    last_diffuse = diffuse;
  }
  CHECK(sky::clear_beam_shape(1.58) == 0.0);
  CHECK(sky::clear_diffuse_shape(1.58) == 0.0);
}

TEST_CASE("clear-sky emissivity and temperature follow Berdahl and Martin", "[sky][reference]") {
  // HT-13 (from memory, recomputed), at 1000 hPa, where the pressure term vanishes. Ta 20 degC, dew
  // 10 degC: emissivity 0.7743, sky 1.84 degC; at noon 0.68, at midnight 2.99. Ta 30, dew 0: 5.22.
  struct Case {
    double dry_K, dew_K, hour, emissivity, sky_degC;
  };
  for (const Case& c : {Case{293.15, 283.15, 6.0, 0.7743, 1.84},
                        Case{293.15, 283.15, 12.0, 0.7613, 0.68},
                        Case{293.15, 283.15, 0.0, 0.7873, 2.99},
                        Case{303.15, 273.15, 18.0, 0.711, 5.22}}) {
    CHECK_THAT(sky::clear_sky_emissivity(c.dew_K, c.hour, 1e5), within_abs(c.emissivity, 1e-4));
    const double sky_K = sky::sky_temperature_K({c.dry_K, c.dew_K, c.hour, 1e5, 0.0, -1.0});
    CHECK_THAT(sky_K - base::kZeroCelsius_K,
               within_abs(c.sky_degC, 0.05));  // tolerance of the ledger
  }
  // The pressure term: 0.00012 per hPa (Martin and Berdahl 1984, from memory).
  CHECK_THAT(sky::clear_sky_emissivity(283.15, 6.0, 8e4), within_abs(0.7743 - 0.024, 1e-4));
}

TEST_CASE("the file's infrared takes precedence, and cloud warms the sky", "[sky][unit]") {
  // sigma T^4 at 280 K, by CODATA's sigma.
  const double ir_Wm2 = 5.670374419e-8 * 280.0 * 280.0 * 280.0 * 280.0;
  CHECK_THAT(sky::sky_temperature_K({300.0, 290.0, 3.0, 1e5, 1.0, ir_Wm2}),
             within_rel(280.0, 1e-12));
  double last_K = 0.0;
  for (double cloud : {0.0, 0.3, 0.7, 1.0}) {
    const double sky_K = sky::sky_temperature_K({293.15, 283.15, 6.0, 1e5, cloud, -1.0});
    CHECK(sky_K > last_K);
    CHECK(sky_K < 293.15);
    last_K = sky_K;
  }
  // Overcast: emissivity 0.7743 + 0.2257 exp(-2/8.2) = 0.9512 -> 289.50 K.
  CHECK_THAT(last_K, within_abs(293.15 * std::pow(0.95115, 0.25), 0.01));
}

TEST_CASE("cloud fraction inverts the relation of Kasten and Czeplak", "[sky][reference]") {
  for (double n : {0.0, 0.25, 0.5, 0.75, 1.0}) {
    CHECK_THAT(sky::cloud_fraction(1.0 - 0.75 * std::pow(n, 3.4)), within_abs(n, 1e-12));
  }
  CHECK(sky::cloud_fraction(1.3) == 0.0);
  CHECK(sky::cloud_fraction(0.0) == 1.0);
}
