// SPDX-License-Identifier: MIT
// Prints what the model gives for every published figure of a measured oven, see
// tests/validation.sh.
#include <cstdio>
#include <exception>

#include "kitchen_times.h"
#include "validation_figures.h"

namespace {
using ovendays::test::ValidationFigure;

void print_half(const std::vector<ValidationFigure>& figures,
                const char* name,
                bool (*counts)(const ValidationFigure&)) {
  const ovendays::test::ValidationSummary s = ovendays::test::summarize(figures, counts);
  std::printf(
      "%-34s %2d figures, median %.2f, rms of ln %.2f, within 25 %%: %.0f %%, 35 %%: %.0f %%, "
      "50 %%: %.0f %%\n",
      name,
      s.count,
      s.median,
      s.rms_ln,
      100.0 * s.within_25,
      100.0 * s.within_35,
      100.0 * s.within_50);
}

void print_kitchen() {
  std::printf("\nThe starter oven, loaded cold at 10:00 on clear days from May to August [min]\n");
  std::printf("%-8s %5s  %-9s  %-31s %s\n", "task", "ours", "band", "reported (FOOD-17)", "");
  for (const ovendays::test::KitchenTime& each : ovendays::test::kitchen_times()) {
    char band[24] = "";
    if (each.reported())
      std::snprintf(band, sizeof band, "%.0f to %.0f", 0.5 * each.low_min, 1.5 * each.high_min);
    std::printf("%-8s %5.0f  %-9s  %-31s %s%s\n",
                each.task,
                each.ours_min,
                band,
                each.source,
                each.reported() && !each.within_band() ? "outside: " : "",
                each.remark);
  }
}

void print() {
  const std::vector<ValidationFigure> figures = ovendays::test::validation_figures();
  std::printf("%-7s %-46s %9s  %-15s %6s\n", "oven", "figure", "measured", "simulated", "ratio");
  for (const bool loaded : {true, false}) {
    std::printf("\n%s\n",
                loaded ? "Loaded: how many times too fast" : "Empty: how many times too hot");
    for (const ValidationFigure& f : figures) {
      if (f.loaded != loaded) continue;
      char band[40];
      if (f.least == f.most) {
        std::snprintf(band, sizeof band, "%.4g", f.most);
      } else {
        std::snprintf(band, sizeof band, "%.3g to %.3g", f.least, f.most);
      }
      std::printf("%-7s %-46s %9.4g  %-15s %6.2f%s\n",
                  f.oven.c_str(),
                  f.what.c_str(),
                  f.measured,
                  band,
                  f.ratio,
                  f.kept_aside ? "" : "  (calibration)");
    }
  }
  std::printf("\n");
  print_half(figures, "loaded, all:", [](const ValidationFigure& f) { return f.loaded; });
  print_half(figures, "loaded, looked at:", [](const ValidationFigure& f) {
    return f.loaded && !f.kept_aside;
  });
  print_half(figures, "loaded, kept aside:", [](const ValidationFigure& f) {
    return f.loaded && f.kept_aside;
  });
  print_half(figures, "empty:", [](const ValidationFigure& f) { return !f.loaded; });
  std::printf("an oven against the mean of all others, loaded: rms of ln %.2f\n",
              ovendays::test::leave_one_out_ln(figures));
  print_kitchen();
}
}  // namespace

int main() {
  try {
    print();
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
}
