// SPDX-License-Identifier: MIT
#include "ovendays/base/air.h"

#include <algorithm>
#include <vector>

#include "catch.h"
#include "ovendays/base/constants.h"
#include "ovendays/base/random.h"

namespace base = ovendays::base;
using ovendays::test::within_abs;
using ovendays::test::within_rel;

TEST_CASE("conductivity and viscosity of air follow Sutherland's law", "[base][reference]") {
  // HT-17: figures computed from Sutherland's law at one atmosphere, held within 1 %; at 333 K the
  // worked examples of Duffie and Beckman use 0.029 W/mK and 1.88e-5 m2/s.
  struct Row {
    double temperature_K, conductivity_WmK, kinematic_viscosity_m2s;
  };
  for (const Row& row :
       {Row{300.0, 0.0262, 1.57e-5}, Row{333.0, 0.0288, 1.89e-5}, Row{373.0, 0.0317, 2.30e-5}}) {
    INFO(row.temperature_K);
    REQUIRE_THAT(base::air_conductivity_WmK(row.temperature_K),
                 within_rel(row.conductivity_WmK, 0.01));
    const double nu = base::air_viscosity_Pas(row.temperature_K) /
                      base::air_density_kgm3(row.temperature_K, base::kStandardPressure_Pa);
    REQUIRE_THAT(nu, within_rel(row.kinematic_viscosity_m2s, 0.01));
  }
}

TEST_CASE("pressure falls with height as in the ICAO standard atmosphere", "[base][reference]") {
  // SUN-23: ICAO standard atmosphere as in pvlib's test of alt2pres; tolerance from its rounded
  // exponents.
  REQUIRE_THAT(base::standard_pressure_Pa(1000.0), within_abs(89874.75, 10.0));
  REQUIRE_THAT(base::standard_pressure_Pa(8000.0), within_abs(35600.5, 10.0));
}

TEST_CASE("water boils at a lower temperature on a mountain", "[base][reference]") {
  // FOOD-6: computed from the ICAO atmosphere and Antoine's equation; 0.2 K is the spread between
  // them.
  struct Row {
    double height_m, boiling_degC;
  };
  for (const Row& row : {Row{0, 100.0},
                         Row{500, 98.3},
                         Row{1000, 96.7},
                         Row{1609, 94.7},
                         Row{2000, 93.4},
                         Row{3000, 90.0}}) {
    INFO(row.height_m);
    const double boiling_K = base::boiling_point_K(base::standard_pressure_Pa(row.height_m));
    REQUIRE_THAT(boiling_K - base::kZeroCelsius_K, within_abs(row.boiling_degC, 0.2));
  }
}

TEST_CASE("latent heat of water agrees with the steam tables", "[base][reference]") {
  // FOOD-5: steam tables, from memory: 2257 kJ/kg at 100 C, 2358 kJ/kg at 60 C.
  REQUIRE_THAT(base::latent_heat_Jkg(373.15), within_rel(2.257e6, 0.005));
  REQUIRE_THAT(base::latent_heat_Jkg(333.15), within_rel(2.358e6, 0.005));
  // Boiling 0.1 kg off in an hour takes 62.7 W.
  REQUIRE_THAT(0.1 * base::latent_heat_Jkg(373.15) / 3600.0, within_rel(62.7, 0.005));
}

TEST_CASE("boiling point inverts saturation pressure", "[base][identity]") {
  for (const double t_K : {250.0, 273.15, 290.0, 333.0, 360.0, 380.0}) {
    const double back_K = base::boiling_point_K(base::saturation_pressure_Pa(t_K));
    REQUIRE_THAT(back_K, within_abs(t_K, 1e-9));  // the bisection converges to the last bits
  }
}

TEST_CASE("dew point inverts relative humidity", "[base][identity]") {
  for (const double humidity : {0.05, 0.3, 0.7, 1.0}) {
    const double dew_K = base::dew_point_K(303.15, humidity);
    REQUIRE(dew_K <= 303.15);
    REQUIRE_THAT(base::relative_humidity(303.15, dew_K), within_abs(humidity, 1e-9));
  }
}

TEST_CASE("dew points of a batch have the same bits as a plain bisection", "[base][identity]") {
  base::KeyedRandom random(3);
  std::vector<double> temperature_K;
  std::vector<double> humidity;
  for (int i = 0; i < 101; ++i) {  // not a multiple of the vector length
    temperature_K.push_back(230.0 + 90.0 * random.uniform());
    humidity.push_back(i == 0 ? 1.0 : random.uniform());
  }
  std::vector<double> dew_K(temperature_K.size());
  base::dew_points_K(temperature_K, humidity, dew_K);
  for (std::size_t i = 0; i < dew_K.size(); ++i) {
    const double target_Pa =
        base::saturation_pressure_Pa(temperature_K[i]) * std::clamp(humidity[i], 1e-4, 1.0);
    double low = 180.0;
    double high = temperature_K[i];
    for (int k = 0; k < 50; ++k) {
      const double middle = 0.5 * (low + high);
      (base::saturation_pressure_Pa(middle) < target_Pa ? low : high) = middle;
    }
    INFO(temperature_K[i] << " K at " << humidity[i]);
    REQUIRE(dew_K[i] == 0.5 * (low + high));
    REQUIRE(base::dew_point_K(temperature_K[i], humidity[i]) == dew_K[i]);
  }
}
