// SPDX-License-Identifier: MIT
// The uncertain inputs of a spread: their distributions, and how a draw changes a case.
#include <algorithm>
#include <cmath>

#include "ovendays/base/normal.h"
#include "ovendays/base/random.h"
#include "ovendays/study/spread.h"

namespace ovendays::study {
namespace {

using Shape = UncertainInput::Shape;
enum Index : std::size_t { kFlaps, kLeak, kConductivity, kWind, kMass, kStart };

/// 90th percentile of the standard normal distribution.
constexpr double kP90Deviate = 1.2815515655446004;
constexpr double kLeastReflectance = 0.02, kMostReflectance = 0.98;
constexpr double kLeastStart_K = 273.65;  // food loaded unfrozen is never drawn as frozen

// Leaves missing reflectors (0) alone and keeps the rest physical.
double reflectance_with(double reflectance, double factor) {
  if (reflectance <= 0.0) return reflectance;
  return std::clamp(reflectance * factor, kLeastReflectance, kMostReflectance);
}
}  // namespace

const std::array<UncertainInput, kUncertainInputs>& uncertain_inputs() {
  static const std::array<UncertainInput, kUncertainInputs> all = {{
      {Shape::kNormalFactor,
       1.07,
       "flap_reflectance",
       "reflectance of the flaps",
       "how the foil was glued and has aged; common practice, no source"},
      {Shape::kLogNormalFactor,
       2.0,
       "leak_area",
       "gaps of lid and door",
       "a hand-fitted seal, good or bad; common practice, no source"},
      {Shape::kLogNormalFactor,
       1.2,
       "conductivity",
       "conductivity of the insulation",
       "how tightly it is packed and how damp it is; common practice, no source"},
      {Shape::kLogNormalFactor,
       1.6,
       "wind",
       "wind at the oven",
       "shelter near the ground is guesswork; common practice, no source"},
      {Shape::kNormalFactor,
       1.15,
       "food_mass",
       "mass of the food",
       "how exactly the cook measures; common practice, no source"},
      {Shape::kNormalShift,
       4.0,
       "food_start_K",
       "temperature of the food when loaded",
       "how long it stood outside the refrigerator; common practice, no source"},
  }};
  return all;
}

double value_at(const UncertainInput& input, double share) {
  const double deviate = base::normal_quantile(share) / kP90Deviate;
  switch (input.shape) {
    case Shape::kNormalFactor:
      return 1.0 + (input.p90 - 1.0) * deviate;
    case Shape::kLogNormalFactor:
      return std::pow(input.p90, deviate);
    case Shape::kNormalShift:
      break;
  }
  return input.p90 * deviate;
}

Draw make_draw(std::size_t index, std::uint64_t seed, std::size_t years) {
  Draw draw;
  const auto point = base::additive_point<static_cast<int>(kUncertainInputs)>(index, 0.0);
  // One random shift for each input (Cranley and Patterson); it depends on the seed only, so that
  // draw i is the same however many draws there are.
  base::KeyedRandom shifts(seed);
  for (std::size_t k = 0; k < kUncertainInputs; ++k) {
    const double shifted = point[k] + shifts.uniform();
    const double share = shifted - std::floor(shifted);
    // Stay inside the open interval, because the normal deviate is infinite at its ends.
    draw.value[k] = value_at(uncertain_inputs()[k], std::clamp(share, 1e-9, 1.0 - 1e-9));
  }
  draw.year = index % years;
  return draw;
}

season::Case with_draw(const season::Case& c, const Draw& draw) {
  season::Case changed = c;
  for (oven::Flap& flap : changed.oven.flaps) {
    flap.reflectance = reflectance_with(flap.reflectance, draw.value[kFlaps]);
  }
  oven::CornerPanels& corners = changed.oven.corners;
  corners.reflectance = reflectance_with(corners.reflectance, draw.value[kFlaps]);
  changed.oven.box.leak_area_m2 *= draw.value[kLeak];
  for (auto* layers : {&changed.oven.box.wall, &changed.oven.box.floor}) {
    for (oven::Layer& layer : *layers) {
      layer.material.conductivity_WmK *= draw.value[kConductivity];
    }
  }
  changed.spot.wind_factor *= draw.value[kWind];
  for (task::Task& t : changed.tasks) {
    const double factor = std::max(0.3, draw.value[kMass]);
    t.food.mass_kg *= factor;
    t.food.water_kg *= factor;
    const double least_K = std::min(t.start_K, kLeastStart_K);
    t.start_K = std::max(least_K, t.start_K + draw.value[kStart]);
  }
  return changed;
}
}  // namespace ovendays::study
