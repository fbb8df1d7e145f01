// SPDX-License-Identifier: MIT
#include "ovendays/base/normal.h"
#include "catch.h"

using namespace ovendays;
using test::within_abs;

TEST_CASE("normal quantiles agree with scipy", "[base][reference]") {
  // Computed with scipy 1.17.1, stats.norm.ppf. The bisection through erfc reaches 1e-12, and 1e-8
  // in the far tail, where the probability has fewer digits.
  CHECK_THAT(base::normal_quantile(0.9), within_abs(1.2815515655446004, 1e-12));
  CHECK_THAT(base::normal_quantile(0.975), within_abs(1.959963984540054, 1e-12));
  CHECK_THAT(base::normal_quantile(0.01), within_abs(-2.3263478740408408, 1e-12));
  CHECK_THAT(base::normal_quantile(1e-9), within_abs(-5.9978070150076865, 1e-8));
}

TEST_CASE("the normal quantile inverts the distribution function", "[base][identity]") {
  for (const double share : {0.003, 0.25, 0.5, 0.8, 0.9995}) {
    CHECK_THAT(base::normal_cdf(base::normal_quantile(share)), within_abs(share, 1e-14));
  }
}
