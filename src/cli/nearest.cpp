// SPDX-License-Identifier: MIT
#include <algorithm>
#include <numeric>

#include "arguments.h"

namespace ovendays::cli {
namespace {
// Optimal string alignment distance: insertion, deletion, substitution and a swap of neighbours
// cost one each.
std::size_t distance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), now(b.size() + 1);
  std::iota(last.begin(), last.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        now[j] = std::min(now[j], before[j - 2] + 1);
      }
    }
    std::swap(before, last);
    std::swap(last, now);
  }
  return last[b.size()];
}
}  // namespace

std::string nearest(const std::string& name, const std::vector<std::string>& known) {
  std::string best;
  std::size_t least = std::max<std::size_t>(2, name.size() / 3) + 1;
  for (const std::string& each : known) {
    const std::size_t steps = distance(name, each);
    if (steps < least) {
      least = steps;
      best = each;
    }
  }
  return best;
}

std::string suggestion(const std::string& name, const std::vector<std::string>& known) {
  const std::string near = nearest(name, known);
  return near.empty() ? "." : ", did you mean " + near + "?";
}
}  // namespace ovendays::cli
