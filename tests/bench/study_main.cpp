// SPDX-License-Identifier: MIT
// A study as a process of its own, for its peak memory: bench_study COUNT insulation|panes
// prints the days cooked by the first and by the last oven.
#include <cstdio>
#include <cstdlib>
#include <string>

#include "study_scene.h"

using namespace ovendays;

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
  std::printf("%d %d\n", outcome.first_days, outcome.last_days);
  return 0;
}
