// SPDX-License-Identifier: MIT
#include "ovendays/base/normal.h"

#include <cmath>

namespace ovendays::base {

double normal_cdf(double deviate) { return 0.5 * std::erfc(-deviate / std::sqrt(2.0)); }

double normal_quantile(double probability) {
  double low = -8.0;
  double high = 8.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (normal_cdf(middle) < probability ? low : high) = middle;
  }
  return 0.5 * (low + high);
}
}  // namespace ovendays::base
