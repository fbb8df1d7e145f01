// SPDX-License-Identifier: MIT
#include "random_draws.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "ovendays/base/constants.h"

namespace ovendays::weather {

double RandomDraws::normal() {
  if (has_spare_) {
    has_spare_ = false;
    return spare_;
  }
  const double radius = std::sqrt(-2.0 * std::log(1.0 - uniform()));
  const double angle = base::kTwoPi * uniform();
  spare_ = radius * std::sin(angle);
  has_spare_ = true;
  return radius * std::cos(angle);
}

std::vector<double> normal_scores(const std::vector<double>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return values[a] < values[b];
  });
  std::vector<double> scores(values.size());
  for (std::size_t rank = 0; rank < order.size(); ++rank) {
    scores[order[rank]] =
        normal_quantile((static_cast<double>(rank) + 0.5) / static_cast<double>(values.size()));
  }
  return scores;
}
}  // namespace ovendays::weather
