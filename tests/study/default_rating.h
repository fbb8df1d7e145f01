// SPDX-License-Identifier: MIT
// The default oven rated, once for all tests.
#pragma once

#include "ovendays/study/rating.h"

namespace ovendays::test {

inline const study::Rating& default_rating() {
  static const study::Rating rating = study::rate_oven(oven::default_design(), {}, {});
  return rating;
}
}  // namespace ovendays::test
