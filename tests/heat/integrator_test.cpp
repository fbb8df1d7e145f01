// SPDX-License-Identifier: MIT
#include <cmath>
#include <string>
#include <vector>

#include "catch.h"
#include "made_network.h"
#include "ovendays/heat/integrator.h"

using namespace ovendays;
using namespace ovendays::heat;
using test::within_abs;

namespace {
Run made_run(const test::MadeForcing& forcing) {
  Run run;
  run.forcing = forcing.view();
  run.end_s = forcing.air.back().end_s;
  run.state = uniform_state(293.0);
  run.state[kNodeWater] = 100.0;
  return run;
}

State run(const HeatModel& model,
          const test::MadeForcing& forcing,
          double tolerance_K,
          RunSummary& summary) {
  IntegratorOptions options;
  options.tolerance_K = tolerance_K;
  Run one = made_run(forcing);
  summary = integrate(model, one, options);
  return one.state;
}

double worst_difference(const HeatModel& model, const State& a, const State& b) {
  double worst = 0.0;
  for (std::size_t i = 0; i < kNodes; ++i) {
    if (model.present[i]) worst = std::max(worst, std::abs(a[i] - b[i]));
  }
  return worst;
}
}  // namespace

TEST_CASE("a run at the default tolerance ends within 0.05 K of a run a thousand times tighter",
          "[heat][unit]") {
  for (const bool solid : {false, true}) {
    for (const double ripple : {0.0, 0.7}) {
      const HeatModel model = test::made_network(2, solid);
      const test::MadeForcing forcing = test::made_forcing(6.0, 260.0, ripple);
      RunSummary coarse;
      RunSummary fine;
      const State a = run(model, forcing, 0.02, coarse);
      const State b = run(model, forcing, 2e-5, fine);
      INFO("solid " << solid << " ripple " << ripple << " steps " << coarse.steps << " rejected "
                    << coarse.rejected);
      CHECK(worst_difference(model, a, b) < 0.05);
      CHECK(coarse.steps < 400);
      REQUIRE(!coarse.failed());
    }
  }
}

TEST_CASE("every run closes its energy balance to a tenth of a percent of the sun taken in",
          "[heat][identity]") {
  for (const Precision precision : {Precision::kDouble, Precision::kSingle}) {
    for (const bool solid : {false, true}) {
      for (const double ripple : {0.0, 0.7}) {
        IntegratorOptions options;
        options.precision = precision;
        const test::MadeForcing forcing = test::made_forcing(7.0, 300.0, ripple);
        Run one = made_run(forcing);
        const RunSummary summary = integrate(test::made_network(1, solid), one, options);
        INFO("in " << summary.audit.in_J << " out " << summary.audit.out_J << " stored "
                   << summary.audit.stored_J);
        CHECK(std::abs(summary.audit.residual_J()) < 1e-3 * summary.audit.in_J);
        // Losses are carried through the stages like one more node, so it is rounding that is left.
        const double rounding = precision == Precision::kDouble ? 1e-9 : 3e-5;
        CHECK(std::abs(summary.audit.residual_J()) < rounding * summary.audit.in_J);
      }
    }
  }
}

TEST_CASE("single precision ends within a fifth of the tolerance of double", "[heat][unit]") {
  for (const bool solid : {false, true}) {
    for (const double ripple : {0.0, 0.7}) {
      const HeatModel model = test::made_network(2, solid);
      const test::MadeForcing forcing = test::made_forcing(6.0, 260.0, ripple);
      std::array<Run, 2> runs = {made_run(forcing), made_run(forcing)};
      IntegratorOptions options;
      REQUIRE(!integrate(model, runs[0], options).failed());
      options.precision = Precision::kSingle;
      REQUIRE(!integrate(model, runs[1], options).failed());
      INFO("solid " << solid << " ripple " << ripple);
      CHECK(worst_difference(model, runs[0].state, runs[1].state) < 0.2 * options.tolerance_K);
      CHECK(runs[0].state != runs[1].state);  // or one of them was not what it says
    }
  }
}

TEST_CASE("fixed steps halved show third order", "[heat][identity]") {
  // No boiling, smooth forcing, and capacities so large that the steps resolve every time constant:
  // stiff parts would hide the order (they cost about half of one).
  HeatModel model = test::made_network(1, false);
  model.boiling_K = 500.0;
  for (double& capacity_JK : model.capacity_JK) capacity_JK = std::max(capacity_JK, 6000.0);
  const test::MadeForcing forcing = test::made_forcing(3.0, 150.0);
  const auto at_step = [&](double step_s) {
    IntegratorOptions options;
    options.tolerance_K = 1e6;
    options.first_step_s = options.longest_step_s = step_s;
    Run one = made_run(forcing);
    integrate(model, one, options);
    return one.state;
  };
  const State exact = at_step(10.0);
  const double coarse = worst_difference(model, at_step(600.0), exact);
  const double fine = worst_difference(model, at_step(300.0), exact);
  const double order = std::log2(coarse / fine);
  INFO("errors " << coarse << " and " << fine << ", order " << order);
  CHECK(order > 2.5);  // third order, within what two step sizes can show
}

TEST_CASE("food with water stops at the boiling point and gives off the surplus as steam",
          "[heat][unit]") {
  const HeatModel model = test::made_network(1, false);
  const test::MadeForcing forcing = test::made_forcing(5.0, 420.0);
  Run one = made_run(forcing);
  const RunSummary summary = integrate(model, one, {});
  const State& state = one.state;
  CHECK(state[kNodeFood] > model.boiling_K);
  CHECK(state[kNodeFood] < model.boiling_K + 0.1);  // power over boil_WK
  CHECK(summary.evaporated_kg > 0.01);
  CHECK(std::abs(summary.audit.residual_J()) < 1e-3 * summary.audit.in_J);
}

TEST_CASE("an integration that cannot go on says so and does not throw", "[heat][unit]") {
  HeatModel model = test::made_network(1, false);
  test::MadeForcing forcing = test::made_forcing(1.0, 100.0);
  forcing.gains[2].start_W[3] = std::nan("");
  Run one = made_run(forcing);
  const RunSummary summary = integrate(model, one, {});
  CHECK(summary.failed());
  CHECK(summary.end_s <= 1200.0);
}

TEST_CASE("the cubic between steps meets values and slopes and finds crossings", "[heat][unit]") {
  State y0{};
  State y1{};
  State rise{};
  y0[0] = 10.0;
  y1[0] = 20.0;
  rise[0] = 10.0;  // 0.1 K/s at both ends
  const Step step{0.0, 100.0, StateView(y0), StateView(y1), StateView(rise), StateView(rise)};
  CHECK_THAT(step.at(0, 0.0), within_abs(10.0, 1e-12));
  CHECK_THAT(step.at(0, 0.25), within_abs(12.5, 1e-12));
  CHECK_THAT(step.crossing(0, 15.0), within_abs(0.5, 1e-9));
  CHECK(step.crossing(0, 25.0) > 1.0);
}

TEST_CASE("the cubic between steps tells where a node stops rising", "[heat][unit]") {
  State y0{};
  State y1{};
  State rise0{};
  State rise1{};
  // 4 s (1 - s): top at one half, slopes 4 and -4. Then s (1 - s)^2: top at a third, slopes 1 and
  // 0.
  rise0[0] = 4.0;
  rise1[0] = -4.0;
  rise0[1] = 1.0;
  rise1[1] = -1e-12;
  rise0[2] = -1.0;
  rise1[2] = -1.0;
  const Step step{0.0, 60.0, StateView(y0), StateView(y1), StateView(rise0), StateView(rise1)};
  CHECK_THAT(step.peak_share(0), within_abs(0.5, 1e-12));
  CHECK_THAT(step.peak_share(1), within_abs(1.0 / 3.0, 1e-9));
  CHECK(step.peak_share(2) == 0.0);
}

TEST_CASE("a watcher is shown all steps but those it called quiet", "[heat][unit]") {
  struct Counting : StepWatcher {
    explicit Counting(const Quiet& wish) : wished(wish) {}
    bool on_step(const Step& step) override {
      ++shown;
      last_s = step.end_s;
      peak_K = std::max({peak_K, step.passed_peak_K, step.y1[kNodeFood]});
      set_quiet(wished);
      return true;
    }
    Quiet wished;
    int shown = 0;
    double last_s = 0.0, peak_K = 0.0;
  };
  const HeatModel model = test::made_network(1, false);
  const test::MadeForcing forcing = test::made_forcing(6.0, 260.0, 0.7);
  const auto shown = [&](const Quiet& quiet) {
    Counting watcher(quiet);
    Run one = made_run(forcing);
    one.watcher = &watcher;
    const RunSummary summary = integrate(model, one, {});
    CHECK(watcher.last_s == summary.end_s);
    return std::array<double, 3>{
        static_cast<double>(watcher.shown), watcher.peak_K, static_cast<double>(summary.steps)};
  };
  const auto [all, peak_K, steps] = shown({});
  CHECK(all == steps);
  const auto first_and_last = shown({.core = {}, .food = {}, .air = {}, .until_s = 1e9});
  CHECK(first_and_last[0] == 2.0);
  CHECK(first_and_last[1] == peak_K);
  const auto half = shown({.core = {}, .food = {}, .air = {}, .until_s = 3.0 * 3600.0});
  CHECK((half[0] > 2.0 && half[0] < steps));
  const auto cool = shown({.core = {0.0, 320.0}, .food = {}, .air = {}, .until_s = 1e9});
  CHECK((cool[0] > 2.0 && cool[0] < steps));
}

namespace {
/// Do two sets round alike? Those that fuse products and sums do among each other.
bool rounds_like(const std::string& a, const std::string& b) {
  return (a == "portable") == (b == "portable");
}

void require_same(const Run& a,
                  const RunSummary& summary_a,
                  const Run& b,
                  const RunSummary& summary_b) {
  REQUIRE(a.state == b.state);
  REQUIRE(summary_a.steps == summary_b.steps);
  REQUIRE(summary_a.audit.in_J == summary_b.audit.in_J);
  REQUIRE(summary_a.audit.out_J == summary_b.audit.out_J);
  REQUIRE(summary_a.audit.stored_J == summary_b.audit.stored_J);
}

/// Rounding apart, which may also let a step pass here that fails by a hair there.
void require_near(const Run& a,
                  const RunSummary& summary_a,
                  const Run& b,
                  const RunSummary& summary_b) {
  for (std::size_t n = 0; n < kNodes; ++n) REQUIRE(std::abs(a.state[n] - b.state[n]) < 0.05);
  REQUIRE(std::abs(summary_a.steps - summary_b.steps) <= 3);
  REQUIRE(std::abs(summary_a.audit.in_J - summary_b.audit.in_J) < 1e-5 * summary_b.audit.in_J);
  REQUIRE(std::abs(summary_a.audit.out_J - summary_b.audit.out_J) < 1e-4 * summary_b.audit.in_J);
  REQUIRE(std::abs(summary_a.audit.stored_J - summary_b.audit.stored_J) <
          1e-4 * summary_b.audit.in_J);
}
}  // namespace

TEST_CASE("every packing gives the same bits, on all instruction sets that round alike",
          "[heat][determinism]") {
  const test::MadeForcing forcing = test::made_forcing(6.0, 320.0, 0.5);
  const std::vector<LidOpening> lid{{5000.0, 5060.0}};
  std::vector<Run> runs(41, made_run(forcing));
  for (std::size_t i = 0; i < runs.size(); ++i) {
    runs[i].start_s = 200.0 * static_cast<double>(i);
    runs[i].state[kNodeFood] = 280.1 + static_cast<double>(i);
    if (i % 3 == 0) runs[i].lid_open = lid;
  }
  for (const HeatModel& model : {test::made_network(1, false),
                                 test::made_network(1, true),
                                 test::made_network(1, false, true),
                                 test::made_network(1, true, true),
                                 test::made_network(2, false),
                                 test::made_network(2, true)}) {
    for (const Precision precision : {Precision::kDouble, Precision::kSingle}) {
      IntegratorOptions options;
      options.precision = precision;
      std::vector<Run> alone = runs;
      std::vector<RunSummary> alone_summaries(runs.size());
      for (std::size_t i = 0; i < runs.size(); ++i)
        alone_summaries[i] = integrate(model, alone[i], options);
      for (const std::string& set : instruction_sets()) {
        std::vector<Run> packed = runs;
        std::vector<RunSummary> summaries(runs.size());
        integrate_with(set, model, packed, summaries, options);
        for (std::size_t i = 0; i < runs.size(); ++i) {
          INFO(set << (precision == Precision::kSingle ? ", single" : "") << " run " << i);
          const auto require =
              rounds_like(set, instruction_sets().front()) ? require_same : require_near;
          require(packed[i], summaries[i], alone[i], alone_summaries[i]);
        }
      }
    }
  }
}

namespace {
/// Remembers the marks that a run passes, and the food then.
class MarkReader : public StepWatcher {
 public:
  bool on_step(const Step& /*step*/) override { return true; }
  bool on_mark(const Mark& mark) override {
    numbers.push_back(mark.number);
    times_s.push_back(mark.time_s);
    food_K.push_back(mark.y[kNodeFood]);
    return true;
  }
  std::vector<std::size_t> numbers;
  std::vector<double> times_s, food_K;
};
}  // namespace

TEST_CASE("a run of a part of the day has the same bits and marks beside one of the whole day",
          "[heat][determinism]") {
  const test::MadeForcing forcing = test::made_forcing(6.0, 320.0, 0.5);
  const HeatModel model = test::made_network(2, true);
  Run whole = made_run(forcing);
  Run part = made_run(forcing);
  part.start_s = 0.4 * whole.end_s;
  part.end_s = 0.6 * whole.end_s;
  IntegratorOptions options;
  options.precision = Precision::kSingle;
  MarkReader alone, beside, of_whole;
  Run first = part;
  first.marks = true;
  first.watcher = &alone;
  const RunSummary told = integrate(model, first, options);
  std::vector<Run> both{part, whole};
  both[0].watcher = &beside;
  both[1].watcher = &of_whole;
  both[0].marks = both[1].marks = true;
  std::vector<RunSummary> summaries(2);
  integrate(model, both, summaries, options);
  require_same(both[0], summaries[0], first, told);
  REQUIRE(alone.numbers.size() > 2);
  CHECK(alone.numbers == beside.numbers);
  CHECK(alone.times_s == beside.times_s);
  CHECK(alone.food_K == beside.food_K);
  for (std::size_t i = 0; i < alone.numbers.size(); ++i) {
    INFO("mark " << alone.numbers[i]);
    REQUIRE(alone.numbers[i] < of_whole.times_s.size());
    CHECK(of_whole.numbers[alone.numbers[i]] == alone.numbers[i]);
    CHECK(of_whole.times_s[alone.numbers[i]] == alone.times_s[i]);
  }
}
