// SPDX-License-Identifier: MIT
#include "ovendays/base/normal.h"
#include "catch.h"

using namespace ovendays;
using test::within_abs;

TEST_CASE("the normal distribution's inverse agrees with scipy's", "[base][reference]") {
  // Own run of scipy 1.17.1, stats.norm.ppf; 1e-12 is the slack of a bisection through erfc, 1e-8
  // far out where a share has fewer digits.
  CHECK_THAT(base::normal_deviate(0.9), within_abs(1.2815515655446004, 1e-12));
  CHECK_THAT(base::normal_deviate(0.975), within_abs(1.959963984540054, 1e-12));
  CHECK_THAT(base::normal_deviate(0.01), within_abs(-2.3263478740408408, 1e-12));
  CHECK_THAT(base::normal_deviate(1e-9), within_abs(-5.9978070150076865, 1e-8));
}

TEST_CASE("share and deviate undo each other", "[base][identity]") {
  for (const double share : {0.003, 0.25, 0.5, 0.8, 0.9995}) {
    CHECK_THAT(base::normal_share(base::normal_deviate(share)), within_abs(share, 1e-14));
  }
}
