// SPDX-License-Identifier: MIT
// Which SIMD instruction sets a build carries, in every build type.
#include <fstream>
#include <iterator>
#include <set>
#include <sstream>
#include <string>

#include "catch.h"
#include "ovendays/heat/integrator.h"

using namespace ovendays;

namespace {

/// The processor's features as the Linux kernel lists them; empty on other systems.
std::set<std::string> processor_flags() {
  std::ifstream file("/proc/cpuinfo");
  for (std::string line; std::getline(file, line);) {
    if (line.rfind("flags", 0) != 0) continue;
    std::istringstream words(line.substr(line.find(':') + 1));
    return {std::istream_iterator<std::string>(words), {}};
  }
  return {};
}
}  // namespace

TEST_CASE("#16 - the widest SIMD instruction set of the machine is used in every build type",
          "[heat][unit]") {
  // The levels' features: System V ABI, AMD64 supplement, section 3.1.1; those that set a level
  // apart from the one below it.
  const std::set<std::string> flags = processor_flags();
  const auto has = [&flags](const char* name) { return flags.count(name) > 0; };
  const bool v3 = has("avx2") && has("fma") && has("bmi2");
  const bool v4 = v3 && has("avx512f") && has("avx512bw") && has("avx512cd") && has("avx512dq") &&
                  has("avx512vl");
  const std::vector<std::string> sets = heat::instruction_sets();
  CHECK(sets.back() == "plain");
#ifdef OVENDAYS_EXPECT_X86_LEVELS
  CHECK(sets.size() == (v4 ? 3U : v3 ? 2U : 1U));
  CHECK(sets.front() == (v4 ? "x86-64-v4" : v3 ? "x86-64-v3" : "plain"));
#else
  CHECK(sets.size() == 1U);
#endif
}
