// SPDX-License-Identifier: MIT
#include "axes.h"

#include <cmath>

namespace ovendays::report {

double round_step(double range, int most) {
  const double least = range / most;
  const double ten = std::pow(10.0, std::floor(std::log10(least)));
  for (const double part : {1.0, 2.0, 2.5, 5.0}) {
    if (part * ten >= least * (1.0 - 1e-9)) return part * ten;
  }
  return 10.0 * ten;
}
}  // namespace ovendays::report
