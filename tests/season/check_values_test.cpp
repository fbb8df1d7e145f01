// SPDX-License-Identifier: MIT
// What builders of box ovens report, for a box of the size they build: common practice, no source.
// Bands are 25 F (14 K) wide to each side: two dial thermometers differ by about that much, and so
// do two builders' cardboard and foil.
//
// The box: default_design() with glass, flaps and inside 0.40 m wide and long, square to a steady
// sun of 900 W/m2 beam and 90 W/m2 diffuse, air 25 C, sheltered wind of 0.5 m/s. "Reading" is what
// an oven thermometer standing on the tray shows, between air and tray: their mean.
//
// This program reads: no flaps 230 F after 8 h; four flaps 345 F, 309 F after 45 min; rough
// prototype 266 F.
// Practice has 340 F after about 40 min, 6 F beyond the band, and passing 340 F takes the model
// nearly two hours: it lies near the model's top. Why: in air this calm the glass loses 5 to 7
// W/m2K by free convection, which the plain wind formula (2.8 + 3 V) leaves out; with that formula
// alone the model reads 320 F after 45 min, but is then further from the calm ovens of
// tests/data/measured. A dial in the sun also reads more than the air and tray beside it. No input
// was bent to close the gap.
#include "catch.h"
#include "ovendays/base/constants.h"
#include "steady_sun.h"

namespace base = ovendays::base;
namespace heat = ovendays::heat;
namespace oven = ovendays::oven;
using namespace ovendays::test;

namespace {
constexpr double kBand_F = 25.0;

double fahrenheit(double kelvin) { return (kelvin - base::kZeroCelsius_K) * 1.8 + 32.0; }

oven::OvenDesign trial_design(bool flaps) {
  oven::OvenDesign design = oven::default_design();
  design.as_built = oven::kAsDrawn;  // builders report what a clean oven gave
  design.box.inner_width_m = design.box.inner_depth_m = 0.40;
  design.tray->width_m = design.tray->depth_m = 0.35;
  for (oven::Flap& flap : design.flaps) flap.length_m = 0.40;
  if (!flaps) design.flaps.clear();
  return design;
}

/// The reading at a time after the start, and when it first passed a level.
class Thermometer : public heat::StepWatcher {
 public:
  Thermometer(double at_s, double level_F) : at_s_(at_s), level_F_(level_F) {}
  bool on_step(const heat::Step& step) override {
    const auto reading = [&](double share) {
      return fahrenheit(0.5 * (step.at(heat::kNodeAir, share) + step.at(heat::kNodeTray, share)));
    };
    const double span_s = step.end_s - step.start_s;
    if (step.start_s <= at_s_ && at_s_ <= step.end_s)
      at_time_F = reading((at_s_ - step.start_s) / span_s);
    last_F = reading(1.0);
    if (passed_s < 0.0 && last_F >= level_F_) passed_s = step.end_s;
    return true;
  }
  double at_time_F = 0.0;
  double last_F = 0.0;
  double passed_s = -1.0;

 private:
  double at_s_;
  double level_F_;
};

Thermometer try_out(const oven::OvenDesign& design) {
  SteadySun sun;
  sun.wind_ms = 0.5;
  const TrialOven trial(design, nullptr, nullptr);
  Thermometer thermometer(2700.0, 340.0);
  heat::State state = heat::uniform_state(sun.ambient_K);
  const heat::RunSummary summary = trial.run(sun, 8.0, state, &thermometer);
  REQUIRE_FALSE(summary.failed());
  return thermometer;
}
}  // namespace

TEST_CASE("a bare glass box settles near 225 F", "[season][reference]") {
  // Common practice, no source.
  CHECK_THAT(try_out(trial_design(false)).last_F, within_abs(225.0, kBand_F));
}

TEST_CASE("four foil flaps bring the box to 350 to 375 F", "[season][reference]") {
  // Common practice, no source: tops out at 350 to 375 F.
  CHECK_THAT(try_out(trial_design(true)).last_F, within_abs(362.5, 12.5 + kBand_F));
}

TEST_CASE("four foil flaps preheat the box more slowly than builders report",
          "[season][regression]") {
  // A known difference: common practice has 340 F after a preheat of about 40 min; this program
  // reads 300 F after 45 min and settles just below 340 F. Both are its own figures.
  const Thermometer seen = try_out(trial_design(true));
  CHECK_THAT(seen.at_time_F, within_abs(300.0, 5.0));
  CHECK_THAT(seen.last_F, within_abs(335.0, 6.0));
}

TEST_CASE("a rough cardboard prototype tops out near 275 F", "[season][reference]") {
  // Common practice, no source. Rough: no plywood, cardboard an inch thick, dull foil that is not
  // flat, gaps three times as large; the figures for it are judgement.
  oven::OvenDesign design = trial_design(true);
  design.box.wall.resize(1);
  design.box.wall.front().thickness_m = 0.0254;
  design.box.floor = design.box.wall;
  design.box.leak_area_m2 = 6e-4;
  for (oven::Flap& flap : design.flaps) {
    flap.reflectance = 0.55;
    flap.scatter_rad = 7.0 * base::kRadPerDeg;
  }
  CHECK_THAT(try_out(design).last_F, within_abs(275.0, kBand_F));
}
