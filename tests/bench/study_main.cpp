// SPDX-License-Identifier: MIT
// A study as a process of its own, so that its peak memory can be told:
// bench_study COUNT insulation|panes. Exit 1 where its answer is wrong.
#include <cstdio>
#include <cstdlib>
#include <string>

#include "study_scene.h"

using namespace ovendays;

namespace {
/// Better insulation and clearer glass may not lose more than the stray day that thresholds cost
/// (eight tasks: two days), and the best oven must gain over the poorest.
const char* fault_of(const bench::StudyOutcome& outcome, long count) {
  if (outcome.first_days <= 0) return "no day was cooked";
  if (outcome.worst_fall > 2) return "a better oven lost days";
  if (count > 1 && outcome.last_days <= outcome.first_days) return "the best oven gained nothing";
  return nullptr;
}
}  // namespace

int main(int argc, char** argv) {
  const long count = argc == 3 ? std::strtol(argv[1], nullptr, 10) : 0;
  if (count < 1 || count > 100000) {
    std::fprintf(stderr, "bench_study COUNT insulation|panes\n");
    return 2;
  }
  const auto varied =
      std::string(argv[2]) == "panes" ? bench::Varied::kPanes : bench::Varied::kInsulation;
  const season::Case c = bench::starter();
  const bench::StudyOutcome outcome =
      bench::run_study(c, season::load_weather(c), varied, static_cast<int>(count));
  std::printf("%d to %d days cooked\n", outcome.first_days, outcome.last_days);
  const char* fault = fault_of(outcome, count);
  if (fault != nullptr) std::fprintf(stderr, "bench_study: %s\n", fault);
  return fault == nullptr ? 0 : 1;
}
