// SPDX-License-Identifier: MIT
// The uncertain inputs of a spread: their distributions, and how a draw changes a case.
#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "ovendays/base/normal.h"
#include "ovendays/base/random.h"
#include "ovendays/study/spread.h"

namespace ovendays::study {
namespace {

using Shape = UncertainInput::Shape;
enum Index : std::size_t {
  kFlaps,
  kLeak,
  kConductivity,
  kWind,
  kMass,
  kStart,
  kFoot,
  kLid,
  kSteam,
  kClean,
  kFlapSet,
  kLosses,
  kLate,
  kFoodHeat
};

/// 90th percentile of the standard normal distribution.
constexpr double kP90Deviate = 1.2815515655446004;
/// 95th percentile: the 90th of the absolute value.
constexpr double kP95Deviate = 1.6448536269514722;
constexpr double kLeastReflectance = 0.02, kMostReflectance = 0.98;
constexpr double kLeastShare = 0.3;  // as the case file allows for cleanliness and set of flaps
constexpr double kLeastSteam = 0.02, kMostSteam = 0.12;  // a heavy tight lid, a loose one
constexpr double kLeastStart_K = 273.65;  // food loaded unfrozen is never drawn as frozen

// Leaves missing reflectors (0) alone and keeps the rest physical.
double reflectance_with(double reflectance, double factor) {
  if (reflectance <= 0.0) return reflectance;
  return std::clamp(reflectance * factor, kLeastReflectance, kMostReflectance);
}

// A case outside the usual band keeps its own value as the end of the band.
double steam_with(double share, double factor) {
  return std::clamp(share * factor, std::min(share, kLeastSteam), std::max(share, kMostSteam));
}

void build_with(oven::AsBuilt& built, const Draw& draw) {
  built.cleanliness = std::clamp(built.cleanliness + draw.value[kClean], kLeastShare, 1.0);
  built.flap_set = std::clamp(built.flap_set + draw.value[kFlapSet], kLeastShare, 1.0);
  built.loss_factor *= draw.value[kLosses];
  built.lid_factor *= draw.value[kLid];
  built.food_heat_factor *= draw.value[kFoodHeat];
}
}  // namespace

const std::array<UncertainInput, kUncertainInputs>& uncertain_inputs() {
  static const std::array<UncertainInput, kUncertainInputs> all = {{
      {Shape::kNormalFactor,
       1.07,
       "1",
       "flap_reflectance",
       "reflectance of the flaps",
       "how the foil was glued and has aged; common practice, no source"},
      {Shape::kLogNormalFactor,
       2.0,
       "1",
       "leak_area",
       "gaps of lid and door",
       "a hand-fitted seal, good or bad; common practice, no source"},
      {Shape::kLogNormalFactor,
       1.2,
       "1",
       "conductivity",
       "conductivity of the insulation",
       "how tightly it is packed and how damp it is; common practice, no source"},
      {Shape::kLogNormalFactor,
       1.6,
       "1",
       "wind",
       "wind at the oven",
       "shelter near the ground is guesswork; common practice, no source"},
      {Shape::kNormalFactor,
       1.15,
       "1",
       "food_mass",
       "mass of the food",
       "how exactly the cook measures; common practice, no source"},
      {Shape::kNormalShift,
       4.0,
       "K",
       "food_start_K",
       "temperature of the food when loaded",
       "how long it stood outside the refrigerator; common practice, no source"},
      {Shape::kLogNormalFactor,
       1.9,
       "1",
       "foot_gap",
       "gap under the vessel's foot",
       "a flat or a dented foot, on a flat or a warped tray; judgement"},
      {Shape::kLogNormalFactor,
       2.2,
       "1",
       "lid_heat",
       "heat through a lid",
       "headspace and fit of lid and rim; judgement"},
      {Shape::kLogNormalFactor,
       2.2,
       "1",
       "lid_steam",
       "steam past a lid",
       "a heavy tight lid or a loose one; judgement"},
      {Shape::kNormalShift,
       0.03 * kP90Deviate,
       "1",
       "cleanliness",
       "light left by dirty glass and foil",
       "how often they are washed; judgement"},
      {Shape::kNormalShift,
       0.06 * kP90Deviate,
       "1",
       "flap_set",
       "light left by the flaps' set",
       "sag of the foil, gaps, angles set by eye; judgement"},
      {Shape::kLogNormalFactor,
       1.15,
       "1",
       "losses",
       "losses as built",
       "convection at the pane, edges and corners, frame; judgement"},
      {Shape::kLater,
       900.0,
       "s",
       "re_aim_late_s",
       "lateness of each turn",
       "how late people turn it; judgement"},
      {Shape::kLogNormalFactor,
       1.21,
       "1",
       "food_heat",
       "heat into the food",
       "what the model does not know: sd of ln 0.15, on its own against measured loaded ovens "
       "(tests/data/README.md)"},
  }};
  return all;
}

double value_at(const UncertainInput& input, double share) {
  if (input.shape == Shape::kLater)  // the half-normal distribution
    return input.p90 * base::normal_quantile(0.5 + 0.5 * share) / kP95Deviate;
  const double deviate = base::normal_quantile(share) / kP90Deviate;
  switch (input.shape) {
    case Shape::kNormalFactor:
      return 1.0 + (input.p90 - 1.0) * deviate;
    case Shape::kLogNormalFactor:
      return std::pow(input.p90, deviate);
    case Shape::kNormalShift:
    case Shape::kLater:
      break;
  }
  return input.p90 * deviate;
}

std::vector<Draw> make_draws(std::size_t count, std::uint64_t seed, std::size_t years) {
  std::vector<Draw> draws(count);
  std::vector<std::size_t> stratum(count);
  for (std::size_t k = 0; k < kUncertainInputs; ++k) {
    base::KeyedRandom random(seed, k);
    // Fisher and Yates's shuffle deals the strata of this input out to the draws.
    std::iota(stratum.begin(), stratum.end(), std::size_t{0});
    for (std::size_t i = count; i > 1; --i) {
      const auto j = static_cast<std::size_t>(random.uniform() * static_cast<double>(i));
      std::swap(stratum[i - 1], stratum[j]);
    }
    for (std::size_t i = 0; i < count; ++i) {
      const double share =
          (static_cast<double>(stratum[i]) + random.uniform()) / static_cast<double>(count);
      // Stay inside the open interval, because the normal deviate is infinite at its ends.
      draws[i].value[k] = value_at(uncertain_inputs()[k], std::clamp(share, 1e-9, 1.0 - 1e-9));
    }
  }
  for (std::size_t i = 0; i < count; ++i) draws[i].year = i % years;
  return draws;
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
  build_with(changed.oven.as_built, draw);
  for (oven::Vessel& vessel : changed.oven.vessels) {
    vessel.foot_gap_m *= draw.value[kFoot];
    vessel.lid_steam_share = steam_with(vessel.lid_steam_share, draw.value[kSteam]);
  }
  changed.spot.wind_factor *= draw.value[kWind];
  changed.routine.re_aim_late_s += draw.value[kLate];
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
